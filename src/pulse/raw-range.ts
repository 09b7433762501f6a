/**
 * The range of the last three seconds of raw samples, and steps of level out of it.
 * Fed with the extremes of short pieces, so it costs next to nothing per sample.
 */

/** The range is kept as five cells of three pieces. */
const cellPieces = 3;
const cells = 5;
/** Pieces before a range exists at all, and pieces that make up "stays away". */
const piecesBefore = 10;
const piecesAfter = 4;

export interface RawRange {
  /**
   * Takes the extremes of the next piece; `low` above `high` means that it held no samples.
   * @returns whether a level step is now certain; it began `stepAge()` pieces ago
   */
  next(low: number, high: number): boolean;
  stepAge(): number;
  /** Highest less lowest value of the last 3 s; 0 while unknown. */
  recent(): number;
  /** The same over all pieces so far. */
  whole(): number;
  pieces(): number;
}

export function createRawRange(): RawRange {
  const lows = new Float64Array(cells);
  const highs = new Float64Array(cells);
  // An object, not single variables: its numbers are changed in place and nothing is allocated.
  const s = {
    low: Number.POSITIVE_INFINITY,
    high: Number.NEGATIVE_INFINITY,
    wholeLow: Number.POSITIVE_INFINITY,
    wholeHigh: Number.NEGATIVE_INFINITY,
    stepLow: Number.NaN,
    stepHigh: Number.NaN,
    afterLow: Number.NaN,
    afterHigh: Number.NaN,
    following: 0,
    pieces: 0,
    cell: cells - 1,
    inCell: cellPieces,
  };
  forget();

  function forget(): void {
    lows.fill(Number.POSITIVE_INFINITY);
    highs.fill(Number.NEGATIVE_INFINITY);
    s.low = Number.POSITIVE_INFINITY;
    s.high = Number.NEGATIVE_INFINITY;
    s.pieces = 0;
    s.cell = cells - 1;
    s.inCell = cellPieces;
  }

  /** The oldest cell makes room for the next. */
  function turn(): void {
    s.cell = s.cell === cells - 1 ? 0 : s.cell + 1;
    s.inCell = 0;
    lows[s.cell] = Number.POSITIVE_INFINITY;
    highs[s.cell] = Number.NEGATIVE_INFINITY;
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < cells; k++) {
      if (lows[k]! < least) least = lows[k]!;
      if (highs[k]! > most) most = highs[k]!;
    }
    s.low = least;
    s.high = most;
  }

  function widen(low: number, high: number): void {
    if (s.inCell === cellPieces) turn();
    const { cell } = s;
    if (low < lows[cell]!) lows[cell] = low;
    if (high > highs[cell]!) highs[cell] = high;
    if (low < s.low) s.low = low;
    if (high > s.high) s.high = high;
    s.pieces++;
    s.inCell++;
  }

  /** Starts to follow a trace that has left its range by half of it. */
  function watchForStep(low: number, high: number): void {
    const range = s.high - s.low;
    if (!(low > s.high + 0.5 * range || high < s.low - 0.5 * range)) return;
    s.following = 1;
    s.stepLow = s.low;
    s.stepHigh = s.high;
    s.afterLow = Number.POSITIVE_INFINITY;
    s.afterHigh = Number.NEGATIVE_INFINITY;
  }

  /** A step is certain once the trace has kept away by more than either range. */
  function follow(low: number, high: number): boolean {
    s.following++;
    if (low < s.afterLow) s.afterLow = low;
    if (high > s.afterHigh) s.afterHigh = high;
    const away = Math.max(s.afterLow - s.stepHigh, s.stepLow - s.afterHigh);
    const stays = away > Math.max(s.stepHigh - s.stepLow, s.afterHigh - s.afterLow);
    if (low > high || !stays) {
      s.following = 0;
      return false;
    }
    if (s.following < piecesAfter) return false;
    s.following = 0;
    forget();
    return true;
  }

  return {
    next(low, high) {
      if (low < s.wholeLow) s.wholeLow = low;
      if (high > s.wholeHigh) s.wholeHigh = high;
      let step = false;
      if (s.following > 0) step = follow(low, high);
      else if (low <= high && s.pieces >= piecesBefore) watchForStep(low, high);
      widen(low, high);
      return step;
    },
    stepAge: () => piecesAfter,
    recent: () => (s.high > s.low ? s.high - s.low : 0),
    whole: () => (s.wholeHigh > s.wholeLow ? s.wholeHigh - s.wholeLow : 0),
    pieces: () => s.pieces,
  };
}
