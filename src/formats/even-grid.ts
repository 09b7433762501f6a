/**
 * Rows in, samples on an even grid out. Rows that sit on the grid pass bit for bit; between rows a wave is
 * read along a cubic through the four rows around (a straight line at the ends and beside missing values), kept
 * within those four so that a rail stays a rail; numbers are taken from the nearest row. Gaps become NaN.
 *
 * @see E. Catmull and R. Rom, "A class of local interpolating splines", 1974 (the cubic, uniform form)
 */
import { edge, type RowClock } from "./clock-fit.js";

export interface Grid {
  /** Values of the row after the last one given, one per column; read until `fill` has returned false. */
  row(values: Float64Array): void;
  /** Writes samples until the block is full (true: take it) or another row is needed (false). */
  fill(): boolean;
  /** Samples written since the last `take`, per column; empty arrays if none. */
  take(): Float64Array[];
  /** Place of the first sample of the next `take`. */
  readonly first: number;
}

/** @param waves per column: whether values between rows may be computed */
export function createGrid(clock: RowClock, waves: readonly boolean[], blockSamples: number): Grid {
  const columns = waves.length;
  const recent = new Float64Array(4 * columns);
  let blocks = fresh();
  let filled = 0;
  let taken = 0;
  let rows = 0;
  let number = 0;
  let knot = 0;
  let place = 0;

  function fresh(): Float64Array<ArrayBuffer>[] {
    return Array.from({ length: columns }, () => new Float64Array(blockSamples));
  }

  function put(row: number): void {
    const from = (row & 3) * columns;
    for (let c = 0; c < columns; c++) blocks[c]![filled] = recent[from + c]!;
    filled++;
    place++;
  }

  function putNothing(): void {
    for (let c = 0; c < columns; c++) blocks[c]![filled] = Number.NaN;
    filled++;
    place++;
  }

  function putBetween(x: number, first: number, last: number): void {
    const at = Math.min(Math.floor(x), last - 1);
    const share = x - at;
    const a = (Math.max(first, at - 1) & 3) * columns;
    const b = (at & 3) * columns;
    const c = ((at + 1) & 3) * columns;
    const d = (Math.min(last, at + 2) & 3) * columns;
    const inner = at - 1 >= first && at + 2 <= last;
    for (let n = 0; n < columns; n++) {
      const p = recent[b + n]!;
      const q = recent[c + n]!;
      if (!waves[n]) blocks[n]![filled] = share < 0.5 ? p : q;
      else if (inner) blocks[n]![filled] = cubic(recent[a + n]!, p, q, recent[d + n]!, share);
      else blocks[n]![filled] = p === q ? p : p + share * (q - p);
    }
    filled++;
    place++;
  }

  return {
    row(values) {
      recent.set(values, (rows & 3) * columns);
      rows++;
    },
    get first() {
      return taken;
    },
    fill() {
      const newest = rows - 1;
      while (number < clock.pieces.length) {
        const piece = clock.pieces[number]!;
        if (newest < piece.firstRow) return false;
        const lastRow = piece.endRow - 1;
        if (piece.shift !== null) {
          const due = newest + piece.shift;
          while (place < due) {
            if (filled === blockSamples) return true;
            putNothing();
          }
          if (filled === blockSamples) return true;
          if (place === due) put(newest);
          if (newest < lastRow) return false;
        } else {
          const { knotRow, knotPlace } = piece;
          const lastPlace = Math.floor(knotPlace[knotPlace.length - 1]! + edge);
          const firstPlace = Math.ceil(knotPlace[0]! - edge);
          while (place <= lastPlace) {
            if (filled === blockSamples) return true;
            if (place < firstPlace) {
              putNothing();
              continue;
            }
            while (knot + 2 < knotPlace.length && knotPlace[knot + 1]! < place) knot++;
            const x = rowAt(place, knot, knotRow, knotPlace);
            const on = Math.round(x);
            const exact = Math.abs(x - on) < edge;
            if (Math.min(lastRow, exact ? on : Math.floor(x) + 2) > newest) return false;
            if (exact) put(Math.min(lastRow, Math.max(piece.firstRow, on)));
            else putBetween(x, piece.firstRow, lastRow);
          }
          if (newest < lastRow) return false;
        }
        number++;
        knot = 0;
      }
      return false;
    },
    take() {
      const full = filled === blockSamples ? blocks : blocks.map((block) => block.slice(0, filled));
      taken += filled;
      if (filled > 0) blocks = fresh();
      filled = 0;
      return full;
    },
  };
}

function rowAt(place: number, knot: number, row: Float64Array, at: Float64Array): number {
  const next = Math.min(knot + 1, row.length - 1);
  const run = at[next]! - at[knot]!;
  if (run <= 0) return row[knot]!;
  const x = row[knot]! + ((place - at[knot]!) / run) * (row[next]! - row[knot]!);
  return Math.min(row[row.length - 1]!, Math.max(row[0]!, x));
}

function cubic(a: number, b: number, c: number, d: number, s: number): number {
  if (b === c && a === b && d === b) return b;
  if (Number.isNaN(a + d)) return b + s * (c - b);
  const y = b + 0.5 * s * (c - a + s * (2 * a - 5 * b + 4 * c - d + s * (3 * (b - c) + d - a)));
  return Math.min(Math.max(a, b, c, d), Math.max(Math.min(a, b, c, d), y));
}
