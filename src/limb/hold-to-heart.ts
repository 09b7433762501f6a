/**
 * Graded windows held against the heart's own beats: is there a wave at them, and has each its pulse?
 * The reference can take trust away and call for a second look; it never makes a window solid.
 */
import type { Beat, PerMinute, Presence, Seconds, Window } from "../model/index.js";
import { agreeWithHeart, pairBeats } from "../pulse/agreement.js";
import { type ChannelStream, type Heard, type Span, spanPieces } from "./listen.js";
import { presenceAt } from "./read-stretch.js";

/** Beats of the heart that fall into a stretch, with their pulses. */
export interface BeatCounts {
  readonly heartBeats: number;
  readonly matched: number;
  /** Heart beats without a pulse. */
  readonly missed: number;
  /** Pulses without a heart beat. */
  readonly extra: number;
}

export interface HeldWindow {
  /** Of the window and 2.5 s on either side; `null` where the probe was off or the window unreadable. */
  readonly presence: Presence | null;
  /** `null` when pulse and heart could not be laid beside each other at all. */
  readonly counts: BeatCounts | null;
}

export interface HeldToHeart {
  /** As graded, and revised by `reviseByHeart`. */
  readonly windows: readonly Window[];
  /** One for each window. */
  readonly held: readonly HeldWindow[];
  /** Sum over the solid windows; `null` without any, or when nothing could be paired. */
  readonly counts: BeatCounts | null;
  /** Heart beats without a pulse per minute of solid windows; `null` likewise. */
  readonly deficit: PerMinute | null;
  /** Usual time from R wave to the top of the pulse, a monitor's own delay included; `null` likewise. */
  readonly delay: Seconds | null;
}

/** Seconds on either side of a window that are tested with it: six beats are needed before `not-found` may be said. */
const around = 2.5;
/** A pulse belongs to a heart beat if it comes within this of the usual delay, seconds; as in `agreeWithHeart`. */
const leeway = 0.2 as Seconds;

/** @param hearts R waves on the clock of the pleth, in order; see `heartBeats` */
export async function holdToHeart(
  stream: ChannelStream,
  span: Span,
  heard: Heard,
  hearts: readonly Seconds[],
): Promise<HeldToHeart> {
  const presences = await presencesOf(stream, span, heard.windows, hearts);
  const windows = heard.windows.map((window, i) => reviseByHeart(window, presences[i]!));
  const solid = (window: Window) => window.capture === "solid";
  const believed: Beat[] = [];
  walk(
    windows,
    heard.beats,
    ({ peak }) => peak,
    (at, beat) => solid(windows[at]!) && believed.push(beat),
  );
  const delay =
    agreeWithHeart(
      hearts,
      believed.map(({ peak }) => peak),
    )?.delay ?? null;
  const counts = delay === null ? null : countBeats(windows, heard.beats, hearts, delay);
  const used = windows.filter(solid);
  const minutes = used.reduce((sum, { from, to }) => sum + to - from, 0) / 60;
  const total = counts === null ? null : addUp(counts.filter((_, i) => solid(windows[i]!)));
  return {
    windows,
    held: presences.map((presence, i) => ({ presence, counts: counts?.[i] ?? null })),
    counts: total,
    deficit: total === null ? null : ((total.missed / minutes) as PerMinute),
    delay,
  };
}

/**
 * - solid becomes shaky when the test finds no wave at the heart's beat: one of the two is not what it seems
 * - none becomes shaky when the test finds one: there is no saying that there is no pulse wave
 */
export function reviseByHeart(window: Window, presence: Presence | null): Window {
  const denied = window.capture === "solid" && presence?.answer === "not-found";
  const shown = window.capture === "none" && presence?.answer === "found";
  if (!denied && !shown) return window;
  const code = denied ? "reference-disagrees" : "weak-smooth-wave";
  const reason = { code, value: presence!.p, unit: "1", limit: null } as const;
  const rest = window.reasons.filter((one) => one.code !== code);
  return { ...window, capture: "shaky", reasons: [reason, ...rest] };
}

async function presencesOf(
  stream: ChannelStream,
  span: Span,
  windows: readonly Window[],
  hearts: readonly Seconds[],
): Promise<(Presence | null)[]> {
  const { rate } = stream.channel;
  const presences: (Presence | null)[] = [];
  const longest = windows.reduce((most, { from, to }) => Math.max(most, to - from), 0) + 2 * around;
  const kept = new Float64Array(Math.ceil(longest * rate) + 2);
  let taken = 0;
  let begin = 0;
  let heart = 0;

  /** Tests the next window from what is kept. */
  function test(): void {
    const window = windows[presences.length]!;
    if (window.capture === "off" || window.capture === "unreadable") {
      presences.push(null);
      return;
    }
    const numberAt = (time: number) => Math.round((time - begin) * rate);
    const first = Math.max(0, taken - kept.length, numberAt(window.from - around));
    const last = Math.min(taken, numberAt(window.to + around));
    const values = Float64Array.from(
      { length: Math.max(0, last - first) },
      (_, i) => kept[(first + i) % kept.length]!,
    );
    const start = begin + first / rate;
    // Marks up to two seconds outside the stretch help at its ends.
    while (heart < hearts.length && hearts[heart]! < start - 2) heart++;
    let after = heart;
    while (after < hearts.length && hearts[after]! < start + values.length / rate + 2) after++;
    const beats = hearts.slice(heart, after);
    presences.push(presenceAt(stream.channel, { values, first: start }, { kind: "ecg", beats }));
  }

  for await (const { time, values } of spanPieces(stream, span)) {
    if (taken === 0) begin = time;
    for (const value of values) {
      kept[taken % kept.length] = value;
      taken++;
      const window = windows[presences.length];
      if (window !== undefined && begin + taken / rate >= window.to + around) test();
    }
  }
  while (presences.length < windows.length) test();
  return presences;
}

/** Tells the window each of some things in time order falls into; what falls into none is left out. */
function walk<Thing>(
  windows: readonly Window[],
  things: readonly Thing[],
  timeOf: (thing: Thing) => number,
  tell: (at: number, thing: Thing) => void,
): void {
  let at = 0;
  for (const thing of things) {
    const time = timeOf(thing);
    while (at < windows.length && time >= windows[at]!.to) at++;
    if (at < windows.length && time >= windows[at]!.from) tell(at, thing);
  }
}

/** A heart beat counts where its pulse is due. */
function countBeats(
  windows: readonly Window[],
  beats: readonly Beat[],
  hearts: readonly Seconds[],
  delay: Seconds,
): BeatCounts[] {
  const peaks = beats.map(({ peak }) => peak);
  const { matched, missed, extra } = pairBeats(hearts, peaks, leeway, delay);
  const counts = windows.map(() => ({ heartBeats: 0, matched: 0, missed: 0, extra: 0 }));
  const tally = (times: readonly number[], what: "matched" | "missed" | "extra") =>
    walk(
      windows,
      times,
      (time) => time,
      (at) => {
        counts[at]![what]++;
        if (what !== "extra") counts[at]!.heartBeats++;
      },
    );
  tally(
    matched.map(([, test]) => peaks[test]!),
    "matched",
  );
  tally(
    missed.map((one) => hearts[one]! + delay),
    "missed",
  );
  tally(
    extra.map((one) => peaks[one]!),
    "extra",
  );
  return counts;
}

function addUp(counts: readonly BeatCounts[]): BeatCounts {
  const sum = (of: (count: BeatCounts) => number) => counts.reduce((total, count) => total + of(count), 0);
  return {
    heartBeats: sum((count) => count.heartBeats),
    matched: sum((count) => count.matched),
    missed: sum((count) => count.missed),
    extra: sum((count) => count.extra),
  };
}
