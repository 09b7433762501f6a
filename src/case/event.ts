/** One entry of the case record: appended once, never changed, never deleted (S8). */
import type { BodyOf, EventKind } from "./event-kinds.js";
import type { WallTime } from "./wall-clock.js";

/**
 * An event as it is kept and handed on. What this version does not understand is kept all the same, unknown
 * fields included, so that a later seal over the whole event still fits.
 */
export interface CaseEvent {
  /** Unique among all events of all devices. */
  readonly id: string;
  /** The case's id; its spoken name is in `case-opened`. */
  readonly case: string;
  /** When it was written, by the device's own clock, as told. */
  readonly at: WallTime;
  /** Counts a device's events of this case from 0, rising; decides their order whatever the clock does. */
  readonly seq: number;
  /** Who writes: one id for each installation, and for each of its tabs if more than one may write. */
  readonly device: string;
  readonly kind: string;
  /** Version of the kind's body, from 1. */
  readonly v: number;
  /** Plain data, see `notPlain`. */
  readonly body: unknown;
}

/** An event whose kind and version are known and whose body has the shape. */
export interface EventOf<K extends EventKind> extends CaseEvent {
  readonly kind: K;
  readonly body: BodyOf<K>;
}

export type KnownEvent = { [K in EventKind]: EventOf<K> }[EventKind];
