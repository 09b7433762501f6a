/** `limbtide compare`: the suspect side against the sound side. */
import { resolve } from "node:path";
import { readOptionsOf, siteOf, sourceOptions } from "./arguments.js";
import { type ChosenReference, chooseReference, referenceOption } from "./choose-reference.js";
import type { Command } from "./command.js";
import { compareJson } from "./compare-json.js";
import { comparePicture } from "./compare-picture.js";
import { compareText } from "./compare-text.js";
import { contextOf, declaredOf, declaredOptions } from "./declared-options.js";
import { OpenFiles } from "./file-source.js";
import { mustHaveKinds, mustHaveRead, type OpenedSource, openSource } from "./open-source.js";
import { paintFor } from "./paint.js";
import { pictureForm, writePicture } from "./picture-file.js";
import { progressLine } from "./progress-line.js";
import { exitCodes, usageStop } from "./stop.js";
import { textWidthOf } from "./wrap-lines.js";

export const compareCommand: Command = {
  name: "compare",
  takes: "SOUND SUSPECT",
  summary:
    "holds the limb in question against the sound one: is there a wave, is it weaker, does it come later",
  options: [
    ...sourceOptions,
    {
      name: "sound-site",
      value: '"SIDE DIGIT"',
      help: "where the sound probe sat; never guessed, never swapped",
    },
    { name: "suspect-site", value: '"SIDE DIGIT"', help: "where the suspect probe sat" },
    ...declaredOptions,
    referenceOption,
    { name: "picture", value: "FILE", help: "also draw the waterline: a .svg, or a .png" },
  ],
  notes: [
    "The sound side comes first. SIDE is sound, suspect, both or neither; what is left out counts as not stated, which is not the same as no.",
    "Sizes are compared only between raw light of one colour; a display trace gives rhythm, timing and presence. Delays are compared only when both channels come from one file.",
    "The test for a wave on the suspect side goes by the sound side's own beats where both were recorded at once, else by the reference, else by nothing. With two files, name a --reference only if it shares the clock of both.",
  ],
  examples: [
    [
      'limbtide compare "data/recordings/P12_baseline.csv#PPG Finger" "data/recordings/P12_baseline.csv#PPG Ear" --same-digit no',
      "two sites of one person, from the recordings that come with limbtide",
    ],
    [
      'limbtide compare pair.csv#RIGHT_IR pair.csv#LEFT_IR --sound-site "right middle finger" --suspect-site "left middle finger"',
      "both hands recorded at once",
    ],
    [
      "limbtide compare sound.csv suspect.csv --rate 100 --cold suspect --mechanism fracture --picture answer.png",
      "one after the other, with what is known, drawn as a waterline",
    ],
    [
      'limbtide compare toe.hea@0-60 toe.hea@5:00-6:00 --sound-site "left great toe" --suspect-site "left great toe"',
      "no sound side: the limb's own first minute as the reference",
    ],
  ],
  async run(given, shell) {
    const [soundText, suspectText, ...more] = given.files;
    if (soundText === undefined || suspectText === undefined || more.length > 0) {
      throw usageStop(
        `compare takes two sources, the sound side first; ${given.files.length} named. limbtide compare --help shows how`,
      );
    }
    const options = readOptionsOf(given);
    const picture = given.text("picture");
    if (picture !== null) pictureForm(picture);
    const sites = { sound: siteOf(given, "sound-site"), suspect: siteOf(given, "suspect-site") };
    const declared = { sound: declaredOf(given, "sound"), suspect: declaredOf(given, "suspect") };
    // Checked before any file is opened, so that a mistyped word is told at once.
    contextOf(given, false);
    const files = new OpenFiles();
    try {
      const sound = await openSource(soundText, options, shell.engine, files);
      const suspect = await openSource(suspectText, options, shell.engine, files);
      mustHaveKinds(options, [sound, suspect]);
      const oneFile = resolve(sound.file) === resolve(suspect.file);
      if (oneFile && sound.at === suspect.at && overlap(sound, suspect)) {
        throw usageStop(
          "both sources name the same stretch of the same channel; name two sides or two times",
        );
      }
      const wanted = given.text("reference");
      const references = {
        sound: await chooseReference(wanted, sound, options, shell.engine, files, suspect),
        suspect: await chooseReference(wanted, suspect, options, shell.engine, files, sound),
      };
      const progress = progressLine(shell, `comparing ${soundText} and ${suspectText}`);
      const result = await shell.engine
        .compare(
          side(sound, sites.sound, declared.sound, references.sound),
          side(suspect, sites.suspect, declared.suspect, references.suspect),
          contextOf(given, oneFile),
          progress.report,
        )
        .finally(progress.done);
      mustHaveRead(sound, result.soundWindows);
      mustHaveRead(suspect, result.suspectWindows);
      if (picture !== null) {
        await writePicture(picture, await comparePicture(sound, suspect, result, oneFile));
      }
      if (given.has("json"))
        shell.out(`${JSON.stringify(compareJson(sound, suspect, result, references))}\n`);
      else {
        const look = { paint: paintFor(shell), width: textWidthOf(shell) };
        shell.out(compareText({ sound, suspect, result, ...look }));
      }
      return result.comparison.verdict === "cannot-tell" ? exitCodes.cannotTell : exitCodes.answered;
    } finally {
      await files.close();
    }
  },
};

const side = <Site, Declared>(
  source: OpenedSource,
  site: Site,
  declared: Declared,
  reference: ChosenReference | null,
) => ({
  recording: source.recording,
  channel: source.at,
  span: source.span,
  site,
  declared,
  heart: reference?.heart ?? null,
});

/** Whether two spans share a moment. */
function overlap(a: OpenedSource, b: OpenedSource): boolean {
  const start = Math.max(a.span.from ?? 0, b.span.from ?? 0);
  const end = Math.min(a.span.to ?? Number.POSITIVE_INFINITY, b.span.to ?? Number.POSITIVE_INFINITY);
  return start < end;
}
