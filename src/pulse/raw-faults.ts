/**
 * Faults that show only in the untouched samples: stillness, clipping, wrapped converters,
 * level steps, missing samples. Runs before any filter, because a filter hides them.
 * Knows nothing of beats.
 */
import type { Hertz, Seconds } from "../model/units.js";

/**
 * - `missing`: no samples (NaN)
 * - `flat`: the very same value for 0.3 s or longer: the quantiser stands still, which no living trace does
 * - `rail`: a flat top or bottom entered abruptly, at a level met before: clipping
 * - `wrap-around`: a jump of nearly the full range after which the signal goes on as before: overflow of a converter
 * - `level-step`: the trace leaves its range within 0.1 s and stays away for 0.5 s: gain, range or probe moved
 */
export type RawFaultKind = "missing" | "flat" | "rail" | "wrap-around" | "level-step";

export interface RawFault {
  readonly kind: RawFaultKind;
  readonly from: Seconds;
  readonly to: Seconds;
}

export interface RawFaultSettings {
  readonly rate: Hertz;
  /** The source's lowest and highest value, where known; without them rails are learned. */
  readonly rails?: { readonly low: number; readonly high: number };
}

export interface RawFaultWatch {
  /** Consumes samples in order; a missing one is NaN. Faults come out as soon as they are complete. */
  push(values: Float64Array, from?: number, to?: number): void;
  /** Closes what is still running. */
  end(): void;
  /** Seconds of a still or missing stretch that is still running, 0 if none. */
  running(kind: "flat" | "missing"): number;
  /** Smallest difference between neighbouring samples met so far: one code of the converter. */
  quantum(): number;
}

/** Shortest stillness, engine notes section D; a weak pulse at 12 bits holds one value for less. Working default. */
const flatSeconds = 0.3;
/** Shortest clipped top. A smooth top stays within 0.3 % of the range for some 15 to 25 ms. Working default. */
const railSeconds = 0.06;
/** How far a clipped value may wobble, as a share of the range of the last seconds. */
const railWobble = 0.003;
/** A top counts as entered abruptly if this many wobbles are climbed in the 20 ms before. */
const abruptWobbles = 4;
/** Samples are looked at in pieces of this length for their extremes. */
const pieceSeconds = 0.05;
/** "The range so far" is that of the last 2 s, kept as eight cells of five pieces. */
const cellPieces = 5;
const cells = 8;
/** Pieces before a range exists at all, and pieces that make up "stays away" (0.5 s). */
const piecesBefore = 6;
const piecesAfter = 10;

/** @param sink called once per fault, in order of their ends */
export function createRawFaults(settings: RawFaultSettings, sink: (fault: RawFault) => void): RawFaultWatch {
  const rate = settings.rate;
  const pieceLength = Math.max(1, Math.round(rate * pieceSeconds));
  const flatLength = Math.max(3, Math.ceil(rate * flatSeconds));
  const railLength = Math.max(3, Math.ceil(rate * railSeconds));
  const lowRail = settings.rails?.low ?? Number.NEGATIVE_INFINITY;
  const highRail = settings.rails?.high ?? Number.POSITIVE_INFINITY;

  let n = 0;
  let last = Number.NaN;
  let beforeLast = Number.NaN;
  let sameSince = 0;
  let missingSince = -1;
  let quantum = Number.POSITIVE_INFINITY;

  // A run near one level, and the run before it.
  let level = Number.NaN;
  let levelSince = 0;
  let levelBefore = Number.NaN;
  let levelBeforeSince = 0;
  let wobble = 0;
  let topLevel = Number.NaN;
  let topCount = 0;
  let bottomLevel = Number.NaN;
  let bottomCount = 0;

  let recordMin = Number.POSITIVE_INFINITY;
  let recordMax = Number.NEGATIVE_INFINITY;
  let jumpLimit = Number.POSITIVE_INFINITY;
  let jumpAt = -1;
  let jumpFrom = 0;
  let jumpSlope = 0;

  let pieceMin = Number.POSITIVE_INFINITY;
  let pieceMax = Number.NEGATIVE_INFINITY;
  let pieceLeft = pieceLength;
  const lows = new Float64Array(cells).fill(Number.POSITIVE_INFINITY);
  const highs = new Float64Array(cells).fill(Number.NEGATIVE_INFINITY);
  let pieces = 0;
  let recentMin = Number.POSITIVE_INFINITY;
  let recentMax = Number.NEGATIVE_INFINITY;
  let stepAt = -1;
  let stepPieces = 0;
  let stepMin = 0;
  let stepMax = 0;
  let afterMin = 0;
  let afterMax = 0;

  function emit(kind: RawFaultKind, from: number, to: number): void {
    sink({ kind, from: (from / rate) as Seconds, to: (to / rate) as Seconds });
  }

  function endSame(): void {
    if (n - sameSince >= flatLength) emit("flat", sameSince, n);
  }

  /** A stretch near one level has ended with `next`; was it a clipped top or bottom? */
  function endLevel(next: number): void {
    if (level >= highRail || level <= lowRail) {
      if (n - levelSince >= 2) emit("rail", levelSince, n);
      return;
    }
    const speed = Math.abs(level - levelBefore) / Math.max(1, levelSince - levelBeforeSince);
    if (!(speed * rate * 0.02 >= abruptWobbles * Math.max(wobble, quantum))) return;
    const near = 2 * wobble;
    if (levelBefore < level && next < level) {
      topCount = Math.abs(level - topLevel) <= near ? topCount + 1 : 1;
      topLevel = level;
      if (topCount >= 2) emit("rail", levelSince, n);
    } else if (levelBefore > level && next > level) {
      bottomCount = Math.abs(level - bottomLevel) <= near ? bottomCount + 1 : 1;
      bottomLevel = level;
      if (bottomCount >= 2) emit("rail", levelSince, n);
    }
  }

  /** The sample after a large jump tells whether the signal goes on as before it. */
  function judgeJump(x: number): void {
    const jump = last - jumpFrom;
    const after = x - last;
    const size = Math.abs(jump);
    const word = 2 ** Math.round(Math.log2(size));
    const edge = 0.04 * word;
    const high = Math.max(last, jumpFrom);
    const signed = Math.abs(high - word / 2) <= edge;
    const unsigned = Math.abs(high - word) <= edge;
    const wholeWord = word >= 256 && Math.abs(size - word) <= edge && (signed || unsigned);
    const goesOn =
      size > 0.85 * (recordMax - recordMin) &&
      jumpSlope * jump < 0 &&
      after * jump < 0 &&
      Math.abs(jumpSlope) < 0.1 * size &&
      Math.abs(after) < 0.1 * size;
    if (wholeWord || goesOn) emit("wrap-around", jumpAt - 1, jumpAt + 1);
    jumpAt = -1;
  }

  function endPiece(): void {
    const empty = pieceMin > pieceMax;
    if (!empty) {
      if (pieceMin < recordMin) recordMin = pieceMin;
      if (pieceMax > recordMax) recordMax = pieceMax;
    }
    if (stepAt >= 0) followStep(empty);
    else if (!empty && pieces >= piecesBefore) {
      const range = recentMax - recentMin;
      if (pieceMin > recentMax + 0.5 * range || pieceMax < recentMin - 0.5 * range) {
        stepAt = n - pieceLength;
        stepPieces = 0;
        stepMin = recentMin;
        stepMax = recentMax;
        afterMin = Number.POSITIVE_INFINITY;
        afterMax = Number.NEGATIVE_INFINITY;
      }
    }
    widenRange();
    pieceMin = Number.POSITIVE_INFINITY;
    pieceMax = Number.NEGATIVE_INFINITY;
    pieceLeft = pieceLength;
  }

  function widenRange(): void {
    const cell = Math.floor(pieces / cellPieces) % cells;
    if (pieces % cellPieces === 0) {
      lows[cell] = Number.POSITIVE_INFINITY;
      highs[cell] = Number.NEGATIVE_INFINITY;
      recentMin = Number.POSITIVE_INFINITY;
      recentMax = Number.NEGATIVE_INFINITY;
      for (let k = 0; k < cells; k++) {
        if (lows[k]! < recentMin) recentMin = lows[k]!;
        if (highs[k]! > recentMax) recentMax = highs[k]!;
      }
    }
    if (pieceMin < lows[cell]!) lows[cell] = pieceMin;
    if (pieceMax > highs[cell]!) highs[cell] = pieceMax;
    if (pieceMin < recentMin) recentMin = pieceMin;
    if (pieceMax > recentMax) recentMax = pieceMax;
    pieces++;
    const range = recentMax - recentMin;
    wobble = range > 0 && range < Number.POSITIVE_INFINITY ? railWobble * range : 0;
    const whole = recordMax - recordMin;
    jumpLimit = whole > 0 && pieces >= 20 ? 0.5 * whole : Number.POSITIVE_INFINITY;
  }

  function followStep(empty: boolean): void {
    stepPieces++;
    if (!empty && stepPieces >= 2) {
      if (pieceMin < afterMin) afterMin = pieceMin;
      if (pieceMax > afterMax) afterMax = pieceMax;
    }
    const away = Math.max(afterMin - stepMax, stepMin - afterMax);
    const back = stepPieces >= 2 && !(away > Math.max(stepMax - stepMin, afterMax - afterMin, quantum));
    if (empty || back) stepAt = -1;
    else if (stepPieces >= piecesAfter) {
      emit("level-step", stepAt, stepAt + 2 * pieceLength);
      stepAt = -1;
      lows.fill(Number.POSITIVE_INFINITY);
      highs.fill(Number.NEGATIVE_INFINITY);
      pieces = 0;
    }
  }

  /** A sample that differs from the one before in a way that needs a closer look. */
  function lookAt(x: number, beforeThat: number): void {
    if (x !== x) {
      if (missingSince >= 0) return;
      if (last === last) endSame();
      missingSince = n;
      jumpAt = -1;
      return;
    }
    if (missingSince >= 0) {
      emit("missing", missingSince, n);
      missingSince = -1;
      return;
    }
    if (last !== last) return;
    endSame();
    if (jumpAt >= 0) judgeJump(x);
    if (Math.abs(x - last) > jumpLimit) {
      jumpAt = n;
      jumpFrom = last;
      jumpSlope = last - beforeThat;
    }
  }

  /** Samples that lie within one piece. The running values are local, which is what makes it fast. */
  function pushPiece(values: Float64Array, from: number, to: number): void {
    let now = last;
    let before = beforeLast;
    let since = sameSince;
    let near = level;
    let nearSince = levelSince;
    let low = pieceMin;
    let high = pieceMax;
    let smallest = quantum;
    const shift = n - from;
    for (let i = from; i < to; i++) {
      const x = values[i]!;
      if (x !== now) {
        const move = x > now ? x - now : now - x;
        if (!(move <= jumpLimit) || jumpAt >= 0 || i + shift - since >= flatLength) {
          n = i + shift;
          last = now;
          sameSince = since;
          quantum = smallest;
          lookAt(x, before);
        }
        if (move < smallest) smallest = move;
        before = now;
        now = x;
        since = i + shift;
      }
      const off = x - near;
      if (!(off <= wobble && off >= -wobble)) {
        if (i + shift - nearSince >= railLength) {
          n = i + shift;
          level = near;
          levelSince = nearSince;
          endLevel(x);
        }
        levelBefore = near;
        levelBeforeSince = nearSince;
        near = x;
        nearSince = i + shift;
      }
      if (x < low) low = x;
      if (x > high) high = x;
    }
    n = to + shift;
    last = now;
    beforeLast = before;
    sameSince = since;
    level = near;
    levelSince = nearSince;
    pieceMin = low;
    pieceMax = high;
    quantum = smallest;
    pieceLeft -= to - from;
    if (pieceLeft === 0) endPiece();
  }

  return {
    push(values, from = 0, to = values.length) {
      for (let i = from; i < to; ) {
        const stop = Math.min(to, i + pieceLeft);
        pushPiece(values, i, stop);
        i = stop;
      }
    },
    end() {
      if (missingSince >= 0) emit("missing", missingSince, n);
      else if (last === last) endSame();
      missingSince = -1;
      sameSince = n;
    },
    running(kind) {
      if (kind === "missing") return missingSince >= 0 ? (n - missingSince) / rate : 0;
      return last === last && n - sameSince >= flatLength ? (n - sameSince) / rate : 0;
    },
    quantum: () => quantum,
  };
}
