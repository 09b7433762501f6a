/** Whatever is read back: an event or a problem, never a throw, never a silent change. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { CaseEvent } from "./event.js";
import { type EventKind, eventKinds } from "./event-kinds.js";
import { CaseError, nextSeq } from "./event-maker.js";
import { caseEvent } from "./testing/arbitrary-events.js";
import { gradedReading, solidReading, writer } from "./testing/writer.js";
import { isProblem, understand, validateEvent } from "./validate-event.js";

const good = writer("a").write("note-written", { text: "cold hand" });

function codeOf(value: unknown): string | null {
  const checked = validateEvent(value, "row 3");
  return isProblem(checked) ? checked.code : null;
}

describe("an event read back", () => {
  test("is the very value that was written, after JSON as before", () => {
    fc.assert(
      fc.property(caseEvent, (event) => {
        const back: unknown = JSON.parse(JSON.stringify(event));
        const checked = validateEvent(back);
        if (understand(event) === "broken-body") expect(isProblem(checked)).toBe(true);
        else {
          expect(checked).toBe(back);
          expect(checked).toEqual(event);
        }
      }),
    );
  });

  test("keeps fields nobody knows yet, in the envelope and in the body", () => {
    const sealed = { ...good, seal: { before: "ab12" }, body: { text: "cold hand", mood: 3 } };
    expect(validateEvent(sealed)).toBe(sealed);
  });

  test.each([
    ["of an unknown kind", { ...good, kind: "blood-drawn", body: [1, 2] }, "unknown-kind"],
    ["of a newer version", { ...good, v: 2, body: {} }, "newer-version"],
  ])("%s is kept", (_, event, why) => {
    expect(validateEvent(event)).toBe(event);
    expect(understand(event as CaseEvent)).toBe(why);
  });
});

describe("what is no event is a problem", () => {
  test.each([
    ["nothing", undefined, "event-not-plain"],
    ["null", null, "event-envelope"],
    ["a text", "{}", "event-envelope"],
    ["a list", [good], "event-envelope"],
    ["no id", { ...good, id: "" }, "event-envelope"],
    [
      "no body",
      { id: "x", case: "c", at: 1, seq: 0, device: "a", kind: "note-written", v: 1 },
      "event-envelope",
    ],
    ["a moment that is none", { ...good, at: -1 }, "event-envelope"],
    ["a moment with a fraction", { ...good, at: 0.5 }, "event-envelope"],
    ["a number that is not whole", { ...good, seq: 1.5 }, "event-envelope"],
    ["version 0", { ...good, v: 0 }, "event-envelope"],
    ["a kind with spaces", { ...good, kind: "note written" }, "event-envelope"],
    ["a body of another shape", { ...good, body: { words: "cold" } }, "event-body"],
    ["a kind that every object has", { ...good, kind: "constructor", body: {} }, null],
    ["a number that is not finite", { ...good, body: { text: "a", depth: Number.NaN } }, "event-not-plain"],
    ["a date", { ...good, body: { text: "a", on: new Date(0) } }, "event-not-plain"],
    ["bytes", { ...good, body: { text: "a", raw: new Uint8Array(2) } }, "event-not-plain"],
    ["a hole", { ...good, body: { text: "a", some: undefined } }, "event-not-plain"],
    ["far too much", { ...good, body: { text: "a", many: Array(30_000).fill(0) } }, "event-not-plain"],
  ])("%s", (_, value, code) => {
    expect(codeOf(value)).toBe(code);
  });

  test("an object that holds itself", () => {
    const body: Record<string, unknown> = { text: "a" };
    body["self"] = body;
    expect(codeOf({ ...good, body })).toBe("event-not-plain");
  });

  test("anything at all, without a throw", () => {
    fc.assert(
      fc.property(fc.anything(), fc.constantFrom(...Object.keys(eventKinds)), (value, kind) => {
        expect(codeOf(value)).not.toBeNull();
        expect(() => validateEvent({ ...good, kind, body: value })).not.toThrow();
        expect(() => understand({ ...good, kind, body: value })).not.toThrow();
      }),
      { numRuns: 1000 },
    );
  });

  test("with its place, what was expected and what was found", () => {
    const sites = [{ role: "sound", side: "both", digit: "thumb" }];
    expect(validateEvent({ ...good, kind: "sites-chosen", body: { sites } }, "row 3")).toMatchObject({
      where: "row 3: body.sites[0].side",
      expected: "one of left, right",
      found: '"both"',
    });
  });
});

describe("bodies that would break a safety rule are not events", () => {
  const bodyCode = (kind: EventKind, body: unknown) => codeOf({ ...good, kind, body });
  const shaky = gradedReading("left", "thumb", 0, "shaky");
  const solid = solidReading("left", "thumb", 0);
  const splint = { act: "splint", other: null, limb: null, when: null, before: null, due: null };

  test.each<[string, EventKind, unknown]>([
    ["S2: a rate while not solid", "reading-taken", { ...shaky, rate: solid.rate }],
    [
      "S2: a perfusion index while not solid",
      "reading-taken",
      { ...shaky, perfusionIndex: solid.perfusionIndex },
    ],
    [
      "S3: an index without known gain",
      "reading-taken",
      { ...solid, source: { ...solid.source, gainKnown: false } },
    ],
    ["S4: a reading without a side", "reading-taken", { ...solid, site: { digit: "thumb" } }],
    [
      "S4: numbers without a site",
      "numbers-typed",
      { spo2: 97, rate: null, perfusionIndex: null, trace: null, closes: null },
    ],
    [
      "S4: a toe of an arm",
      "finding-typed",
      { where: { side: "left", limb: "arm", digit: "great toe" }, finding: { item: "cold", present: true } },
    ],
    [
      "S4: a finding without a side",
      "finding-typed",
      { where: { limb: "arm", digit: null }, finding: { item: "cold", present: true } },
    ],
    [
      "S4: one site in two roles",
      "sites-chosen",
      {
        sites: [
          { role: "sound", side: "left", digit: "thumb" },
          { role: "suspect", side: "left", digit: "thumb" },
        ],
      },
    ],
    ["S6: a band without its limb", "act-done", { ...splint, act: "band-on" }],
    ["S10: a case named after someone", "case-opened", { name: "Mary Miller" }],
    ["an answer that can see everything", "comparison-answered", { ...answerBody(), cannotSee: [] }],
    [
      "an interval beside its value",
      "reading-taken",
      { ...solid, rate: { value: 90, low: 70, high: 80, count: 9 } },
    ],
    ["another act without words", "act-done", { ...splint, act: "other" }],
    [
      "pain beyond ten",
      "finding-typed",
      {
        where: { side: "left", limb: "arm", digit: null },
        finding: { item: "pain", atRest: 11, onStretch: null },
      },
    ],
    [
      "an item of an unknown sort",
      "finding-typed",
      { where: { side: "left", limb: "arm", digit: null }, finding: { item: "nv intact" } },
    ],
  ])("%s", (_, kind, body) => {
    expect(bodyCode(kind, body)).toBe("event-body");
  });

  test("and the same ones mended are", () => {
    expect(bodyCode("reading-taken", shaky)).toBeNull();
    expect(bodyCode("reading-taken", solid)).toBeNull();
    expect(bodyCode("comparison-answered", answerBody())).toBeNull();
    expect(bodyCode("act-done", splint)).toBeNull();
  });
});

function answerBody() {
  return {
    sound: "a-1",
    suspect: "a-2",
    verdict: "cannot-tell",
    confidence: "low",
    sentence: "Cannot tell: the probe was off.",
    reasons: [],
    piRatio: null,
    delay: null,
    marks: [],
    couldBeWrong: [],
    cannotSee: ["how much blood flows"],
  };
}

describe("a device's own events", () => {
  test("count up while its clock runs back, and go on where they stopped", () => {
    const a = writer("a", 9);
    const one = a.write("note-written", { text: "x" });
    a.minute = 2;
    const two = a.write("note-written", { text: "y" });
    expect([one.seq, two.seq, two.at < one.at]).toEqual([0, 1, true]);
    expect(nextSeq([two, one], "a")).toBe(2);
    expect(nextSeq([two, one], "b")).toBe(0);
  });

  test("a body that has not the shape is the caller's mistake and uses up no number", () => {
    const a = writer("a");
    expect(() => a.write("note-written", { text: "" })).toThrow(CaseError);
    expect(a.write("note-written", { text: "x" }).seq).toBe(0);
  });
});
