/**
 * From the shape of a clock to an even grid: at which grid place each row sits. Time 0 is the first row.
 *
 * If all anchors lie on one line, within half an interval (or an eighth of the stamps' rounding, if that is more),
 * rows sit on the grid as they are, values bit for bit, and the line's rate is taken, snapped to the shortest number
 * within its error: 125.0003 becomes 125. After a gap rows sit on the nearest place if that is within a quarter
 * interval, else between places.
 *
 * If not, the clock runs unevenly: the grid has the mean rate, and rows lie along straight lines from
 * anchor to anchor. Reading between rows is `even-grid.ts`.
 */
import type { ClockHabit, ClockShape } from "./clock-track.js";

/** A run of rows without a gap inside. Row `r` sits at `r + shift`, or, where `shift` is null, along the knots. */
export interface GridPiece {
  readonly firstRow: number;
  /** One past the last. */
  readonly endRow: number;
  readonly shift: number | null;
  readonly knotRow: Float64Array;
  readonly knotPlace: Float64Array;
}

export interface RowClock {
  /** Samples per second of the grid. */
  readonly rate: number;
  readonly pieces: readonly GridPiece[];
  /** Places in the grid; `null` while unknown. */
  readonly places: number | null;
  /** Whether one constant rate fits; then the largest distance of an anchor from it, seconds. */
  readonly even: boolean;
  readonly farthest: number;
  /** Places moved to values between rows after a gap that is no whole number of intervals. */
  readonly between: boolean;
  /** Row from which the rest was left out, because the gap before it is too long to fill; `null` if none. */
  readonly cutRow: number | null;
  /** Pieces used, after small holes in an uneven clock were joined. */
  readonly joined: boolean;
}

const none = new Float64Array();

/** The clock of a source that has none: row `r` is at `r / rate`. */
export function steadyClock(rate: number): RowClock {
  const piece = { firstRow: 0, endRow: Number.POSITIVE_INFINITY, shift: 0, knotRow: none, knotPlace: none };
  const facts = { even: true, farthest: 0, between: false, cutRow: null, joined: false };
  return { rate, pieces: [piece], places: null, ...facts };
}

/** Missing samples filled in at most, so that one wrong stamp can't fill the memory or the day: 20 million, or a week. */
const mostFilled = 2e7;
const longestFill = 7 * 86_400;

export function fitClock(shape: ClockShape, habit: ClockHabit): RowClock {
  const small = shape.pieces.filter((piece) => piece.small).length;
  const joined = small > 100 && small > 0.02 * shape.rows;
  const pieces = shape.pieces.filter((piece) => !(joined && piece.small));
  const ranges = pieces.map((piece, i) => ({
    piece,
    endRow: pieces[i + 1]?.firstRow ?? shape.rows,
    from: piece.firstAnchor,
    to: pieces[i + 1]?.firstAnchor ?? shape.anchors,
  }));
  const line = commonLine(shape, ranges, habit);
  const tolerance = Math.max(habit.interval / 2, shape.printed / 8);
  const even = line.farthest <= tolerance;
  const rate = even ? line.rate : tidyRate(shape, ranges, line.rate);

  const out: GridPiece[] = [];
  let origin = 0;
  let end = 0;
  let filled = 0;
  let between = false;
  let cutRow: number | null = null;
  for (const { piece, endRow, from, to } of ranges) {
    if (endRow <= piece.firstRow) continue;
    const knots = knotsOf(shape, piece.firstRow, endRow, from, to, even ? 1 / rate : habit.interval, even);
    if (out.length === 0) origin = knots.time[0]!;
    const place = knots.time.map((t) => (t - origin) * rate);
    const first = place[0]!;
    const gap = first - end;
    if (out.length > 0 && gap > 0) filled += gap;
    if (filled > mostFilled + 10 * shape.rows || filled > longestFill * rate) {
      cutRow = piece.firstRow;
      break;
    }
    const nearest = Math.max(Math.round(first), end);
    const onGrid = even && Math.abs(first - nearest) <= 0.25;
    const shift = onGrid ? nearest - piece.firstRow : null;
    if (even && !onGrid) between = true;
    const last = onGrid ? nearest + endRow - 1 - piece.firstRow : Math.floor(place[place.length - 1]! + edge);
    out.push({ firstRow: piece.firstRow, endRow, shift, knotRow: knots.row, knotPlace: place });
    end = Math.max(end, last + 1);
  }
  return { rate, pieces: out, places: end, even, farthest: line.farthest, between, cutRow, joined };
}

/** Places this little beyond the first or last row still count as on it. */
export const edge = 1e-6;

interface Range {
  readonly from: number;
  readonly to: number;
}

/** One rate through the anchors of all pieces, each with its own offset, by least squares. */
function commonLine(shape: ClockShape, ranges: readonly Range[], habit: ClockHabit) {
  const { anchorRow, anchorTime } = shape;
  let over = 0;
  let under = 0;
  let span = 0;
  const means = ranges.map(({ from, to }) => {
    let row = 0;
    let time = 0;
    for (let i = from; i < to; i++) {
      row += (anchorRow[i]! - anchorRow[from]!) / (to - from);
      time += (anchorTime[i]! - anchorTime[from]!) / (to - from);
    }
    for (let i = from; i < to; i++) {
      const dr = anchorRow[i]! - anchorRow[from]! - row;
      over += dr * (anchorTime[i]! - anchorTime[from]! - time);
      under += dr * dr;
    }
    if (to > from) span += anchorTime[to - 1]! - anchorTime[from]!;
    return { row, time };
  });
  const interval = under > 0 && over > 0 ? over / under : habit.interval;
  let farthest = 0;
  for (const [p, { from, to }] of ranges.entries()) {
    for (let i = from; i < to; i++) {
      const off =
        anchorTime[i]! -
        anchorTime[from]! -
        means[p]!.time -
        interval * (anchorRow[i]! - anchorRow[from]! - means[p]!.row);
      farthest = Math.max(farthest, Math.abs(off));
    }
  }
  const doubt = span > 0 ? (2 * farthest + shape.printed / 16) / span : 1;
  return { rate: shortest(1 / interval, Math.min(2e-4, Math.max(1e-9, doubt))), farthest };
}

/** The number of fewest digits within a share `doubt` of `value`. */
export function shortest(value: number, doubt: number): number {
  for (let digits = 1; digits <= 15; digits++) {
    const rounded = Number(value.toPrecision(digits));
    if (Math.abs(rounded - value) <= doubt * value) return rounded;
  }
  return value;
}

/** Mean rate within the pieces, to five digits: the grid of an uneven clock. */
function tidyRate(shape: ClockShape, ranges: readonly Range[], fallback: number): number {
  let rows = 0;
  let time = 0;
  for (const { from, to } of ranges) {
    if (to <= from) continue;
    rows += shape.anchorRow[to - 1]! - shape.anchorRow[from]!;
    time += shape.anchorTime[to - 1]! - shape.anchorTime[from]!;
  }
  const rate = time > 0 && rows > 0 ? rows / time : fallback;
  return Number(rate.toPrecision(5));
}

/** Row and time of the piece's first row, its anchors (uneven clock only), and its last row. */
function knotsOf(
  shape: ClockShape,
  firstRow: number,
  endRow: number,
  from: number,
  to: number,
  interval: number,
  even: boolean,
): { row: Float64Array; time: Float64Array } {
  const { anchorRow, anchorTime } = shape;
  if (to <= from || even) {
    let offset = 0;
    for (let i = from; i < to; i++)
      offset += (anchorTime[i]! - interval * (anchorRow[i]! - firstRow)) / (to - from);
    const row = Float64Array.of(firstRow, endRow - 1);
    return { row, time: row.map((r) => offset + (r - firstRow) * interval) };
  }
  const row = [firstRow];
  const time = [0];
  const slope = (i: number) => {
    const at = Math.max(from, Math.min(i, to - 2));
    const rise =
      to - from < 2
        ? interval
        : (anchorTime[at + 1]! - anchorTime[at]!) / (anchorRow[at + 1]! - anchorRow[at]!);
    return Math.min(2 * interval, Math.max(interval / 2, rise));
  };
  time[0] = anchorTime[from]! - slope(from) * (anchorRow[from]! - firstRow);
  for (let i = from; i < to; i++) {
    if (anchorRow[i]! <= row[row.length - 1]!) continue;
    row.push(anchorRow[i]!);
    time.push(Math.max(time[time.length - 1]!, anchorTime[i]!));
  }
  if (endRow - 1 > row[row.length - 1]!) {
    time.push(time[time.length - 1]! + slope(to - 2) * (endRow - 1 - row[row.length - 1]!));
    row.push(endRow - 1);
  }
  return { row: Float64Array.from(row), time: Float64Array.from(time) };
}
