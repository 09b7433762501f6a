/** All annotation files that lie beside a record, as one list in order of time. */
import { type Annotation, seconds } from "../../model/index.js";
import type { ProblemLog } from "../problem-log.js";
import type { Folder } from "../recording.js";
import { noteCode } from "./annotation-codes.js";
import { type Mark, readAnnotationFile } from "./annotation-file.js";

/**
 * Names of annotators that are tried, reference annotations first. A folder can't be listed, so a
 * file of another name is not found. `atr` is the reference by convention; the others are common practice.
 */
export const annotators = [
  "atr",
  "ann",
  "ecg",
  "qrs",
  "ari",
  "man",
  "wqrs",
  "gqrs",
  "sqrs",
  "abp",
  "wabp",
  "ppg",
  "pleth",
  "beats",
  "al",
  "alarms",
  "aux",
  "st",
  "marker",
] as const;

/**
 * Beats come from the first file that has any: beats of two annotators are the same beats twice.
 * Those of the others stay in the list as `other`, with the annotator's name.
 *
 * @param rate frames per second
 * @param end  seconds of the record; `null` while unknown
 */
export async function readAnnotations(
  record: string,
  folder: Folder,
  rate: number,
  end: number | null,
  log: ProblemLog,
): Promise<Annotation[]> {
  const all: Annotation[] = [];
  let beatsFrom: string | null = null;
  for (const annotator of annotators) {
    const source = await folder.open(`${record}.${annotator}`);
    if (source === null) continue;
    const file = await readAnnotationFile(source, log);
    if (file === null) continue;
    const clock = file.resolution ?? rate;
    const hasBeats = file.marks.some(({ beat }) => beat);
    if (hasBeats && beatsFrom !== null) {
      const found = `beats from ${beatsFrom} too; these are kept as remarks`;
      log.add("beats-twice", "note", source.name, "beats of one annotator", found);
    }
    const first = hasBeats && beatsFrom === null;
    if (first) beatsFrom = source.name;
    let outside = 0;
    for (const mark of file.marks) {
      const time = mark.tick / clock;
      if (time < 0 || (end !== null && time > end + 1)) outside += 1;
      all.push({ time: seconds(time), duration: null, ...meaning(mark, first ? null : annotator) });
    }
    if (outside > 0) {
      const expected = `times from 0 to ${end ?? "the end"} s`;
      log.add(
        "annotation-outside",
        "lost-part",
        source.name,
        expected,
        `${outside} outside; kept as they are`,
      );
    }
  }
  return all.sort((a, b) => a.time - b.time);
}

/** @param annotator named with beats that are not taken as beats; `null` where they are */
function meaning(mark: Mark, annotator: string | null): Pick<Annotation, "kind" | "text"> {
  const { code, mnemonic, beat, aux } = mark;
  if (code === noteCode && aux !== "") return { kind: "note", text: aux };
  const text = aux === "" ? mnemonic : `${mnemonic} ${aux}`;
  if (beat && annotator !== null) return { kind: "other", text: `${text} (${annotator})` };
  return { kind: beat ? "beat" : "other", text };
}
