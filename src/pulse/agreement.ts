/** Pulse against heart, beat by beat: matched, missed, extra, and the deficit. */
import { type PerMinute, perMinute, type Seconds, seconds } from "../model/units.js";

export interface Pairing {
  /** [reference, test] numbers of beats that belong together, in order. */
  readonly matched: readonly (readonly [number, number])[];
  /** Reference beats without a test beat. */
  readonly missed: readonly number[];
  /** Test beats without a reference beat. */
  readonly extra: readonly number[];
}

/**
 * Pairs two ordered beat trains one to one, closest first, when test − reference lies within
 * `tolerance` of `delay`. Scores use delay 0 and 0.15 s (Charlton 2022: from memory).
 */
export function pairBeats(
  reference: readonly number[],
  test: readonly number[],
  tolerance: Seconds,
  delay: Seconds = seconds(0),
): Pairing {
  const candidates: { r: number; t: number; off: number }[] = [];
  let first = 0;
  reference.forEach((time, r) => {
    const due = time + delay;
    while (first < test.length && (test[first] as number) < due - tolerance) first++;
    for (let t = first; t < test.length && (test[t] as number) <= due + tolerance; t++) {
      candidates.push({ r, t, off: Math.abs((test[t] as number) - due) });
    }
  });
  candidates.sort((a, b) => a.off - b.off || a.r - b.r || a.t - b.t);
  const ofReference = new Map<number, number>();
  const taken = new Set<number>();
  for (const { r, t } of candidates) {
    if (ofReference.has(r) || taken.has(t)) continue;
    ofReference.set(r, t);
    taken.add(t);
  }
  return {
    matched: [...ofReference].sort((a, b) => a[0] - b[0]),
    missed: reference.map((_, r) => r).filter((r) => !ofReference.has(r)),
    extra: test.map((_, t) => t).filter((t) => !taken.has(t)),
  };
}

export interface Agreement extends Pairing {
  /** Usual delay from heart beat to pulse; a monitor's own delay is in it, so it is no transit time. */
  readonly delay: Seconds;
  /** Heart beats without a pulse, per minute of heart time. */
  readonly deficit: PerMinute;
}

/** Plausible delay from an R wave to the pulse's peak, monitors' own delay included, seconds. */
const EARLIEST = 0.15;
const LATEST = 0.9;
/** A pulse belongs to a heart beat if it comes within this of the usual delay, seconds. */
const LEEWAY = 0.2;

/**
 * Pulses against heart beats with the delay found from the data: the delay from the first,
 * second or third beat before each pulse whose spread is smallest within the plausible range.
 * With a dead steady rhythm several fit; the pairing is the same, only its numbering shifts.
 *
 * @returns `null` with fewer than 5 beats on either side, or when no delay is plausible
 */
export function agreeWithHeart(heart: readonly number[], pulses: readonly number[]): Agreement | null {
  if (heart.length < 5 || pulses.length < 5) return null;
  let best: { delay: number; spread: number } | null = null;
  for (let back = 1; back <= 3; back++) {
    const delays: number[] = [];
    let before = 0;
    for (const pulse of pulses) {
      while (before < heart.length && (heart[before] as number) < pulse) before++;
      const beat = heart[before - back];
      if (beat !== undefined) delays.push(pulse - beat);
    }
    if (delays.length < 5) continue;
    delays.sort((a, b) => a - b);
    const at = (share: number) => delays[Math.floor(share * (delays.length - 1))] as number;
    const delay = at(0.5);
    const spread = at(0.75) - at(0.25);
    if (delay < EARLIEST || delay > LATEST) continue;
    if (best === null || spread < best.spread - 0.002) best = { delay, spread };
  }
  if (best === null) return null;
  const delay = seconds(best.delay);
  const pairing = pairBeats(heart, pulses, seconds(LEEWAY), delay);
  // Heart beats whose pulse would lie outside the stretch in which pulses were looked for say nothing.
  const from = (pulses[0] as number) - delay - LEEWAY;
  const to = (pulses.at(-1) as number) - delay + LEEWAY;
  const missed = pairing.missed.filter((r) => (heart[r] as number) >= from && (heart[r] as number) <= to);
  const minutes = ((pulses.at(-1) as number) - (pulses[0] as number)) / 60;
  return { ...pairing, missed, delay, deficit: perMinute(minutes > 0 ? missed.length / minutes : 0) };
}
