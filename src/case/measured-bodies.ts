/** Bodies of the events that carry what was measured: a reading, an answer, numbers read off another screen. */
import { captureGrades } from "../model/index.js";
import { site } from "./places.js";
import {
  code,
  flag,
  id,
  list,
  moment,
  nullable,
  number,
  type Of,
  oneOf,
  record,
  ruled,
  text,
  whole,
} from "./shape.js";
import {
  answerVerdicts,
  confidences,
  heights,
  presenceAnswers,
  roles,
  saturationFaults,
  sourceKinds,
} from "./vocabulary.js";

const any = (unit: string) => number(-1e12, 1e12, unit);

/** Middle and 95 % interval, and the count of beats behind it. */
const spread = (low: number, high: number, unit: string) =>
  ruled(
    record({
      value: number(low, high, unit),
      low: number(low, high, unit),
      high: number(low, high, unit),
      count: whole(1, 1e6, "beats"),
    }),
    "an interval around its value",
    (value) => value.low <= value.value && value.value <= value.high,
  );

/** The trace for the picture: evenly spaced, 0 at `low` and 1000 at `high`; `null` where samples are missing. */
export const thinnedTrace = record({
  /** Seconds between points. */
  step: number(1e-4, 60, "s"),
  /** Of the channel; known gain or not is said by `gainKnown` of the reading (S3). */
  low: any(""),
  high: any(""),
  points: list(nullable(whole(0, 1000, "")), 1, 1200),
});
export type ThinnedTrace = Of<typeof thinnedTrace>;

/** As declared at the site while it was read; `null` is not stated. */
export const conditions = record({
  cuff: nullable(flag),
  pump: nullable(flag),
  cold: nullable(flag),
  block: nullable(flag),
  covered: nullable(flag),
  height: nullable(oneOf(heights)),
});

export const readingTaken = ruled(
  record({
    site,
    role: oneOf(roles),
    /** First and last moment judged. */
    from: moment,
    to: moment,
    grade: oneOf(captureGrades),
    reasons: list(
      record({ code, value: nullable(any("")), unit: nullable(text(24)), limit: nullable(any("")) }),
      0,
      24,
    ),
    /** Beats per minute; `null` unless solid (S2). */
    rate: nullable(spread(0, 1000, "/min")),
    /** Percent; `null` unless solid and of known gain (S2, S3). */
    perfusionIndex: nullable(spread(0, 100, "%")),
    presence: nullable(
      record({
        answer: oneOf(presenceAnswers),
        p: number(0, 1, ""),
        /** Percent: the largest perfusion index that could have hidden; `null` when not known. */
        upperLimitIndex: nullable(number(0, 1000, "%")),
        reference: flag,
      }),
    ),
    saturation: nullable(
      record({
        value: number(0, 100, "%"),
        /** Seconds, at the end of the reading. */
        age: number(0, 1e9, "s"),
        fault: nullable(oneOf(saturationFaults)),
      }),
    ),
    source: record({ id, what: oneOf(sourceKinds), gainKnown: flag }),
    trace: nullable(thinnedTrace),
    declared: conditions,
    /** The act whose open pair this reading closes. */
    closes: nullable(id),
  }),
  "from before to; rate and perfusion index only if solid, the index only if the gain is known",
  (reading) =>
    reading.from <= reading.to &&
    (reading.grade === "solid" || (reading.rate === null && reading.perfusionIndex === null)) &&
    (reading.source.gainKnown || reading.perfusionIndex === null),
);

/** The answer as it was shown, in pieces: what was said, why, and what it could not see. */
export const comparisonAnswered = record({
  /** The readings compared, by the ids of their events. */
  sound: id,
  suspect: id,
  verdict: oneOf(answerVerdicts),
  confidence: oneOf(confidences),
  sentence: text(1200),
  reasons: list(
    record({
      code,
      words: text(400),
      value: nullable(any("")),
      unit: nullable(text(24)),
      /** The id of the threshold's row. */
      rule: nullable(text(80)),
    }),
    0,
    40,
  ),
  /** Suspect over sound. */
  piRatio: nullable(spread(0, 1e6, "")),
  /** Suspect after sound, milliseconds. */
  delay: nullable(spread(-1e5, 1e5, "ms")),
  marks: list(text(400), 0, 24),
  couldBeWrong: list(text(400), 0, 40),
  /** Never empty: said with every verdict. */
  cannotSee: list(text(400), 1, 24),
});

/** Numbers the medic reads off another screen, and what the trace there looked like. */
export const numbersTyped = ruled(
  record({
    site,
    spo2: nullable(whole(0, 100, "%")),
    rate: nullable(whole(0, 400, "/min")),
    perfusionIndex: nullable(number(0, 100, "%")),
    trace: nullable(oneOf(["good", "poor", "none"])),
    /** The act whose open pair these numbers close. */
    closes: nullable(id),
  }),
  "at least one number or the look of the trace",
  (typed) =>
    typed.spo2 !== null || typed.rate !== null || typed.perfusionIndex !== null || typed.trace !== null,
);
