/** What the medic says about a site and about the two sides. `null` is not stated, which is not no. */
import type { Mechanism } from "../rules/index.js";

/** Conditions at one site. */
export interface Declared {
  /** A cuff or tourniquet between heart and probe (S6). */
  readonly cuff: boolean | null;
  /** A patient on a pump, or without pulsatile flow: absence then means nothing (S5). */
  readonly pump: boolean | null;
  readonly cold: boolean | null;
  /** Nerve block, epidural or other loss of vessel tone on this limb. */
  readonly block: boolean | null;
  /** Varnish, dirt, blood or dressing between probe and skin. */
  readonly covered: boolean | null;
  /** Of the site, against the heart. */
  readonly height: "at heart" | "above" | "below" | null;
}

export const nothingDeclared: Declared = {
  cuff: null,
  pump: null,
  cold: null,
  block: null,
  covered: null,
  height: null,
};

/** What is known of the two sides together. */
export interface SideContext {
  /** Both readings come from one recording, so their times can be subtracted. */
  readonly oneClock: boolean;
  readonly mechanism: Mechanism | null;
  /** For sites that are not named; named sites decide themselves. */
  readonly sameDigit: boolean | null;
  /** For heights that are not given; given heights decide themselves. */
  readonly sameHeight: boolean | null;
  /** The same kind of probe on both sides. */
  readonly sameProbe: boolean | null;
  /** The side taken as sound is hurt as well. */
  readonly soundHurt: boolean | null;
  /** The suspect side's wave went away elsewhere in the recording than where it was read. */
  readonly waveGoneElsewhere?: boolean;
}

export const nothingKnown: SideContext = {
  oneClock: false,
  mechanism: null,
  sameDigit: null,
  sameHeight: null,
  sameProbe: null,
  soundHurt: null,
};
