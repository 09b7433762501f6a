/** Invented events of every kind, few ids, times and numbers, so that they meet, double and contradict. */
import fc from "fast-check";
import { captureGrades, digits } from "../../model/index.js";
import type { CaseEvent } from "../event.js";
import type { BodyOf, EventKind } from "../event-kinds.js";
import { limbOfDigit } from "../places.js";
import { acts, aims, answerVerdicts, confidences, moments, roles, sourceKinds } from "../vocabulary.js";
import { type WallTime, wallTime } from "../wall-clock.js";

const eventId = fc.nat({ max: 11 }).map((n) => `e${n}`);
const moment: fc.Arbitrary<WallTime> = fc.nat({ max: 40 }).map(wallTime);
const words = fc.constantFrom("tingling in the thumb", "left it on", "second try");
const code = fc.constantFrom("sites", "sound-side", "suspect-side", "answer");
const side = fc.constantFrom("left" as const, "right" as const);
const digit = fc.constantFrom(...digits);
const site = fc.record({ side, digit });
const limb = fc.record({ side, limb: fc.constantFrom("arm" as const, "leg" as const) });
const maybe = <T>(inner: fc.Arbitrary<T>) => fc.option(inner, { nil: null });

const sites = fc.oneof(
  side.map((sound) => [
    { role: "sound" as const, side: sound, digit: "index finger" as const },
    {
      role: "suspect" as const,
      side: sound === "left" ? ("right" as const) : ("left" as const),
      digit: "index finger" as const,
    },
  ]),
  site.map((own) => [{ role: "own" as const, ...own }]),
);

/** Well-formed whatever the grade: numbers only where it is solid. */
export const reading: fc.Arbitrary<BodyOf<"reading-taken">> = fc
  .record({
    site,
    role: fc.constantFrom(...roles),
    from: moment,
    length: fc.nat({ max: 5 }),
    gainKnown: fc.boolean(),
  })
  .chain(({ length, gainKnown, from, ...place }) =>
    fc
      .record({
        site: fc.constant(place.site),
        role: fc.constant(place.role),
        from: fc.constant(from),
        to: fc.constant(wallTime(from + length)),
        grade: fc.constantFrom(...captureGrades),
        closes: maybe(eventId),
        cuff: maybe(fc.boolean()),
      })
      .map(({ cuff, ...read }) => {
        const solid = read.grade === "solid";
        return {
          ...read,
          reasons: solid ? [] : [{ code: "too-few-beats", value: 3, unit: "{beats}", limit: 8 }],
          rate: solid ? { value: 72, low: 70, high: 75, count: 14 } : null,
          perfusionIndex: solid && gainKnown ? { value: 1.4, low: 1.2, high: 1.7, count: 14 } : null,
          presence: { answer: "found" as const, p: 0.0001, upperLimitIndex: null, reference: true },
          saturation: { value: 97, age: 1, fault: solid ? null : ("capture-not-solid" as const) },
          source: { id: "probe-1", what: "serial-sensor" as const, gainKnown },
          trace: { step: 0.04, low: -12.5, high: 80, points: [0, 500, null, 1000] },
          declared: {
            cuff,
            pump: null,
            cold: true,
            block: false,
            covered: null,
            height: "at heart" as const,
          },
        };
      }),
  );

const answer = fc
  .record({
    sound: eventId,
    suspect: eventId,
    verdict: fc.constantFrom(...answerVerdicts),
    confidence: fc.constantFrom(...confidences),
  })
  .map((given) => ({
    ...given,
    sentence: "The left index finger's pulse wave is smaller than the right's.",
    reasons: [
      {
        code: "ratio-below",
        words: "the wave is a third of the other",
        value: 0.33,
        unit: "1",
        rule: "pi.ratio",
      },
    ],
    piRatio: { value: 0.33, low: 0.2, high: 0.5, count: 14 },
    delay: null,
    marks: [],
    couldBeWrong: ["cold was not stated"],
    cannotSee: ["how much blood flows"],
  }));

const finding = fc
  .record({ limb, digit: maybe(digit), on: fc.boolean(), pain: fc.nat({ max: 10 }) })
  .chain((given) =>
    fc
      .constantFrom(
        { item: "cuff" as const, present: given.on },
        { item: "cold" as const, present: given.on },
        { item: "pain" as const, atRest: given.pain, onStretch: null },
        {
          item: "pulse" as const,
          pulse: "radial" as const,
          by: "finger" as const,
          strength: "weak" as const,
        },
        { item: "movement" as const, nerve: "ulnar" as const, moves: "weak" as const },
      )
      .map((found) => {
        const fits = given.digit !== null && limbOfDigit(given.digit) === given.limb.limb;
        return { where: { ...given.limb, digit: fits ? given.digit : null }, finding: found };
      }),
  );

const bodies: { readonly [K in Exclude<EventKind, "correction">]: fc.Arbitrary<BodyOf<K>> } = {
  "case-opened": fc.constantFrom({ name: "LARK-27" }, { name: "FLINT-90" }),
  "step-reached": fc.record({ step: code }),
  "concern-set": fc.record({
    concern: maybe(words),
    mechanism: maybe(fc.constantFrom("crush" as const, "bite" as const)),
  }),
  "aim-chosen": fc.record({ aim: fc.constantFrom(...aims) }),
  "scene-chosen": fc.record({ scene: code }),
  "sites-chosen": fc.record({ sites }),
  "sides-confirmed": fc.record({ confirms: eventId }),
  "source-attached": fc.record({
    source: fc.constantFrom("s1", "s2"),
    what: fc.constantFrom(...sourceKinds),
    site: maybe(site),
  }),
  "source-lost": fc.record({ source: fc.constantFrom("s1", "s2"), why: maybe(words) }),
  "source-regained": fc.record({ source: fc.constantFrom("s1", "s2") }),
  "pump-marked": fc.record({ pump: maybe(fc.boolean()) }),
  "reading-taken": reading,
  "comparison-answered": answer,
  "numbers-typed": fc.record({
    site,
    spo2: maybe(fc.nat({ max: 100 })),
    rate: fc.nat({ max: 200 }),
    perfusionIndex: maybe(fc.constant(0.8)),
    trace: fc.constantFrom("good" as const, "poor" as const, "none" as const, null),
    closes: maybe(eventId),
  }),
  "act-done": fc
    .record({
      act: fc.constantFrom(...acts),
      limb,
      when: maybe(moment),
      before: maybe(eventId),
      due: maybe(moment),
    })
    .map((done) => ({ ...done, other: done.act === "other" ? "cooled with water" : null })),
  "finding-typed": finding,
  "note-written": fc.record({ text: words }),
  "moment-set": fc.record({ moment: fc.constantFrom(...moments), when: maybe(moment) }),
  "recheck-set": fc.record({ due: moment, why: maybe(words) }),
  "case-closed": fc.record({ why: maybe(words) }),
};

type Content = Pick<CaseEvent, "kind" | "body" | "v">;

const plain: fc.Arbitrary<Content> = fc.oneof(
  ...Object.entries(bodies).map(([kind, body]) =>
    (body as fc.Arbitrary<unknown>).map((made): Content => ({ kind, v: 1, body: made })),
  ),
);

/** Bodies of any kind, so that many do not fit what they correct. */
const correction: fc.Arbitrary<Content> = fc
  .record({ corrects: eventId, body: maybe(plain.map(({ body }) => body)), why: maybe(words) })
  .map((body) => ({ kind: "correction", v: 1, body }));

const fitting = fc.oneof(
  { weight: 12, arbitrary: plain },
  { weight: 4, arbitrary: correction },
  {
    weight: 2,
    arbitrary: bodies["sites-chosen"].map((body): Content => ({ kind: "sites-chosen", v: 1, body })),
  },
  {
    weight: 2,
    arbitrary: bodies["sides-confirmed"].map((body): Content => ({ kind: "sides-confirmed", v: 1, body })),
  },
  { weight: 2, arbitrary: reading.map((body): Content => ({ kind: "reading-taken", v: 1, body })) },
  { weight: 1, arbitrary: fc.constant<Content>({ kind: "blood-drawn", v: 1, body: { tubes: 3 } }) },
  { weight: 1, arbitrary: fc.constant<Content>({ kind: "note-written", v: 9, body: ["from", "later"] }) },
  { weight: 1, arbitrary: fc.constant<Content>({ kind: "aim-chosen", v: 1, body: { aim: "grow" } }) },
);

export const caseEvent: fc.Arbitrary<CaseEvent> = fc
  .record({
    id: eventId,
    case: fc.oneof(
      { weight: 20, arbitrary: fc.constant("case-1") },
      { weight: 1, arbitrary: fc.constant("case-2") },
    ),
    at: moment,
    seq: fc.nat({ max: 11 }),
    device: fc.constantFrom("a", "b"),
  })
  .chain((envelope) => fitting.map((content) => ({ ...envelope, ...content })));

/** Events that contradict each other: ids and numbers taken twice, clocks that run anywhere. */
export const anyEvents = fc.array(caseEvent, { maxLength: 14 });

/** What one or two devices write in earnest: every id once, numbers rising, clocks that jump. */
export const earnestEvents = fc.array(caseEvent, { maxLength: 12 }).map((events) => {
  const next = new Map<string, number>();
  return events.map((event, i): CaseEvent => {
    const seq = next.get(event.device) ?? 0;
    next.set(event.device, seq + 1);
    return { ...event, case: "case-1", id: `e${i}`, seq };
  });
});

/** The events in any order, some of them twice. */
export function shuffled(events: readonly CaseEvent[]): fc.Arbitrary<readonly CaseEvent[]> {
  const doubled = fc.subarray([...events]).map((again) => [...events, ...again]);
  return doubled.chain((all) => fc.shuffledSubarray(all, { minLength: all.length }));
}
