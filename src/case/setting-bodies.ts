/** Bodies of the events that say what is being checked, where and with what. */
import { chosenSites, site } from "./places.js";
import { code, flag, id, nullable, oneOf, record, ruled, text } from "./shape.js";
import { aims, mechanismCodes, sourceKinds } from "./vocabulary.js";

/** An invented name such as LARK-27 (see `caseName`); there is no field for a person's (S10). */
export const caseOpened = record({
  name: ruled(text(24), "an invented name such as LARK-27", (name) => /^[A-Z]+-[0-9]{2}$/.test(name)),
});

/** The screen the medic stands at, so that a case reopens there. */
export const stepReached = record({ step: code });

/** Why the limb is looked at, in the medic's words, and how it was hurt; `null` is not stated. */
export const concernSet = record({
  concern: nullable(text(400)),
  mechanism: nullable(oneOf(mechanismCodes)),
});

export const aimChosen = record({ aim: oneOf(aims) });

/** A scene's preset, by its code. */
export const sceneChosen = record({ scene: code });

/** All sites of the check. One that moves a role to the other side waits for `sides-confirmed` (S4). */
export const sitesChosen = record({ sites: chosenSites });

/** The medic has confirmed that the event named swaps or moves a side (S4). */
export const sidesConfirmed = record({ confirms: id });

export const sourceAttached = record({ source: id, what: oneOf(sourceKinds), site: nullable(site) });

export const sourceLost = record({ source: id, why: nullable(text(200)) });

export const sourceRegained = record({ source: id });

/** On a pump or without pulsatile flow: an absent wave then means nothing (S5). */
export const pumpMarked = record({ pump: nullable(flag) });
