/**
 * What the command line asks of the layers below, and nothing more. `plug.ts` is the one place
 * that ties it to them; tests hand in a stand-in.
 */
import type { ByteSource, Folder, ReadOptions, Recording } from "../formats/recording.js";
import type { Comparison, Declared, HeartSource, HeldToHeart, Reading, SideContext } from "../limb/index.js";
import type { Beat, Loss, Problem, Site, Window } from "../model/index.js";

/** A stretch on the clock of the record, seconds; `null` is its start or its end. */
export interface Span {
  readonly from: number | null;
  readonly to: number | null;
}

export const wholeSpan: Span = { from: null, to: null };

/** Called now and then with the share done, 0 to 1. */
export type Progress = (share: number) => void;

export interface ChannelReading {
  readonly beats: readonly Beat[];
  /** Join without holes and cover the span asked for. */
  readonly windows: readonly Window[];
  readonly losses: readonly Loss[];
  /** `null` without a reference. */
  readonly heart: Omit<HeldToHeart, "windows"> | null;
  readonly problems: readonly Problem[];
}

/** One side of a comparison. */
export interface SideSource {
  readonly recording: Recording;
  /** Position in the recording's list. */
  readonly channel: number;
  readonly span: Span;
  readonly site: Site | null;
  readonly declared: Declared;
  /** On the clock of this recording; `null` without. */
  readonly heart: HeartSource | null;
}

export interface SideComparison {
  readonly sound: Reading;
  readonly suspect: Reading;
  readonly comparison: Comparison;
  /** Of both recordings, for the stretches compared. */
  readonly soundWindows: readonly Window[];
  readonly suspectWindows: readonly Window[];
  readonly problems: readonly Problem[];
}

export interface Engine {
  /** Never throws on bytes: what cannot be read comes back without channels and with a fatal problem. */
  open(source: ByteSource, folder: Folder, options: ReadOptions): Promise<Recording>;
  /** @param heart on the clock of the recording; `null` reads without a reference */
  read(
    recording: Recording,
    channel: number,
    span: Span,
    progress: Progress,
    heart: HeartSource | null,
  ): Promise<ChannelReading>;
  compare(
    sound: SideSource,
    suspect: SideSource,
    context: SideContext,
    progress: Progress,
  ): Promise<SideComparison>;
}
