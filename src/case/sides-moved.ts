/** Whether one body in place of another moves a value or a role to the other side (S4). */
import type { Side } from "../model/index.js";
import type { KnownEvent } from "./event.js";
import type { ChosenSite } from "./places.js";

/** A limb held against its own first reading is in question as much as one held against a sound side. */
const roleKey = { sound: "sound", suspect: "in question", own: "in question", extra: null } as const;

/** What the body puts on which side; several places for several roles. */
function sidesOf(event: KnownEvent): ReadonlyMap<string, Side> {
  switch (event.kind) {
    case "sites-chosen":
      return sidesOfSites(event.body.sites);
    case "reading-taken":
    case "numbers-typed":
      return new Map([["site", event.body.site.side]]);
    case "source-attached":
      return new Map(event.body.site === null ? [] : [["site", event.body.site.side]]);
    case "finding-typed":
      return new Map([["site", event.body.where.side]]);
    case "act-done":
      return new Map(event.body.limb === null ? [] : [["site", event.body.limb.side]]);
    default:
      return new Map();
  }
}

function sidesOfSites(sites: readonly ChosenSite[]): ReadonlyMap<string, Side> {
  return new Map(
    sites.flatMap((site) => {
      const key = roleKey[site.role];
      return key === null ? [] : [[key, site.side] as const];
    }),
  );
}

function differ(before: ReadonlyMap<string, Side>, after: ReadonlyMap<string, Side>): boolean {
  return [...after].some(([key, side]) => before.has(key) && before.get(key) !== side);
}

export function bodyMovesSide(before: KnownEvent, after: KnownEvent): boolean {
  return differ(sidesOf(before), sidesOf(after));
}

export function sitesMoveSide(before: readonly ChosenSite[], after: readonly ChosenSite[]): boolean {
  return differ(sidesOfSites(before), sidesOfSites(after));
}
