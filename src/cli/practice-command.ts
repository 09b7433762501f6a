/** `limbtide practice`: a recording of the simulated limb, with the truth beside it. */
import { encodeText } from "../formats/encode-text.js";
import { clockText, decidesLine } from "../handover/index.js";
import { PracticeError, type Scenario, scenarioNamed, scenarios } from "../practice/index.js";
import type { Given } from "./arguments.js";
import type { Command } from "./command.js";
import { type OutPlace, outPlace, writeOut } from "./practice-files.js";
import { scenarioListJson, truthJson } from "./practice-json.js";
import { type PracticeOptions, recordScenario } from "./practice-record.js";
import { progressLine } from "./progress-line.js";
import type { Shell } from "./shell.js";
import { type ExitCode, exitCodes, usageStop } from "./stop.js";
import { textWidthOf, wrapLines } from "./wrap-lines.js";

const usualRate = 125;

export const practiceCommand: Command = {
  name: "practice",
  takes: "--scenario NAME --out FILE | --list",
  summary: "records the simulated limb in a scenario, with the truth beside the signal",
  options: [
    { name: "list", value: null, help: "the scenarios, what each teaches and its cautions" },
    { name: "scenario", value: "NAME", help: "which one" },
    { name: "out", value: "FILE", help: "where to: a .csv table, an .edf (EDF+) or a .hea (WFDB)" },
    { name: "seed", value: "N", help: "another person and another day; a whole number, 1 unless given" },
    {
      name: "rate",
      value: "HZ",
      help: `samples a second, a whole number from 25 to 1000; ${usualRate} unless given`,
    },
    {
      name: "choke-pressure",
      value: "MMHG",
      help: "the unsettled constant of an artery under a half-closed cuff, −12 to −2 (docs/practice-limb.md)",
    },
  ],
  notes: [
    "Beside FILE stand NAME.truth in the same format, with flow, pressures, saturation, the way of the pulse and the true perfusion index at each sample, and NAME.truth.json with every beat. The same seed gives the same files.",
    "A simulated limb is not a person: it trains eyes and tests detectors, and proves nothing about limbs.",
  ],
  examples: [
    ["limbtide practice --list", "what there is"],
    ["limbtide practice --scenario artery-shut --out shut.csv", "a table with the light of both hands"],
    ["limbtide practice --scenario cuff-by-wave --seed 7 --out cuff.edf", "another person, as EDF+"],
  ],
  async run(given, shell) {
    if (given.files.length > 0) {
      throw usageStop(`practice takes no files: --out ${given.files[0]}? limbtide practice --help shows how`);
    }
    if (given.has("list")) {
      shell.out(given.has("json") ? `${JSON.stringify(scenarioListJson())}\n` : listText(shell));
      return exitCodes.answered;
    }
    const scenario = scenarioOf(given);
    const place = placeOf(given);
    const options = optionsOf(given);
    return await act(scenario, place, options, given.has("json"), shell);
  },
};

async function act(
  scenario: Scenario,
  place: OutPlace,
  options: PracticeOptions,
  json: boolean,
  shell: Shell,
): Promise<ExitCode> {
  const width = textWidthOf(shell);
  if (!json) shell.out(cautionLines(scenario, width));
  const progress = progressLine(shell, `acting out ${scenario.name}`);
  const record = await withoutPracticeError(() =>
    recordScenario(scenario, place.name, options, progress.report),
  ).finally(progress.done);
  const truth = JSON.stringify(truthJson(scenario, options, record.beats));
  const files = [
    ...place.write(record.light),
    ...place.write(record.truth),
    { name: `${place.name}.truth.json`, pieces: [encodeText(`${truth}\n`)] },
  ];
  const written: string[] = [];
  for (const file of files) written.push(await writeOut(place.folder, file));
  const sites = record.light.channels.map(({ name }) => name);
  if (json) {
    const { seed, rate } = options;
    const answer = { schema: "limbtide.practice/1", scenario: scenario.name, seed, rate_hz: rate };
    const rest = { duration_s: scenario.seconds, channels: sites, files: written };
    shell.out(
      `${JSON.stringify({ ...answer, ...rest, teaches: scenario.teaches, cautions: scenario.cautions })}\n`,
    );
  } else {
    const lines = [
      `${scenario.name}, ${clockText(scenario.seconds)}, seed ${options.seed}: ${scenario.teaches}`,
      `Channels: ${sites.join(", ")}.`,
      `Written: ${written.join(", ")}.`,
    ];
    shell.out(lines.map((line) => `${wrapLines(line, width)}\n`).join(""));
  }
  return exitCodes.answered;
}

function cautionLines({ cautions }: Scenario, width: number): string {
  if (cautions.length === 0) return "";
  const lines = ["Before anyone copies this on a person:", ...cautions.map((line) => `– ${line}`)];
  return `${lines.map((line) => wrapLines(line, width)).join("\n")}\n\n`;
}

function listText(shell: Shell): string {
  const width = textWidthOf(shell);
  const blocks = scenarios.map(({ name, seconds, teaches, cautions }) => {
    const said = wrapLines(teaches, width, "  ", "  ");
    const careful = cautions.map((line) => wrapLines(`– ${line}`, width, "  ", "    "));
    return [`${name}  ${clockText(seconds)}`, said, ...careful].join("\n");
  });
  return `${[...blocks, wrapLines(decidesLine, width)].join("\n\n")}\n`;
}

/** @throws {Stop} usage */
function scenarioOf(given: Given): Scenario {
  const name = given.text("scenario");
  if (name === null)
    throw usageStop("practise what? --scenario NAME; limbtide practice --list shows the names");
  const found = scenarios.find((one) => one.name === name);
  if (found === undefined) {
    throw usageStop(
      `no scenario "${name}"; limbtide practice --list shows the ${scenarios.length} there are`,
    );
  }
  return scenarioNamed(found.name);
}

/** @throws {Stop} usage */
function placeOf(given: Given): OutPlace {
  const out = given.text("out");
  if (out === null) throw usageStop("write it where? --out FILE, ending in .csv, .edf or .hea");
  return outPlace(out);
}

/** @throws {Stop} usage */
function optionsOf(given: Given): PracticeOptions {
  return {
    seed: wholeNumber(given, "seed", 0, 0xffffffff) ?? 1,
    rate: wholeNumber(given, "rate", 25, 1000) ?? usualRate,
    chokePressure: chokeOf(given),
  };
}

function wholeNumber(given: Given, name: string, least: number, most: number): number | null {
  const text = given.text(name);
  if (text === null) return null;
  const value = Number(text);
  if (text.trim() !== "" && Number.isInteger(value) && value >= least && value <= most) return value;
  throw usageStop(`--${name} ${text}: a whole number from ${least} to ${most}`);
}

function chokeOf(given: Given): number | null {
  const text = given.text("choke-pressure");
  if (text === null) return null;
  const value = Number(text.replace("−", "-"));
  if (text.trim() !== "" && value >= -12 && value <= -2) return value;
  throw usageStop(`--choke-pressure ${text}: mmHg from -12 to -2`);
}

/** A setting the model refuses is a mistake on the command line. */
async function withoutPracticeError<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof PracticeError) throw usageStop(error.message);
    throw error;
  }
}
