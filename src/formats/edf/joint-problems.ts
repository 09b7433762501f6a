/** What a record's time says about the recording, in words. */
import type { ProblemLog } from "../problem-log.js";
import type { Joint } from "./timeline.js";

/** A longer silence is not filled: a damaged stamp is likelier than a week's pause. Seconds; working default. */
export const longestGap = 7 * 86_400;

export function tooLong(joint: Joint): boolean {
  return joint.kind === "gap" && joint.length > longestGap;
}

/** @param placed whether the record was moved to its time (EDF+D), or the time only checked */
export function tellJoint(
  joint: Joint,
  record: number,
  placed: boolean,
  file: string,
  log: ProblemLog,
): void {
  if (joint.kind === "joined") return;
  const where = `${file}, record ${record + 1}`;
  const s = (value: number) => `${Number(value.toFixed(6))} s`;
  if (joint.kind === "bad-stamp") {
    const found = joint.stamp === null ? "none that can be read" : s(joint.stamp);
    log.add(
      "record-time",
      "note",
      where,
      `a record time near ${s(joint.due)}`,
      `${found}; taken as following on`,
    );
  } else if (!placed) {
    const expected = "records that follow on, as EDF+C promises";
    log.add("record-time", "lost-part", where, expected, `record time ${s(joint.at)}; taken as following on`);
  } else if (tooLong(joint)) {
    const found = `record time ${s(joint.at)}; the rest is not read`;
    log.add("gap-too-long", "lost-part", where, `at most ${longestGap} s between records`, found);
  } else if (joint.kind === "gap") {
    const found = `${s(joint.length)} missing before ${s(joint.at)}`;
    log.add("gap", "note", where, "records that follow on", found);
  } else {
    const found = `record time ${s(joint.at)}, before the end of the record before; samples told twice dropped`;
    log.add("records-overlap", "lost-part", where, "records in order of time", found);
  }
}
