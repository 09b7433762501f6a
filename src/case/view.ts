/** What is known of a case now. Everything carries the id of the event it comes from. */

import type { CaseEvent } from "./event.js";
import type { BodyOf } from "./event-kinds.js";
import type { ChosenSite, Limb } from "./places.js";
import type { NotUnderstood } from "./validate-event.js";
import type { Act, Aim, MechanismCode, Moment, SourceKind } from "./vocabulary.js";
import type { WallTime } from "./wall-clock.js";

/** A value, and who told it when. */
export interface Told<T> {
  readonly value: T;
  readonly at: WallTime;
  readonly device: string;
  readonly event: string;
}

/**
 * What is said beside every value of a reading.
 * - `band`, `cuff`: one was on the limb during it, told then or later (S6)
 * - `not-as-chosen`: its side is not the side chosen for its role (S4)
 */
export type ReadingMark = "band" | "cuff" | "not-as-chosen";

export interface TakenReading extends Told<BodyOf<"reading-taken">> {
  readonly marks: readonly ReadingMark[];
}

export interface Answer extends Told<BodyOf<"comparison-answered">> {
  /** A reading it rests on has been corrected or withdrawn since. */
  readonly outdated: boolean;
}

/** A band or cuff round a limb; times told, `null` for not known or still on. */
export interface Constriction {
  readonly what: "band" | "cuff";
  readonly limb: Limb;
  readonly on: WallTime | null;
  readonly off: WallTime | null;
}

/** The reading before an act and the one after; open until `after` is there. */
export interface Pair {
  /** Id of the act's event. */
  readonly act: string;
  readonly what: Act;
  readonly other: string | null;
  readonly limb: Limb | null;
  /** When the act was done. */
  readonly when: WallTime;
  /** Events of the readings. */
  readonly before: string | null;
  readonly after: string | null;
  /** When the reading after is due. */
  readonly due: WallTime;
  /** Readings meant to close it that gave no answer: probe off, or unreadable. */
  readonly tries: readonly string[];
}

export interface SourceNow {
  readonly source: string;
  readonly what: SourceKind | null;
  readonly site: BodyOf<"source-attached">["site"];
  readonly lost: boolean;
  /** Since when it is so. */
  readonly since: WallTime;
}

export interface CorrectionMade {
  readonly event: string;
  readonly at: WallTime;
  readonly device: string;
  readonly target: string;
  readonly was: unknown;
  /** `null` withdraws. */
  readonly now: unknown;
  readonly why: string | null;
  /** `false` while it would move a side and that is not confirmed (S4). */
  readonly taken: boolean;
}

/** Kept, not understood, and said so. */
export interface Unread {
  readonly event: CaseEvent;
  readonly why: NotUnderstood | "other-case" | "target-missing" | "same-id";
}

export interface CaseView {
  readonly case: string | null;
  readonly name: Told<string> | null;
  readonly closed: Told<BodyOf<"case-closed">> | null;
  /** The screen to reopen at. */
  readonly step: Told<string> | null;
  readonly concern: Told<string | null> | null;
  readonly mechanism: Told<MechanismCode | null> | null;
  readonly aim: Told<Aim> | null;
  readonly scene: Told<string> | null;
  readonly pump: Told<boolean | null> | null;
  readonly sites: Told<readonly ChosenSite[]> | null;
  /** Sites that would move a role to the other side, until that is confirmed (S4). */
  readonly sitesToConfirm: Told<readonly ChosenSite[]> | null;
  readonly sources: readonly SourceNow[];
  readonly readings: readonly TakenReading[];
  readonly answers: readonly Answer[];
  readonly numbers: readonly Told<BodyOf<"numbers-typed">>[];
  readonly findings: readonly Told<BodyOf<"finding-typed">>[];
  readonly notes: readonly Told<string>[];
  readonly pairs: readonly Pair[];
  readonly constrictions: readonly Constriction[];
  /** Latest of each moment. */
  readonly moments: readonly Told<{ readonly moment: Moment; readonly when: WallTime | null }>[];
  /** The check still owed; a reading or typed numbers after it settle it. */
  readonly recheck: Told<BodyOf<"recheck-set">> | null;
  readonly corrections: readonly CorrectionMade[];
  readonly unread: readonly Unread[];
}

export const emptyView: CaseView = {
  case: null,
  name: null,
  closed: null,
  step: null,
  concern: null,
  mechanism: null,
  aim: null,
  scene: null,
  pump: null,
  sites: null,
  sitesToConfirm: null,
  sources: [],
  readings: [],
  answers: [],
  numbers: [],
  findings: [],
  notes: [],
  pairs: [],
  constrictions: [],
  moments: [],
  recheck: null,
  corrections: [],
  unread: [],
};
