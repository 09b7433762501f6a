/** `limbtide score`: a folder of marked recordings, read and counted. */
import { readOptionsOf, sourceOptions } from "./arguments.js";
import type { Command } from "./command.js";
import { paintFor } from "./paint.js";
import { progressLine } from "./progress-line.js";
import { markedFolder } from "./score-folder.js";
import { scoreJson } from "./score-json.js";
import { type RecordScore, scoreRecord } from "./score-record.js";
import { poolScores } from "./score-summary.js";
import { scoreText } from "./score-text.js";
import { type ExitCode, exitCodes, gravest, Stop, usageStop } from "./stop.js";

export const scoreCommand: Command = {
  name: "score",
  takes: "FOLDER",
  summary:
    "holds beats and grades against hand-made marks: sensitivity, precision, F1, timing, grades by label",
  options: sourceOptions,
  notes: [
    "The folder holds recordings in FOLDER/recordings, in FOLDER itself or one folder below; marks in FOLDER/beats/NAME.csv (columns kind,time_s; kind P is a systolic peak; seconds after the first sample), spans without marks in FOLDER/beats/NAME.unreadable.csv (start_s,end_s,channel,reason), labelled windows in FOLDER/windows/NAME.csv (start_s,end_s,label; good, doubtful, none, unreadable). NAME.beats.csv, NAME.unreadable.csv and NAME.windows.csv right beside the recording do as well.",
    "Which recording belongs to NAME: FOLDER/marked.csv says so if it is there (name,source,rate_hz; source is FILE or FILE#CHANNEL), else the recording is NAME.hea, .edf, .mat, .csv, .txt or .json. Of several pleths the one that NAME.unreadable.csv speaks of is read.",
    "A beat counts as found within 150 ms of a mark, each mark once. A window's grade is the one that fills most of it.",
  ],
  examples: [
    ["limbtide score data", "the recordings that come with limbtide"],
    ["limbtide score data --json", "the same for a program"],
  ],
  async run(given, shell) {
    const [folder, ...more] = given.files;
    if (folder === undefined || more.length > 0) {
      throw usageStop(`score takes one folder; ${given.files.length} named. limbtide score --help shows how`);
    }
    const options = readOptionsOf(given);
    const { records, leftOut } = await markedFolder(folder);
    const scores: RecordScore[] = [];
    const codes: ExitCode[] = [];
    const skipped = [...leftOut];
    for (const { name, why } of leftOut) {
      shell.err(`limbtide: ${folder}: ${name}: ${why}\n`);
      codes.push(exitCodes.badInput);
    }
    for (const record of records) {
      if (record.beats === null && record.windows === null) {
        skipped.push({ name: record.name, why: "no beats and no windows marked" });
        continue;
      }
      const progress = progressLine(shell, `scoring ${record.name}`);
      try {
        scores.push(await scoreRecord(record, options, shell.engine, progress.report).finally(progress.done));
      } catch (error) {
        if (!(error instanceof Stop)) throw error;
        shell.err(`limbtide: ${error.line}\n`);
        skipped.push({ name: record.name, why: error.line });
        codes.push(error.code);
      }
    }
    const pooled = poolScores(scores);
    if (given.has("json")) shell.out(`${JSON.stringify(scoreJson(folder, scores, pooled, skipped))}\n`);
    else shell.out(scoreText(scores, pooled, skipped, paintFor(shell)));
    if (scores.length === 0) codes.push(exitCodes.cannotTell);
    return gravest(codes);
  },
};
