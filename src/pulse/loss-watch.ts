/**
 * Notices within three beats that the pulse is gone, and that it is back. Listens for upstrokes of
 * the size and at the distance the last believable windows had; the beat finder is too thorough to be that quick.
 * Loss of the wave is all it tells: movement can hide it as well (S5), which is what the window's grade is for.
 */
import type { Beat } from "../model/beat.js";
import type { CaptureGrade, Loss } from "../model/capture.js";
import type { Hertz, Seconds } from "../model/units.js";
import type { InnerBlock } from "./inner-stream.js";
import { createReturnChain } from "./return-chain.js";
import type { TraceMemory } from "./trace-memory.js";
import { isBeyondDoubt, patienceInDoubt } from "./upstroke-doubt.js";
import { createUsualUpstroke } from "./usual-upstroke.js";

/** Rises from this to that share of the usual one count as pulses: small early beats, deep breaths, a changed gain. */
const least = 0.3;
const greatest = 4;
/** Correlation with the usual upstroke from which a rise counts. */
const alike = 0.8;
/** How far each pulse moves the usual rise towards its own: sizes can change fivefold within six beats. */
const adapt = 0.35;
/** Nearer to the last pulse than this share of the usual interval, an upstroke is that pulse's own second wave. */
const nearest = 0.4;
/** Distances between pulses that the usual interval follows, in usual intervals. */
const near = 0.7;
const far = 1.4;
/** Without a believable window for this long the watch stops, s. */
const forgetSeconds = 15;
/** While windows are solid, the usual values are learned anew this often, s; after a shaky one at once. */
const learnSeconds = 10;
// States.
const idle = 0;
const present = 1;
const gone = 2;

export interface LossWatch {
  take(block: InnerBlock): void;
  /**
   * Tells the grade of a window once it is known, at the same place in the stream whatever the blocks.
   *
   * @param beats of the last seconds, in order; those from `from` to `to` are learned from if believable
   */
  window(capture: CaptureGrade, from: number, to: number, beats: readonly Beat[]): void;
  /** Whether the pulse is lost just now. */
  lost(): boolean;
  /** The channel ends at this time, s: what only the samples mirrored beyond it would show is known then. */
  end(at: number): void;
}

/**
 * @param behind how far the inner stream is behind the raw samples, s
 * @param sink   called when a loss is seen (`back` null) and again when the pulse is back
 */
export function createLossWatch(
  rate: Hertz,
  behind: Seconds,
  trace: TraceMemory,
  sink: (loss: Loss) => void,
): LossWatch {
  const usual = createUsualUpstroke(trace);
  const chain = createReturnChain(usual);
  const { span, settle } = usual;
  const { ring, mask } = trace;
  // An object, not single variables: its numbers are changed in place and nothing is allocated.
  const s = {
    state: 0,
    n: 0,
    /** Largest rise of a group not yet settled, and its place. */
    best: 0.5,
    bestAt: -1,
    last: 0,
    /** The last upstroke beyond doubt, and the sample after which silence is a loss. */
    certain: 0,
    due: 0.5,
    /** All three as they would be without the last upstroke, should it turn out to be a step. */
    lastBefore: 0,
    certainBefore: 0,
    dueBefore: 0.5,
    /** When that is looked at, and the top of the upstroke. */
    checkAt: -1,
    top: 0.5,
    lost: 0.5,
    seen: 0.5,
    believedAt: 0,
    learnedAt: 0,
    latest: Number.POSITIVE_INFINITY,
  };
  s.best = 0;

  const time = (n: number) => (n / rate) as Seconds;

  function upstroke(at: number, rise: number): void {
    const like = rise > greatest * usual.rise ? 0 : usual.likeness(at);
    if (!(like >= alike)) return;
    if (s.state === gone) {
      const first = chain.take(at, rise, like);
      if (first < 0) return;
      restart(at);
      comeBack(usual.topAfter(first));
      return;
    }
    if (at - s.last < nearest * usual.interval) return;
    const beyondDoubt = isBeyondDoubt(usual, rise, like);
    if (beyondDoubt && s.certain === s.last) followRhythm(at - s.last);
    s.lastBefore = s.last;
    s.certainBefore = s.certain;
    s.dueBefore = Math.max(s.due, at + patienceInDoubt(usual, at - s.certain));
    s.last = at;
    if (beyondDoubt) s.certain = at;
    s.due = beyondDoubt ? Math.max(s.due, at + usual.patience) : s.dueBefore;
    s.checkAt = at + usual.fallTime;
    s.top = trace.sample(usual.topAfter(at));
    usual.rise += adapt * (Math.min(2 * usual.rise, Math.max(0.6 * usual.rise, rise)) - usual.rise);
  }

  function followRhythm(distance: number): void {
    if (distance >= near * usual.interval && distance <= far * usual.interval) usual.follow(distance);
  }

  /** The pulse is there, its last upstroke at this sample. */
  function restart(at: number): void {
    s.state = present;
    s.last = at;
    s.certain = at;
    s.due = at + usual.patience;
    s.checkAt = -1;
  }

  function comeBack(at: number): void {
    sink({ from: s.lost as Seconds, seen: s.seen as Seconds, back: time(at), backSeen: now() });
  }

  function lose(): void {
    s.state = gone;
    s.lost = time(usual.topAfter(s.last));
    s.seen = now();
    chain.clear();
    sink({ from: s.lost as Seconds, seen: s.seen as Seconds, back: null, backSeen: null });
  }

  function now(): Seconds {
    return Math.min(s.n / rate + behind, s.latest) as Seconds;
  }

  /** First sample from `n` on at which something falls due by itself. */
  function nextDue(n: number): number {
    let due = Number.POSITIVE_INFINITY;
    if (s.bestAt >= 0) due = s.bestAt + settle;
    else if (s.state === present) due = Math.floor(s.due) + 1;
    if (s.state === present && s.checkAt >= n) due = Math.min(due, s.checkAt);
    return Math.max(n, due);
  }

  /** First sample from `n` to `end` that is missing or rises more than any of its group; `end` if there is none. */
  function quietUntil(n: number, end: number): number {
    const values = ring;
    const wrap = mask;
    const back = span;
    const { best } = s;
    let k = n;
    while (k < end && values[k & wrap]! - values[(k - back) & wrap]! <= best) k++;
    return k;
  }

  function listen(n: number): void {
    const x = ring[n & mask]!;
    const rise = x - ring[(n - span) & mask]!;
    s.n = n;
    if (rise > s.best) {
      s.best = rise;
      s.bestAt = n;
    } else if (s.bestAt >= 0 && n - s.bestAt >= settle) {
      upstroke(s.bestAt, s.best);
      s.bestAt = -1;
      s.best = least * usual.rise;
    }
    if (n === s.checkAt && s.state === present && s.top - x < least * usual.fall * usual.rise) {
      // Steps bring the watch next to no farther, while pulses on a rising base still hold it off.
      s.last = s.lastBefore;
      s.certain = s.certainBefore;
      s.due = s.dueBefore;
    }
    if (Number.isNaN(x)) s.due++;
    if (s.state === present && s.bestAt < 0 && n > s.due) lose();
  }

  return {
    take({ first, count }) {
      if (s.state === idle) return;
      // The trace memory has taken this block already.
      const end = first + count;
      for (let n = first; n < end; ) {
        n = quietUntil(n, Math.min(end, nextDue(n)));
        if (n < end) listen(n++);
      }
    },
    window(capture, from, to, beats) {
      const believable = capture === "solid" || (capture === "shaky" && s.state === present);
      if (!believable) {
        if (s.state === present && to - s.believedAt > forgetSeconds) s.state = idle;
        return;
      }
      if (s.state === gone) {
        // The upstrokes were too unlike the old ones, but pulses they are.
        const first = beats.find((beat) => beat.peak >= from && beat.peak > s.seen);
        if (first === undefined) return;
        if (!usual.learn(beats, from, to, false)) return;
        s.learnedAt = to;
        restart(Math.round(beats.at(-1)!.peak * rate));
        s.n = trace.length() - 1;
        comeBack(Math.round(first.peak * rate));
      } else if (capture === "solid" && s.state === present && to - s.learnedAt < learnSeconds) {
        s.believedAt = to;
        return;
      } else if (usual.learn(beats, from, to, s.state === idle)) {
        s.learnedAt = to;
        if (s.state === idle) {
          const last = Math.round(beats.findLast((beat) => beat.peak < to)!.peak * rate);
          // The upstrokes since then were not listened for: give them the benefit of the doubt.
          restart(Math.max(last, trace.length() - 1 - Math.round(usual.interval)));
          s.bestAt = -1;
        }
      } else return;
      if (s.bestAt < 0) s.best = least * usual.rise;
      s.believedAt = to;
    },
    lost: () => s.state === gone,
    end(at) {
      s.latest = at;
    },
  };
}
