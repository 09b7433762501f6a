/** Bodies of the events that say what was done, seen and felt. */
import { limb, place } from "./places.js";
import {
  anything,
  flag,
  id,
  moment,
  nullable,
  number,
  oneOf,
  record,
  ruled,
  tagged,
  text,
  whole,
} from "./shape.js";
import { acts, heights, moments, nerveNames, pulseNames } from "./vocabulary.js";

/** Opens a pair: the reading before, and the one still owed after. */
export const actDone = ruled(
  record({
    act: oneOf(acts),
    /** What it was, for `other`. */
    other: nullable(text(200)),
    limb: nullable(limb),
    /** When it was done, if told later; `null` is now. */
    when: nullable(moment),
    /** The event of the reading before; `null` if there was none. */
    before: nullable(id),
    /** When the reading after is due; `null` is at once. */
    due: nullable(moment),
  }),
  "words for another act, and the limb of a band",
  (done) =>
    (done.act === "other") === (done.other !== null) &&
    (done.limb !== null || (done.act !== "band-on" && done.act !== "band-off")),
);

const strength = oneOf(["felt", "weak", "not felt"]);

/** What the medic saw or felt, item by item, by name; there is no item for all at once. */
export const findingTyped = record({
  where: place,
  finding: tagged("item", {
    pulse: { pulse: oneOf(pulseNames), by: oneOf(["finger", "Doppler"]), strength },
    refill: { seconds: number(0, 60, "s") },
    temperature: { feels: oneOf(["hot", "warm", "cool", "cold"]) },
    colour: { looks: oneOf(["pink", "pale", "dusky", "mottled", "red"]) },
    sensation: { nerve: nullable(oneOf(nerveNames)), feels: oneOf(["full", "tingling", "reduced", "none"]) },
    movement: { nerve: nullable(oneOf(nerveNames)), moves: oneOf(["full", "weak", "none"]) },
    pain: { atRest: nullable(whole(0, 10, "")), onStretch: nullable(whole(0, 10, "")) },
    height: { height: oneOf(heights) },
    block: { present: flag },
    cold: { present: flag },
    varnish: { present: flag },
    cuff: { present: flag },
  }),
});

export const noteWritten = record({ text: text(2000) });

/** `when` is `null` if it is not known, or known no longer. */
export const momentSet = record({ moment: oneOf(moments), when: nullable(moment) });

export const recheckSet = record({ due: moment, why: nullable(text(200)) });

/**
 * Corrects an earlier event, which stays as it is (S8): `body` takes its place, and must have the shape of the
 * earlier event's body; `null` withdraws the event. A body that moves a side waits for `sides-confirmed` (S4).
 */
export const correction = record({ corrects: id, body: anything, why: nullable(text(200)) });

export const caseClosed = record({ why: nullable(text(200)) });
