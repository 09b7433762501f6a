/** `limbtide read`: beats and capture grade of recordings. */
import { readOptionsOf, siteOf, sourceOptions } from "./arguments.js";
import { chooseReference, referenceOption } from "./choose-reference.js";
import type { Command } from "./command.js";
import { OpenFiles } from "./file-source.js";
import { mustHaveKinds, mustHaveRead, type OpenedSource, openSource } from "./open-source.js";
import { paintFor } from "./paint.js";
import { pictureForm, writePicture } from "./picture-file.js";
import { progressLine } from "./progress-line.js";
import { readJson } from "./read-json.js";
import { readPicture } from "./read-picture.js";
import { readText } from "./read-text.js";
import { type ExitCode, exitCodes, gravest, Stop, usageStop } from "./stop.js";
import { textWidthOf } from "./wrap-lines.js";

export const readCommand: Command = {
  name: "read",
  takes: "SOURCE…",
  summary: "finds the beats and says, stretch by stretch, whether the pleth can be believed",
  options: [
    ...sourceOptions,
    {
      name: "site",
      value: '"SIDE DIGIT"',
      help: 'where the probe sat, e.g. "left great toe"; never guessed',
    },
    referenceOption,
    { name: "picture", value: "FILE", help: "also draw it: a .svg, or a .png; one source only" },
  ],
  notes: [
    "Every stretch has a capture grade: ◆ solid (pulses found, alike and regular), ◇ shaky (pulses likely, not to be trusted), ○ none (working probe, no pulse wave), ╳ off (no working probe), ▨ unreadable (movement or noise). Numbers of a stretch that is not solid are marked not believable.",
    "Answered means: at least one stretch is solid. With several sources the gravest exit code counts, and --json writes one document a line.",
  ],
  examples: [
    ["limbtide read data/recordings/bidmc_01.hea", "reads the one pleth in the record"],
    ['limbtide read "P12_baseline.csv#PPG Finger@0:30-2:00"', "one channel, ninety seconds of it"],
    ["limbtide read --rate 100 --picture strip.png data.csv", "a bare column of numbers, drawn as a strip"],
    ["limbtide read --json *.edf > readings.jsonl", "many files, one JSON document a line"],
  ],
  async run(given, shell) {
    if (given.files.length === 0) throw usageStop("read what? Name a file; limbtide read --help shows how");
    const site = siteOf(given, "site");
    const options = readOptionsOf(given);
    const picture = given.text("picture");
    if (picture !== null) pictureForm(picture);
    if (picture !== null && given.files.length > 1) {
      throw usageStop(`--picture takes one source; ${given.files.length} were named`);
    }
    const codes: ExitCode[] = [];
    const opened: OpenedSource[] = [];
    for (const text of given.files) {
      try {
        codes.push(await readOne(text));
      } catch (error) {
        if (!(error instanceof Stop) || given.files.length === 1) throw error;
        shell.err(`limbtide: ${error.line}\n`);
        codes.push(error.code);
      }
    }
    if (opened.length > 1) mustHaveKinds(options, opened);
    return gravest(codes);

    async function readOne(text: string): Promise<ExitCode> {
      const files = new OpenFiles();
      try {
        const source = await openSource(text, options, shell.engine, files);
        opened.push(source);
        if (given.files.length === 1) mustHaveKinds(options, opened);
        const reference = await chooseReference(
          given.text("reference"),
          source,
          options,
          shell.engine,
          files,
        );
        const progress = progressLine(shell, `reading ${text}`);
        const reading = await shell.engine
          .read(source.recording, source.at, source.span, progress.report, reference?.heart ?? null)
          .finally(progress.done);
        mustHaveRead(source, reading.windows);
        if (picture !== null) await writePicture(picture, await readPicture(source, site, reading));
        if (given.has("json")) shell.out(`${JSON.stringify(readJson(source, site, reading, reference))}\n`);
        else {
          const look = { paint: paintFor(shell), width: textWidthOf(shell) };
          shell.out((codes.length > 0 ? "\n" : "") + readText({ source, site, reading, reference, ...look }));
        }
        const solid = reading.windows.some((window) => window.capture === "solid");
        return solid ? exitCodes.answered : exitCodes.cannotTell;
      } finally {
        await files.close();
      }
    }
  },
};
