/**
 * Faults that show only in the untouched samples: stillness, clipping, wrapped converters,
 * level steps, missing samples. Runs before any filter, because a filter hides them.
 * Knows nothing of beats.
 */
import type { Hertz, Seconds } from "../model/units.js";
import type { RawFault, RawFaultKind } from "./raw-fault.js";
import { createRawRange } from "./raw-range.js";
import { isWrapAround } from "./wrap-around.js";

export interface RawFaultSettings {
  readonly rate: Hertz;
  /** The source's lowest and highest value, where known; without them rails are learned. */
  readonly rails?: { readonly low: number; readonly high: number } | undefined;
}

export interface RawFaultWatch {
  /** Consumes `values[from..to)` in order; a missing sample is NaN. Faults come out as soon as they are certain. */
  push(values: Float64Array, from?: number, to?: number): void;
  /** Closes what is still running. */
  end(): void;
  /** Seconds of a flat or missing stretch that is still running, 0 if none. */
  running(kind: "flat" | "missing"): number;
  /** Smallest difference between neighbouring samples met so far: one code of the converter. */
  quantum(): number;
}

/** Shortest stillness; engine notes, section D. Working default. */
const flatSeconds = 0.3;
/** Shortest clipped top. A smooth top stays within 0.3 % of the range for some 15 to 25 ms. Working default. */
const railSeconds = 0.06;
/** How far a clipped value may wobble, as a share of the range of the last seconds. */
const railWobble = 0.003;
/** A top counts as entered abruptly if this many wobbles are climbed in the 20 ms before it. */
const abruptWobbles = 4;
/** Samples are taken together in pieces of this length for their extremes. */
const pieceSeconds = 0.2;

/** @param sink called once per fault */
export function createRawFaults(settings: RawFaultSettings, sink: (fault: RawFault) => void): RawFaultWatch {
  const rate = settings.rate;
  const pieceLength = Math.max(1, Math.round(rate * pieceSeconds));
  const flatLength = Math.max(3, Math.ceil(rate * flatSeconds));
  const railLength = Math.max(3, Math.ceil(rate * railSeconds));
  const lowRail = settings.rails?.low ?? Number.NEGATIVE_INFINITY;
  const highRail = settings.rails?.high ?? Number.POSITIVE_INFINITY;
  const range = createRawRange();

  // An object, not single variables: its numbers are changed in place and nothing is allocated.
  const s = {
    last: Number.NaN,
    beforeLast: Number.NaN,
    level: Number.NaN,
    levelBefore: Number.NaN,
    wobble: 0.5,
    topLevel: Number.NaN,
    bottomLevel: Number.NaN,
    quantum: Number.POSITIVE_INFINITY,
    jumpLimit: Number.POSITIVE_INFINITY,
    jumpFrom: Number.NaN,
    jumpBefore: Number.NaN,
    low: Number.POSITIVE_INFINITY,
    high: Number.NEGATIVE_INFINITY,
    taken: 0,
    sameSince: 0,
    missingSince: -1,
    levelSince: 0,
    levelBeforeSince: 0,
    jumpAt: -1,
    left: pieceLength,
  };
  s.wobble = 0;

  function emit(kind: RawFaultKind, from: number, to: number): void {
    sink({ kind, from: (from / rate) as Seconds, to: (to / rate) as Seconds });
  }

  /** A stretch near one level has ended with `next`; was it a clipped top or bottom? */
  function endLevel(
    level: number,
    since: number,
    before: number,
    beforeSince: number,
    n: number,
    next: number,
  ): void {
    if (level >= highRail || level <= lowRail) {
      emit("rail", since, n);
      return;
    }
    const climbed = (Math.abs(level - before) / Math.max(1, since - beforeSince)) * rate * 0.02;
    if (!(climbed >= abruptWobbles * Math.max(s.wobble, s.quantum))) return;
    const near = 2 * s.wobble;
    if (before < level && next < level) {
      if (Math.abs(level - s.topLevel) <= near) emit("rail", since, n);
      s.topLevel = level;
    } else if (before > level && next > level) {
      if (Math.abs(level - s.bottomLevel) <= near) emit("rail", since, n);
      s.bottomLevel = level;
    }
  }

  /** A sample that differs from the one before in a way that needs a closer look. */
  function lookAt(x: number, n: number): void {
    if (Number.isNaN(x)) {
      if (s.missingSince >= 0) return;
      if (!Number.isNaN(s.last) && n - s.sameSince >= flatLength) emit("flat", s.sameSince, n);
      s.missingSince = n;
      s.jumpAt = -1;
      return;
    }
    if (s.missingSince >= 0) {
      emit("missing", s.missingSince, n);
      s.missingSince = -1;
      return;
    }
    if (Number.isNaN(s.last)) return;
    if (n - s.sameSince >= flatLength) emit("flat", s.sameSince, n);
    if (s.jumpAt >= 0) {
      if (isWrapAround(s.jumpBefore, s.jumpFrom, s.last, x, range.whole()))
        emit("wrap-around", s.jumpAt - 1, s.jumpAt + 1);
      s.jumpAt = -1;
    }
    if (Math.abs(x - s.last) > s.jumpLimit) {
      s.jumpAt = n;
      s.jumpFrom = s.last;
      s.jumpBefore = s.beforeLast;
    }
  }

  function endPiece(low: number, high: number, n: number): void {
    if (range.next(low, high)) {
      const at = n - range.stepAge() * pieceLength;
      emit("level-step", at, at + pieceLength);
    }
    s.wobble = railWobble * range.recent();
    // Jumps are judged against a range of at least one second.
    s.jumpLimit = range.pieces() * pieceSeconds >= 1 ? 0.5 * range.whole() : Number.POSITIVE_INFINITY;
  }

  return {
    push(values, from = 0, to = values.length) {
      // Local copies of what changes with every sample are what makes this loop fast.
      const shift = s.taken - from;
      let last = s.last;
      let beforeLast = s.beforeLast;
      let since = s.sameSince - shift;
      let level = s.level;
      let levelSince = s.levelSince - shift;
      let levelBefore = s.levelBefore;
      let levelBeforeSince = s.levelBeforeSince - shift;
      let low = s.low;
      let high = s.high;
      let quantum = s.quantum;
      let wobble = s.wobble;
      let limit = s.jumpAt >= 0 ? -1 : s.jumpLimit;
      let left = s.left;
      for (let i = from; i < to; i++) {
        const stop = Math.min(to, i + left);
        const first = i;
        // On a rise or fall the last sample is an extreme: met first, it spares most of the changes on the way.
        const ahead = values[stop - 1]!;
        if (ahead < low) low = ahead;
        if (ahead > high) high = ahead;
        // The usual samples. What needs a closer look ends this loop, so that no call disturbs it.
        for (; i < stop; i++) {
          const x = values[i]!;
          const move = Math.abs(x - last);
          if (!(move <= limit)) break;
          if (!(Math.abs(x - level) <= wobble)) {
            if (i - levelSince >= railLength) break;
            levelBefore = level;
            levelBeforeSince = levelSince;
            level = x;
            levelSince = i;
          }
          if (move > 0) {
            if (i - since >= flatLength) break;
            if (move < quantum) quantum = move;
            since = i;
            beforeLast = last;
          }
          last = x;
          if (x < low) low = x;
          if (x > high) high = x;
        }
        if (i < stop) {
          const x = values[i]!;
          if (x !== last) {
            const move = Math.abs(x - last);
            s.beforeLast = beforeLast;
            s.last = last;
            s.sameSince = since + shift;
            lookAt(x, i + shift);
            limit = s.jumpAt >= 0 ? -1 : s.jumpLimit;
            if (move < quantum) quantum = move;
            beforeLast = last;
            last = x;
            since = i;
          }
          if (Number.isNaN(x)) {
            level = x;
            levelSince = i;
          } else {
            if (!(Math.abs(x - level) <= wobble)) {
              if (i - levelSince >= railLength) {
                s.quantum = quantum;
                endLevel(level, levelSince + shift, levelBefore, levelBeforeSince + shift, i + shift, x);
              }
              levelBefore = level;
              levelBeforeSince = levelSince;
              level = x;
              levelSince = i;
            }
            if (x < low) low = x;
            if (x > high) high = x;
          }
        } else i--;
        left -= i + 1 - first;
        if (left === 0) {
          endPiece(low, high, i + 1 + shift);
          low = Number.POSITIVE_INFINITY;
          high = Number.NEGATIVE_INFINITY;
          wobble = s.wobble;
          if (s.jumpAt < 0) limit = s.jumpLimit;
          left = pieceLength;
        }
      }
      s.beforeLast = beforeLast;
      s.taken = to + shift;
      s.last = last;
      s.sameSince = since + shift;
      s.level = level;
      s.levelSince = levelSince + shift;
      s.levelBefore = levelBefore;
      s.levelBeforeSince = levelBeforeSince + shift;
      s.low = low;
      s.high = high;
      s.quantum = quantum;
      s.left = left;
    },
    end() {
      const n = s.taken;
      if (s.missingSince >= 0) emit("missing", s.missingSince, n);
      else if (!Number.isNaN(s.last) && n - s.sameSince >= flatLength) emit("flat", s.sameSince, n);
      s.missingSince = -1;
      s.sameSince = n;
    },
    running(kind) {
      if (kind === "missing") return s.missingSince >= 0 ? (s.taken - s.missingSince) / rate : 0;
      const still = s.taken - s.sameSince;
      return !Number.isNaN(s.last) && still >= flatLength ? still / rate : 0;
    },
    quantum: () => s.quantum,
  };
}
