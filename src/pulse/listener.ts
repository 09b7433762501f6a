/**
 * The whole engine for one pleth channel: raw samples in; beats, graded windows, losses and
 * faults out. Batch and live use are the same code; the cut of the blocks has no influence.
 */
import type { Beat } from "../model/beat.js";
import type { Loss, Window } from "../model/capture.js";
import type { Polarity } from "../model/channel.js";
import type { Hertz, Percent, PerMinute, Seconds } from "../model/units.js";
import { createBeatFinder } from "./beat-finder.js";
import { type CaptureLimits, gradeCapture } from "./capture-grade.js";
import { createConditioner } from "./conditioner.js";
import type { InnerSink } from "./inner-stream.js";
import { createLossSpans } from "./loss-spans.js";
import { createLossWatch } from "./loss-watch.js";
import { testAlone } from "./presence-alone.js";
import { createRhythmMeter } from "./quality-rhythm.js";
import { createShapeMeter } from "./quality-shape.js";
import { createStirMeter } from "./quality-stir.js";
import { createWindowMeter } from "./quality-window.js";
import type { RawFault } from "./raw-fault.js";
import { createRawFaults } from "./raw-faults.js";
import { createTraceMemory } from "./trace-memory.js";

export interface PulseListenerOptions {
  readonly rate: Hertz;
  readonly polarity: Polarity;
  /** Raw light with a true level: beats and windows carry a perfusion index (S3). */
  readonly level: boolean;
  /** Seconds from window to window, above 0 to 5; 5 joins them end to end, 1 suits live use. */
  readonly hop?: number;
  /** Lowest and highest value the source can give, where known. */
  readonly rails?: { readonly low: number; readonly high: number };
  /** Limits of the capture grade; others than its own only to score the choice of them. */
  readonly limits?: CaptureLimits;
}

export interface PulseSink {
  beat(beat: Beat): void;
  /** In order of their ends, each once, 1 s of samples after its end. */
  window(window: Window): void;
  /** Twice per loss: when it is seen (`back` null) and again when the pulse is back. */
  loss(loss: Loss): void;
  fault?(fault: RawFault): void;
}

export interface PulseListener {
  /** Takes the next samples, channel units; NaN = missing. */
  push(values: Float64Array): void;
  /** Decides what is pending; the last window may be shorter. */
  end(): void;
}

/** Length of a graded window, seconds. */
const windowSeconds = 5;
/** A window is graded once this much has followed it, so that its last beats are decided. */
const settleSeconds = 1;
/** Beats and faults are kept this long, seconds. */
const keepSeconds = 20;
/** Pulses seen before tell how large a pulse would be, for this long, seconds. */
const sizeSeconds = 60;
const mostFaults = 512;

export function createPulseListener(options: PulseListenerOptions, sink: PulseSink): PulseListener {
  const { rate, polarity, level, hop = windowSeconds, rails, limits } = options;
  if (!(hop > 0 && hop <= windowSeconds))
    throw new RangeError(`hop ${hop} s is outside 0 to ${windowSeconds}`);
  const beats: Beat[] = [];
  const faults: RawFault[] = [];
  let taken = 0;
  let windows = 0;
  let lastTo = 0;
  let pulseSize = Number.NaN;
  let pulseSizeAt = 0;

  const inner: InnerSink = {
    take(block) {
      finder.take(block);
      trace.take(block);
      losses.take(block);
    },
    end() {
      finder.end();
    },
  };
  const conditioner = createConditioner({ rate, polarity, level }, inner);
  const trace = createTraceMemory(conditioner.innerRate);
  const lost = createLossSpans();
  const losses = createLossWatch(conditioner.innerRate, conditioner.delay, trace, (loss) => {
    lost.take(loss);
    sink.loss(loss);
  });
  const finder = createBeatFinder({ innerRate: conditioner.innerRate, level }, (beat) => {
    beats.push(beat);
    sink.beat(beat);
  });
  const raw = createRawFaults({ rate, rails }, (fault) => {
    faults.push(fault);
    sink.fault?.(fault);
  });
  const meter = createWindowMeter(createShapeMeter(trace));
  const stir = createStirMeter(trace);
  const rhythm = createRhythmMeter(trace);

  /** First raw sample of the time at which window `k` is graded. */
  const dueAt = (k: number) => Math.ceil((k * hop + windowSeconds + settleSeconds) * rate);

  /** The window being graded, and what else is known of it: made once, because every window needs it. */
  const span = { from: 0.5, to: 0.5 };
  const context = {
    quantum: Number.NaN,
    pulseSize: Number.NaN,
    lostBeats: 0.5,
    stillLost: false,
    chance: () => chanceOfRhythm(span.from, span.to),
    rhythm: () => rhythm(span.from, span.to),
    stir: () => stir(span.from, span.to),
  };

  function closeWindow(from: number, to: number): void {
    const evidence = meter.measure(from, to, beats, withRunning());
    span.from = from;
    span.to = to;
    context.quantum = raw.quantum();
    context.pulseSize = from - pulseSizeAt <= sizeSeconds ? pulseSize : Number.NaN;
    context.lostBeats = lost.beatsDue(from, to);
    context.stillLost = losses.lost();
    const { capture, reasons } = gradeCapture(evidence, context, limits);
    const believable = capture === "solid" || capture === "shaky";
    if (capture === "solid") {
      pulseSize = evidence.shapes.size;
      pulseSizeAt = to;
      lost.usual(evidence.interval);
    }
    sink.window({
      from: from as Seconds,
      to: to as Seconds,
      capture,
      reasons,
      pulseRate: believable && evidence.interval > 0 ? ((60 / evidence.interval) as PerMinute) : null,
      perfusionIndex: believable && level ? medianIndex(from, to) : null,
    });
    losses.window(capture, from, to, beats);
    lastTo = to;
    forget(to - keepSeconds);
  }

  /** Allocates, but is asked only of quiet windows without beats. */
  function chanceOfRhythm(from: number, to: number): number {
    const { innerRate } = conditioner;
    const first = Math.ceil(from * innerRate);
    const values = new Float64Array(Math.max(0, Math.floor(to * innerRate) - first));
    for (let i = 0; i < values.length; i++) values[i] = trace.sample(first + i);
    return testAlone({ values, rate: innerRate }).presence.p;
  }

  /** Faults so far, and what is still running, up to now. */
  function withRunning(): readonly RawFault[] {
    const flat = raw.running("flat");
    const missing = raw.running("missing");
    if (flat === 0 && missing === 0) return faults;
    const now = taken / rate;
    const from = (now - Math.max(flat, missing)) as Seconds;
    return [...faults, { kind: flat > 0 ? "flat" : "missing", from, to: now as Seconds }];
  }

  function medianIndex(from: number, to: number): Percent | null {
    const found: number[] = [];
    for (const { peak, perfusionIndex } of beats) {
      if (peak >= from && peak < to && perfusionIndex !== null) found.push(perfusionIndex);
    }
    found.sort((a, b) => a - b);
    return (found[found.length >> 1] ?? null) as Percent | null;
  }

  function forget(before: number): void {
    let old = 0;
    while (old < beats.length && beats[old]!.peak < before) old++;
    if (old > 0) beats.splice(0, old);
    old = Math.max(0, faults.length - mostFaults);
    while (old < faults.length && faults[old]!.to < before) old++;
    if (old > 0) faults.splice(0, old);
  }

  return {
    push(values) {
      for (let i = 0; i < values.length; ) {
        const due = dueAt(windows);
        const stop = Math.min(values.length, i + due - taken);
        raw.push(values, i, stop);
        conditioner.push(i === 0 && stop === values.length ? values : values.subarray(i, stop));
        taken += stop - i;
        i = stop;
        if (taken === due) {
          closeWindow(windows * hop, windows * hop + windowSeconds);
          windows++;
        }
      }
    },
    end() {
      const length = taken / rate;
      raw.end();
      losses.end(length);
      conditioner.end();
      for (; windows * hop + windowSeconds <= length; windows++) {
        const to = windows * hop + windowSeconds;
        // A rest too short to be graded joins the last whole window.
        const last = to + hop > length && length - to < settleSeconds;
        closeWindow(windows * hop, last ? length : to);
      }
      if (length > lastTo) closeWindow(windows * hop, length);
    },
  };
}
