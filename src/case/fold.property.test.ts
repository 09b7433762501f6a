/** What holds for any events, however they come; S8: none is lost or changed in silence. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { CaseEvent } from "./event.js";
import { createCaseFold, fold } from "./fold.js";
import { anyEvents, earnestEvents, shuffled } from "./testing/arbitrary-events.js";
import { understand } from "./validate-event.js";

const settings = { numRuns: 400 };
const both = fc.oneof(anyEvents, earnestEvents);
const withOrder = both.chain((events) => shuffled(events).map((order) => ({ events, order })));

describe("any events of a case", () => {
  test("give the same view in any order and doubled", () => {
    fc.assert(
      fc.property(withOrder, ({ events, order }) => {
        expect(fold(order)).toEqual(fold(events));
      }),
      settings,
    );
  });

  test("give the same view one by one, in any order, as all at once", () => {
    fc.assert(
      fc.property(withOrder, ({ events, order }) => {
        const slow = createCaseFold();
        for (const event of order) slow.add([event]);
        expect(slow.view).toEqual(fold(events));
      }),
      settings,
    );
  });

  test("give at every step the view of the events so far", () => {
    fc.assert(
      fc.property(earnestEvents, (events) => {
        const slow = createCaseFold();
        events.forEach((event, i) => {
          expect(slow.add([event])).toEqual(fold(events.slice(0, i + 1)));
        });
        expect(slow.view).toEqual(fold(events));
      }),
      settings,
    );
  });

  test("are themselves left as they are (S8)", () => {
    fc.assert(
      fc.property(both, (events) => {
        const before = JSON.stringify(events);
        fold(events);
        expect(JSON.stringify(events)).toBe(before);
      }),
      settings,
    );
  });
});

describe("no event is lost (S8)", () => {
  test("what is not understood is in the view as unread, whole", () => {
    fc.assert(
      fc.property(earnestEvents, (events) => {
        const odd = events.filter((event) => typeof understand(event) === "string");
        const unread = fold(events).unread.map((one) => one.event);
        expect(unread).toEqual(expect.arrayContaining(odd));
      }),
      settings,
    );
  });

  test("every reading is there, unless a correction that is in the view withdrew it", () => {
    fc.assert(
      fc.property(earnestEvents, (events) => {
        const view = fold(events);
        const there = new Set(view.readings.map((one) => one.event));
        const withdrawn = new Set(
          view.corrections.filter((one) => one.now === null).map((one) => one.target),
        );
        const missing = events.filter(
          (event) => event.kind === "reading-taken" && !there.has(event.id) && !withdrawn.has(event.id),
        );
        expect(missing).toEqual([]);
      }),
      settings,
    );
  });

  test("every correction is in the view, as one made or as unread", () => {
    fc.assert(
      fc.property(earnestEvents, (events) => {
        const view = fold(events);
        const told = [...view.corrections.map((one) => one.event), ...view.unread.map((one) => one.event.id)];
        const made = events.filter((event) => event.kind === "correction").map((event) => event.id);
        expect(told).toEqual(expect.arrayContaining(made));
      }),
      settings,
    );
  });
});

describe("a clock that stutters or jumps, forward or back", () => {
  const numberOf = (events: readonly CaseEvent[]) => new Map(events.map((event) => [event.id, event.seq]));

  test("never reorders what its own device wrote", () => {
    fc.assert(
      fc.property(earnestEvents, (events) => {
        const seq = numberOf(events);
        const view = fold(events);
        for (const device of ["a", "b"]) {
          for (const list of [view.readings, view.notes, view.findings, view.numbers]) {
            const numbers = list.filter((one) => one.device === device).map((one) => seq.get(one.event)!);
            expect(numbers).toEqual([...numbers].sort((x, y) => x - y));
          }
        }
      }),
      settings,
    );
  });
});
