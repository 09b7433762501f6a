/** What is wrong with a clock, in words for the user. */
import type { RowClock } from "../clock-fit.js";
import type { ClockShape } from "../clock-track.js";
import { problem, type Tally, times } from "./tally.js";

/**
 * @param file  name of the file, for places by line
 * @param where the clock column, for what concerns all of it
 */
export function tellClock(
  file: string,
  shape: ClockShape,
  clock: RowClock,
  midnights: number,
  where: string,
  tally: Tally,
): void {
  const { faults } = shape;
  const note = (code: string, weight: "note" | "lost-part", place: string, expected: string, found: string) =>
    tally.report(code, 1, problem(code, weight, place, expected, found));
  const seen = (
    fault: { count: number; line: number },
    code: string,
    weight: "note" | "lost-part",
    expected: string,
    what: string,
  ) => {
    if (fault.count > 0)
      note(code, weight, `${file}, line ${fault.line}`, expected, `${what}, ${times(fault.count)}`);
  };
  if (!clock.even) {
    const found = `a clock up to ${(1000 * clock.farthest).toPrecision(3)} ms off one rate (largest step ${(1000 * faults.largestStep.count).toPrecision(3)} ms, line ${faults.largestStep.line}); values put on an even grid of ${clock.rate} per second along it`;
    note("clock-uneven", "note", where, "even times", found);
  }
  const gaps = shape.pieces
    .slice(1)
    .filter(
      (piece) => !(clock.joined && piece.small) && (clock.cutRow === null || piece.firstRow < clock.cutRow),
    );
  const [gap] = gaps;
  if (gap !== undefined) {
    const total = gaps.reduce((sum, { missing }) => sum + missing, 0);
    const found =
      gaps.length === 1
        ? `${short(gap.missing)} missing`
        : `${gaps.length} gaps, ${short(total)} missing, the first ${short(gap.missing)}`;
    note("gap", "note", `${file}, line ${gap.line}`, "rows without gaps", found);
  }
  if (clock.between) {
    note(
      "gap-off-grid",
      "note",
      where,
      "gaps of whole intervals",
      "one that is not; values after it were read between rows",
    );
  }
  if (clock.cutRow !== null) {
    const piece = shape.pieces.find(({ firstRow }) => firstRow === clock.cutRow);
    const found = `${short(piece?.missing ?? 0)} missing; rows from here on were left out`;
    note("gap-too-long", "lost-part", `${file}, line ${piece?.line ?? 0}`, "gaps of days at most", found);
  }
  if (clock.joined)
    note("clock-holes", "note", where, "rows without gaps", "many small holes, taken as an uneven clock");
  seen(
    faults.missing,
    "time-missing",
    "note",
    "a time in each row",
    "none that can be read, row taken in its order",
  );
  seen(faults.backwards, "time-backwards", "note", "rising times", "a time before the one above, not used");
  seen(faults.outlier, "time-outlier", "note", "rising times", "a time far from its neighbours, not used");
  seen(
    faults.doubled,
    "time-doubled",
    "note",
    "rising times",
    "the time of the row above again, row left out",
  );
  const restart = "a clock that fell back and went on; how long the pause was is not known";
  seen(faults.restarted, "clock-restarted", "lost-part", "rising times", restart);
  if (midnights > 0)
    note("midnight-passed", "note", where, "times of one day", `midnight passed, ${times(midnights)}`);
}

function short(time: number): string {
  if (time >= 120) return `${Number((time / 60).toPrecision(3))} min`;
  return time >= 1 ? `${Number(time.toPrecision(4))} s` : `${Number((1000 * time).toPrecision(3))} ms`;
}
