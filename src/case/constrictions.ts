/** Bands and cuffs round limbs, and the mark they put on every reading beyond them (S6). */
import type { EventOf } from "./event.js";
import { type Limb, limbOfDigit } from "./places.js";
import { sitesMoveSide } from "./sides-moved.js";
import type { CaseView, Constriction, ReadingMark, TakenReading } from "./view.js";
import type { WallTime } from "./wall-clock.js";

const sameLimb = (a: Limb, b: Limb) => a.side === b.side && a.limb === b.limb;

/** Off ends the last one still on at that limb; without one it is kept as an end whose start nobody told. */
export function constrict(
  all: readonly Constriction[],
  what: Constriction["what"],
  limb: Limb,
  on: boolean,
  when: WallTime,
): readonly Constriction[] {
  const here = { what, limb: { side: limb.side, limb: limb.limb } };
  const open = all.findLastIndex((one) => one.what === what && one.off === null && sameLimb(one.limb, limb));
  // A cuff told twice is one cuff; a second band is a second band.
  if (on && what === "cuff" && open >= 0) return all;
  if (on) return [...all, { ...here, on: when, off: null }];
  if (open < 0) return [...all, { ...here, on: null, off: when }];
  return all.map((one, i) => (i === open ? { ...one, off: when } : one));
}

function marksOf(view: CaseView, { value }: Pick<TakenReading, "value">): readonly ReadingMark[] {
  const limb = { side: value.site.side, limb: limbOfDigit(value.site.digit) };
  const during = (what: Constriction["what"]) =>
    view.constrictions.some(
      (one) =>
        one.what === what &&
        sameLimb(one.limb, limb) &&
        (one.on === null || one.on <= value.to) &&
        (one.off === null || one.off >= value.from),
    );
  const chosen = view.sites?.value ?? [];
  return [
    ...(during("band") ? (["band"] as const) : []),
    ...(value.declared.cuff === true || during("cuff") ? (["cuff"] as const) : []),
    ...(sitesMoveSide(chosen, [{ role: value.role, ...value.site }]) ? (["not-as-chosen"] as const) : []),
  ];
}

/** A reading is marked by the sites chosen when it was taken, and anew whenever a band or cuff is told. */
export function takenReading(view: CaseView, event: EventOf<"reading-taken">): TakenReading {
  const { id, at, device, body } = event;
  return { value: body, at, device, event: id, marks: marksOf(view, { value: body }) };
}

export function markAnew(view: CaseView): CaseView {
  const readings = view.readings.map((reading) => {
    const kept = reading.marks.filter((mark) => mark === "not-as-chosen");
    const found = marksOf(view, reading).filter((mark) => mark !== "not-as-chosen");
    return { ...reading, marks: [...found, ...kept] };
  });
  return { ...view, readings };
}
