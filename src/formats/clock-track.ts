/**
 * First pass over a clock column: stamps in, the shape of the clock out, in memory that grows by three
 * numbers a quarter second and nothing per row. What is done with the shape is `clock-fit.ts`.
 *
 * The rule, in order:
 * 1. Stamps are rounded, so no single one is believed. The mean stamp over about a quarter second of rows (longer
 *    where stamps are coarse: 16 times their last printed digit) is an anchor; rounding averages out.
 * 2. A step well beyond the interval is a gap, once the next stamp confirms it. Where stamps are fine and regular,
 *    one missing row counts (1.5 intervals); where they jitter, 3.5 intervals or 4 times the jitter.
 * 3. A single stamp far off, that the next one doesn't confirm, is ignored; the row keeps its place.
 * 4. A stamp a little behind the one before is ignored likewise. A clock that falls back and stays there was
 *    restarted: the rows after it follow on with one sample missing, and their place in time is not known.
 * 5. On a fine regular clock, a row with the very stamp of the row before is a repeat and left out.
 */

/** What the first rows say of a clock; seconds. */
export interface ClockHabit {
  /** Typical time between rows. */
  readonly interval: number;
  /** Distance of steps from the interval that 95 % keep within. */
  readonly jitter: number;
}

export interface ClockPiece {
  /** Row the piece starts with; rows left out are not counted. */
  readonly firstRow: number;
  readonly firstAnchor: number;
  /** Only one to three rows are missing before it. */
  readonly small: boolean;
  /** Line number of its first row, and the seconds missing before it, for the user. */
  readonly line: number;
  readonly missing: number;
}

/** Something seen in stamps: how often, and the line it was first seen in. */
export interface Seen {
  count: number;
  line: number;
}

export interface ClockShape {
  /** Rows kept. */
  readonly rows: number;
  readonly pieces: readonly ClockPiece[];
  /** Mean row and mean stamp (seconds after the first) of each anchor. */
  readonly anchorRow: Float64Array;
  readonly anchorTime: Float64Array;
  readonly anchors: number;
  /** Numbers of rows left out as repeats, counted over all rows; ascending. */
  readonly repeats: readonly number[];
  /** Coarsest rounding met, seconds. */
  readonly printed: number;
  readonly stamped: number;
  readonly faults: Readonly<
    Record<"missing" | "backwards" | "outlier" | "restarted" | "doubled" | "largestStep", Seen>
  >;
}

/** Pieces are not split further beyond this many: such a clock is noise, not gaps. */
const mostPieces = 20_000;
const mostRepeats = 200_000;

/**
 * The habit of a clock from its first stamps (NaN where missing); `null` if they don't move forward.
 *
 * @param printed how finely the stamps are written, seconds
 */
export function clockHabit(stamps: readonly number[], printed: number): ClockHabit | null {
  const good = stamps.filter((t) => !Number.isNaN(t));
  const span = good.length < 2 ? 0 : good[good.length - 1]! - good[0]!;
  let interval = 0;
  for (let reach = 16; reach <= good.length / 3; reach *= 2) {
    const slopes = [];
    for (let i = reach; i < good.length; i++) slopes.push((good[i]! - good[i - reach]!) / reach);
    interval = median(slopes);
    if (interval > 0 && printed <= (interval * reach) / 8) break;
  }
  if (!(interval > 0)) interval = span / Math.max(1, good.length - 1);
  if (!(interval > 0 && Number.isFinite(interval))) return null;
  const steps = good.slice(1).map((t, i) => Math.abs(t - good[i]! - interval));
  steps.sort((a, b) => a - b);
  return { interval, jitter: steps[Math.min(steps.length - 1, Math.floor(0.95 * steps.length))] ?? 0 };
}

export interface ClockTrack {
  /** The next row: seconds (NaN: no stamp), how finely written, and its line for the user. */
  next(stamp: number, printed: number, line: number): void;
  finish(): ClockShape;
}

export function createClockTrack(habit: ClockHabit): ClockTrack {
  const { interval, jitter } = habit;
  const regular = jitter <= interval / 8;
  const anchorRows = Math.max(4, Math.round(0.25 / interval));
  const anchors = createAnchors();
  const pieces: ClockPiece[] = [];
  const repeats: number[] = [];
  const seen = () => ({ count: 0, line: 0 });
  const faults = {
    missing: seen(),
    backwards: seen(),
    outlier: seen(),
    restarted: seen(),
    doubled: seen(),
    largestStep: seen(),
  };
  let all = 0;
  let row = 0;
  let zero = Number.NaN;
  let last = 0;
  let lastRow = 0;
  let lastLine = 0;
  let largest = 0;
  let coarsest = 0;
  let finestNow = Number.POSITIVE_INFINITY;
  let finestBefore = Number.POSITIVE_INFINITY;
  let stamped = 0;
  let printedBefore = Number.POSITIVE_INFINITY;
  let printedLast = Number.POSITIVE_INFINITY;
  let pending = false;
  let pendingTime = 0;
  let pendingRow = 0;
  let pendingLine = 0;

  function note(fault: Seen, line: number): void {
    if (fault.count++ === 0) fault.line = line;
  }

  /** Largest step over `rows` rows that is no gap; `printed`: how finely the stamps nearby are written. */
  function limitAfter(rows: number, printed: number): number {
    const slack = regular
      ? Math.max(interval / 2, printed / 2) + interval / 10
      : Math.max(2.5 * interval, 4 * jitter, 1.5 * printed);
    return rows * interval + slack;
  }

  /** The clock jumped at the pending row and stayed there. */
  function confirm(): void {
    const rows = pendingRow - lastRow;
    let missing = pendingTime - last - rows * interval;
    if (missing < 0) {
      note(faults.restarted, pendingLine);
      const shift = last + (rows + 1) * interval - pendingTime;
      zero -= shift;
      pendingTime += shift;
      missing = interval;
    }
    if (pieces.length < mostPieces) {
      anchors.close();
      const small = missing <= 3 * interval;
      pieces.push({ firstRow: pendingRow, firstAnchor: anchors.length, small, line: pendingLine, missing });
    }
    accept(pendingTime, pendingRow, pendingLine);
    pending = false;
  }

  function accept(t: number, at: number, line: number): void {
    if (t - last > largest) {
      largest = t - last;
      faults.largestStep.line = line;
    }
    // A stamp standing still is rounding: the next step counts from where it first stood.
    if (t !== last || at === 0) {
      last = t;
      lastRow = at;
      lastLine = line;
    }
    anchors.add(at, t);
  }

  return {
    next(stamp, printed, line) {
      if (all++ === 0) pieces.push({ firstRow: 0, firstAnchor: 0, small: false, line, missing: 0 });
      if (Number.isNaN(stamp)) {
        note(faults.missing, line);
        row++;
        return;
      }
      if (stamped++ % 64 === 0) {
        finestBefore = finestNow;
        finestNow = printed;
      } else if (printed < finestNow) finestNow = printed;
      const fine = Math.min(finestBefore, finestNow);
      if (stamped > 64 && fine > coarsest) coarsest = fine;
      const finest = Math.min(printedBefore, printedLast, printed);
      printedBefore = printedLast;
      printedLast = printed;
      if (Number.isNaN(zero)) {
        zero = stamp - row * interval;
        accept(row * interval, row, line);
        row++;
        return;
      }
      if (anchors.rows >= anchorRows && anchors.rows * interval >= 16 * fine) anchors.close();
      let t = stamp - zero;
      if (pending) {
        const on = t - pendingTime;
        if (on >= -finest && on <= limitAfter(row - pendingRow, finest)) {
          confirm();
          t = stamp - zero;
        } else {
          note(faults.outlier, pendingLine);
          pending = false;
        }
      }
      const step = t - last;
      if (regular && step === 0 && finest <= interval / 4) {
        note(faults.doubled, line);
        if (repeats.length < mostRepeats) {
          repeats.push(all - 1);
          return;
        }
      } else if (step < 0 && -step <= Math.max(interval, 2 * jitter, 2 * finest)) {
        note(faults.backwards, line);
      } else if (step < 0 || step > limitAfter(row - lastRow, finest)) {
        pending = true;
        pendingTime = t;
        pendingRow = row;
        pendingLine = line;
      } else accept(t, row, line);
      row++;
    },
    finish() {
      if (pending && pendingTime > last && pendingRow === row - 1 && pendingTime - last < 100 * interval)
        confirm();
      else if (pending) note(faults.outlier, pendingLine);
      anchors.close();
      if (coarsest === 0) coarsest = Math.min(finestBefore, finestNow);
      if (!Number.isFinite(coarsest)) coarsest = 0;
      faults.largestStep.count = largest;
      if (faults.largestStep.line === 0) faults.largestStep.line = lastLine;
      const { rowMeans, timeMeans } = anchors.take();
      return {
        rows: row,
        pieces,
        anchorRow: rowMeans,
        anchorTime: timeMeans,
        anchors: rowMeans.length,
        repeats,
        printed: coarsest,
        stamped,
        faults,
      };
    },
  };
}

function createAnchors() {
  let rowMeans = new Float64Array(256);
  let timeMeans = new Float64Array(256);
  let base = 0;
  let baseRow = 0;
  let sumRow = 0;
  let sumTime = 0;
  const anchors = {
    length: 0,
    /** Stamped rows in the open anchor. */
    rows: 0,
    add(row: number, t: number): void {
      if (anchors.rows === 0) {
        base = t;
        baseRow = row;
        sumRow = 0;
        sumTime = 0;
      }
      sumRow += row - baseRow;
      sumTime += t - base;
      anchors.rows++;
    },
    close(): void {
      if (anchors.rows === 0) return;
      if (anchors.length === rowMeans.length) {
        rowMeans = doubled(rowMeans);
        timeMeans = doubled(timeMeans);
      }
      rowMeans[anchors.length] = baseRow + sumRow / anchors.rows;
      timeMeans[anchors.length] = base + sumTime / anchors.rows;
      anchors.length++;
      anchors.rows = 0;
    },
    take() {
      return { rowMeans: rowMeans.slice(0, anchors.length), timeMeans: timeMeans.slice(0, anchors.length) };
    },
  };
  return anchors;
}

function doubled(values: Float64Array): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(values.length * 2);
  larger.set(values);
  return larger;
}

function median(values: number[]): number {
  values.sort((a, b) => a - b);
  return values[values.length >> 1] ?? 0;
}
