/** The rules of the record, each on a small invented case. */
import { describe, expect, test } from "vitest";
import { latestFindings, openPairs, readingsAt } from "./asking-view.js";
import { fold } from "./fold.js";
import { gradedReading, solidReading, writer } from "./testing/writer.js";
import { wallTime } from "./wall-clock.js";

const minute = (count: number) => wallTime(count * 60_000);
const leftSound = [
  { role: "sound", side: "left", digit: "index finger" },
  { role: "suspect", side: "right", digit: "index finger" },
] as const;
const rightSound = [
  { role: "sound", side: "right", digit: "index finger" },
  { role: "suspect", side: "left", digit: "index finger" },
] as const;

test("a case reopens at the last step, with its name, aim, mechanism and sites", () => {
  const a = writer("a");
  const view = fold([
    a.write("case-opened", { name: "LARK-27" }),
    a.write("concern-set", { concern: "hand trapped in a press", mechanism: "crush" }),
    a.write("step-reached", { step: "aim" }),
    a.write("aim-chosen", { aim: "stay" }),
    a.write("sites-chosen", { sites: leftSound }),
    a.write("step-reached", { step: "sound-side" }),
  ]);
  expect(view).toMatchObject({
    case: "case-1",
    name: { value: "LARK-27", event: "a-0" },
    mechanism: { value: "crush" },
    aim: { value: "stay" },
    sites: { value: leftSound },
    step: { value: "sound-side" },
    closed: null,
    unread: [],
  });
});

describe("S4: a side moves only when that is confirmed", () => {
  test("sites that swap sides wait, and the chosen ones stay", () => {
    const a = writer("a");
    const first = a.write("sites-chosen", { sites: leftSound });
    const swap = a.write("sites-chosen", { sites: rightSound });
    expect(fold([first, swap])).toMatchObject({
      sites: { value: leftSound },
      sitesToConfirm: { value: rightSound, event: swap.id },
    });
    const yes = a.write("sides-confirmed", { confirms: swap.id });
    expect(fold([first, swap, yes])).toMatchObject({ sites: { value: rightSound }, sitesToConfirm: null });
  });

  test("the limb in question moves as well when its role changes its name", () => {
    const a = writer("a");
    const events = [
      a.write("sites-chosen", { sites: leftSound }),
      a.write("sites-chosen", { sites: [{ role: "own", side: "left", digit: "index finger" }] }),
    ];
    expect(fold(events).sitesToConfirm).not.toBeNull();
    expect(fold(events).sites?.value).toEqual(leftSound);
  });

  test("another digit of the same side needs no confirmation", () => {
    const a = writer("a");
    const thumbs = leftSound.map((site) => ({ ...site, digit: "thumb" as const }));
    const view = fold([
      a.write("sites-chosen", { sites: leftSound }),
      a.write("sites-chosen", { sites: thumbs }),
    ]);
    expect(view.sites?.value).toEqual(thumbs);
    expect(view.sitesToConfirm).toBeNull();
  });

  test("a correction that moves a reading to the other side waits until it is confirmed", () => {
    const a = writer("a");
    const taken = a.write("reading-taken", solidReading("left", "thumb", 0));
    const moved = a.write("correction", {
      corrects: taken.id,
      body: solidReading("right", "thumb", 0),
      why: "probe was on the other hand",
    });
    const waiting = fold([taken, moved]);
    expect(waiting.readings[0]?.value.site.side).toBe("left");
    expect(waiting.corrections).toMatchObject([{ event: moved.id, taken: false }]);
    const yes = a.write("sides-confirmed", { confirms: moved.id });
    expect(fold([taken, moved, yes]).readings[0]?.value.site.side).toBe("right");
    const taking = a.write("correction", { corrects: yes.id, body: null, why: null });
    expect(fold([taken, moved, yes, taking]).readings[0]?.value.site.side).toBe("left");
  });

  test("sites corrected to the other side, and confirmed as such, need no second confirmation", () => {
    const a = writer("a");
    const first = a.write("sites-chosen", { sites: leftSound });
    const thumbs = leftSound.map((site) => ({ ...site, digit: "thumb" as const }));
    const second = a.write("sites-chosen", { sites: thumbs });
    const fix = a.write("correction", { corrects: second.id, body: { sites: rightSound }, why: null });
    const yes = a.write("sides-confirmed", { confirms: fix.id });
    expect(fold([first, second, fix]).sites?.value).toEqual(thumbs);
    expect(fold([first, second, fix, yes]).sites?.value).toEqual(rightSound);
  });

  test("the sides held against are those that hold, not those first written", () => {
    const a = writer("a");
    const taken = a.write("reading-taken", solidReading("left", "thumb", 0));
    const moved = a.write("correction", {
      corrects: taken.id,
      body: solidReading("right", "thumb", 0),
      why: null,
    });
    const yes = a.write("sides-confirmed", { confirms: moved.id });
    const back = a.write("correction", { corrects: taken.id, body: taken.body, why: null });
    const view = fold([taken, moved, yes, back]);
    expect(view.readings[0]?.value.site.side).toBe("right");
    expect(view.corrections.map((one) => one.taken)).toEqual([true, false]);
  });

  test("a reading on another side than its role's is marked", () => {
    const a = writer("a");
    const view = fold([
      a.write("sites-chosen", { sites: leftSound }),
      a.write("reading-taken", solidReading("right", "index finger", 1)),
      a.write("reading-taken", solidReading("left", "index finger", 1)),
    ]);
    expect(view.readings.map((one) => one.marks)).toEqual([[], ["not-as-chosen"]]);
  });
});

describe("S8: corrections are new events", () => {
  test("the last one holds, in the place of what it corrects, and all are told", () => {
    const a = writer("a");
    const first = a.write("moment-set", { moment: "injury", when: minute(1) });
    const second = a.write("correction", {
      corrects: first.id,
      body: { moment: "injury", when: minute(2) },
      why: null,
    });
    const third = a.write("correction", {
      corrects: second.id,
      body: { moment: "injury", when: minute(3) },
      why: "asked again",
    });
    const view = fold([first, second, third]);
    expect(view.moments).toMatchObject([{ event: first.id, value: { when: minute(3) } }]);
    expect(view.corrections.map((one) => one.event)).toEqual([second.id, third.id]);
    expect(view.corrections[0]?.was).toEqual(first.body);
  });

  test("a withdrawn reading reopens its pair, and makes the answer that rests on it outdated", () => {
    const a = writer("a");
    const act = a.write("act-done", {
      act: "splint",
      other: null,
      limb: null,
      when: null,
      before: null,
      due: minute(5),
    });
    const after = a.write("reading-taken", solidReading("right", "thumb", 6, { closes: act.id }));
    const answer = a.write("comparison-answered", {
      sound: "elsewhere",
      suspect: after.id,
      verdict: "weaker",
      confidence: "low",
      sentence: "The right thumb's pulse wave is smaller.",
      reasons: [],
      piRatio: null,
      delay: null,
      marks: [],
      couldBeWrong: [],
      cannotSee: ["how much blood flows"],
    });
    expect(openPairs(fold([act, after, answer]))).toEqual([]);
    expect(fold([act, after, answer]).answers[0]?.outdated).toBe(false);
    const off = a.write("correction", { corrects: after.id, body: null, why: "wrong patient" });
    const view = fold([act, after, answer, off]);
    expect(openPairs(view)).toHaveLength(1);
    expect(view.answers[0]?.outdated).toBe(true);
  });

  test("a correction without its event waits as unread and holds once the event comes", () => {
    const a = writer("a");
    const note = a.write("note-written", { text: "cold hand" });
    const fix = a.write("correction", { corrects: note.id, body: { text: "cold foot" }, why: null });
    expect(fold([fix]).unread).toEqual([{ event: fix, why: "target-missing" }]);
    expect(fold([fix, note]).notes[0]?.value).toBe("cold foot");
  });

  test("corrections that go in a circle are unread and change nothing", () => {
    const a = writer("a");
    const one = a.write("correction", { corrects: "a-1", body: null, why: null });
    const two = a.write("correction", { corrects: "a-0", body: null, why: null });
    expect(fold([one, two]).unread.map((odd) => odd.why)).toEqual(["target-missing", "target-missing"]);
  });

  test("a body that does not fit is unread and changes nothing", () => {
    const a = writer("a");
    const aim = a.write("aim-chosen", { aim: "rise" });
    const fix = a.write("correction", { corrects: aim.id, body: { aim: "grow" }, why: null });
    const view = fold([aim, fix]);
    expect(view.aim?.value).toBe("rise");
    expect(view.unread).toEqual([{ event: fix, why: "broken-body" }]);
  });

  test("two events under one id are both told, one of them as unread", () => {
    const a = writer("a");
    const note = a.write("note-written", { text: "first" });
    const forged = { ...note, body: { text: "second" } };
    const view = fold([note, forged]);
    expect(view.notes).toHaveLength(1);
    expect(view.unread.map((odd) => odd.why)).toEqual(["same-id"]);
  });
});

describe("the pair", () => {
  const splint = { act: "splint", other: null, limb: null, when: null, before: null } as const;

  test("stays open until a reading that answers closes it, the one due first before the others", () => {
    const a = writer("a", 10);
    const late = a.write("act-done", { ...splint, due: minute(30) });
    const soon = a.write("act-done", { ...splint, act: "move", due: minute(15) });
    expect(openPairs(fold([late, soon])).map((pair) => pair.act)).toEqual([soon.id, late.id]);
    const off = a.write("reading-taken", gradedReading("left", "thumb", 14, "off", { closes: soon.id }));
    const view = fold([late, soon, off]);
    expect(openPairs(view)[0]).toMatchObject({ act: soon.id, after: null, tries: [off.id] });
    const none = a.write("reading-taken", gradedReading("left", "thumb", 15, "none", { closes: soon.id }));
    expect(openPairs(fold([late, soon, off, none])).map((pair) => pair.act)).toEqual([late.id]);
  });

  test("is closed by numbers typed from another screen", () => {
    const a = writer("a");
    const act = a.write("act-done", { ...splint, due: null });
    const typed = a.write("numbers-typed", {
      site: { side: "left", digit: "thumb" },
      spo2: 96,
      rate: 88,
      perfusionIndex: null,
      trace: "good",
      closes: act.id,
    });
    expect(fold([act, typed]).pairs).toMatchObject([{ after: typed.id, due: act.at }]);
  });

  test("is closed by a reading that another device's clock puts before the act", () => {
    const a = writer("a", 10);
    const b = writer("b", 2);
    const act = a.write("act-done", { ...splint, due: null });
    const after = b.write("reading-taken", solidReading("left", "thumb", 2, { closes: act.id }));
    expect(fold([act, after]).pairs).toMatchObject([{ after: after.id }]);
  });
});

describe("S6: a band or cuff marks every reading beyond it", () => {
  const band = (side: "left" | "right", on: boolean, when: number | null) => ({
    act: on ? ("band-on" as const) : ("band-off" as const),
    other: null,
    limb: { side, limb: "arm" as const },
    when: when === null ? null : minute(when),
    before: null,
    due: null,
  });

  test("on that limb, between on and off, told late as well", () => {
    const a = writer("a");
    const events = [5, 15, 25].map((from) => a.write("reading-taken", solidReading("left", "thumb", from)));
    const other = a.write("reading-taken", solidReading("right", "thumb", 15));
    const toe = a.write("reading-taken", solidReading("left", "great toe", 15));
    a.minute = 40;
    const on = a.write("act-done", band("left", true, 10));
    const off = a.write("act-done", band("left", false, 20));
    const view = fold([...events, other, toe, on, off]);
    expect(view.readings.map((one) => one.marks)).toEqual([[], ["band"], [], [], []]);
    expect(view.constrictions).toEqual([
      { what: "band", limb: { side: "left", limb: "arm" }, on: minute(10), off: minute(20) },
    ]);
  });

  test("declared with the reading or found later", () => {
    const a = writer("a");
    const declared = { cuff: true, pump: null, cold: null, block: null, covered: null, height: null };
    const one = a.write("reading-taken", solidReading("left", "thumb", 0, { declared }));
    a.minute = 3;
    const cuff = a.write("finding-typed", {
      where: { side: "left", limb: "arm", digit: null },
      finding: { item: "cuff", present: true },
    });
    const two = a.write("reading-taken", solidReading("left", "thumb", 4));
    expect(fold([one, cuff, two]).readings.map((reading) => reading.marks)).toEqual([["cuff"], ["cuff"]]);
  });

  test("a cuff told twice is one cuff, and off once is off", () => {
    const a = writer("a");
    const cuff = (present: boolean) =>
      a.write("finding-typed", {
        where: { side: "left", limb: "arm", digit: null },
        finding: { item: "cuff", present },
      });
    expect(fold([cuff(true), cuff(true), cuff(false)]).constrictions).toHaveLength(1);
  });

  test("a band's total is never reset: off and on again are two stretches", () => {
    const a = writer("a");
    const view = fold([
      a.write("act-done", band("left", true, 0)),
      a.write("act-done", band("left", false, 20)),
      a.write("act-done", band("left", true, 30)),
    ]);
    expect(view.constrictions.map(({ on, off }) => [on, off])).toEqual([
      [minute(0), minute(20)],
      [minute(30), null],
    ]);
  });
});

test("a clock set back loses nothing and reorders nothing", () => {
  const a = writer("a", 100);
  const b = writer("b", 50);
  const first = a.write("step-reached", { step: "sites" });
  a.minute = 10;
  const second = a.write("step-reached", { step: "sound-side" });
  const before = b.write("step-reached", { step: "elsewhere" });
  expect(fold([second, before, first]).step?.value).toBe("sound-side");
});

test("events a device wrote in one millisecond stand by their numbers, whatever their ids", () => {
  const a = writer("a");
  const later = { ...a.write("step-reached", { step: "answer" }), seq: 1, id: "a" };
  const first = { ...a.write("step-reached", { step: "sites" }), seq: 0, id: "z" };
  expect(fold([first, later]).step?.value).toBe("answer");
});

test("a check owed is settled by a reading that answers, not by one that does not", () => {
  const a = writer("a");
  const owed = a.write("recheck-set", { due: minute(15), why: "after the move" });
  const off = a.write("reading-taken", gradedReading("left", "thumb", 14, "unreadable"));
  expect(fold([owed, off]).recheck?.value.due).toBe(minute(15));
  const read = a.write("reading-taken", gradedReading("left", "thumb", 15, "shaky"));
  expect(fold([owed, off, read]).recheck).toBeNull();
});

test("the latest of each finding by place and name is at hand, and all are kept", () => {
  const a = writer("a");
  const where = { side: "left", limb: "arm", digit: null } as const;
  const pulse = (strength: "felt" | "weak" | "not felt") =>
    a.write("finding-typed", { where, finding: { item: "pulse", pulse: "radial", by: "finger", strength } });
  const refill = a.write("finding-typed", { where, finding: { item: "refill", seconds: 3.5 } });
  const view = fold([pulse("felt"), refill, pulse("not felt")]);
  expect(view.findings).toHaveLength(3);
  expect(latestFindings(view).map((one) => one.value.finding)).toEqual([
    { item: "refill", seconds: 3.5 },
    { item: "pulse", pulse: "radial", by: "finger", strength: "not felt" },
  ]);
});

test("readings are found by site and sources by what became of them", () => {
  const a = writer("a");
  const view = fold([
    a.write("source-attached", { source: "s1", what: "taps", site: null }),
    a.write("reading-taken", solidReading("left", "thumb", 0)),
    a.write("reading-taken", solidReading("right", "thumb", 0)),
    a.write("source-lost", { source: "s1", why: "cable out" }),
  ]);
  expect(readingsAt(view, { side: "right", digit: "thumb" }).map((one) => one.event)).toEqual(["a-2"]);
  expect(view.sources).toMatchObject([{ source: "s1", what: "taps", lost: true }]);
});
