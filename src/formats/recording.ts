/**
 * The one shape every reader returns, and the two things a reader may ask of the outside.
 * Readers do no input or output themselves: files, drops and memory all come as `ByteSource`.
 */
import type { Annotation, Block, Channel, Problem } from "../model/index.js";

/** Bytes that can be read at any place, more than once. */
export interface ByteSource {
  /** File name without folder, e.g. `a103l.hea`. */
  readonly name: string;
  readonly size: number;
  /** Up to `length` bytes from `offset`; fewer only at the end. A rejected promise is a broken disk. */
  read(offset: number, length: number): Promise<Uint8Array>;
}

/** Companion files beside the one opened; `null` if there is none of that name. */
export interface Folder {
  open(name: string): Promise<ByteSource | null>;
}

/** What the user may state because the source doesn't. */
export interface ReadOptions {
  /** Samples per second, for tables without a time column. Overrides the file's own. */
  readonly rate?: number;
  /** Channel names that hold raw light of this colour, or a display trace, whatever their name says. */
  readonly kinds?: Readonly<Record<string, "infrared" | "red" | "display">>;
}

export interface Recording {
  /** `wfdb`, `matlab`, `edf`, `csv`, `fhir`. */
  readonly format: string;
  readonly channels: readonly Channel[];
  /** Wall-clock start as written in the source, ISO 8601 without zone unless stated; `null` if unknown. */
  readonly startedAt: string | null;
  /** Complete only once `blocks` has run to its end. In time order. */
  readonly annotations: readonly Annotation[];
  /** Grows while `blocks` runs. */
  readonly problems: readonly Problem[];
  /**
   * Walks the samples of the chosen channels (default all), each channel's blocks in order and
   * the channels side by side in time, at most about 1 MiB held at once. May be called again.
   *
   * @throws {RecordingError} `no-such-channel`, at once
   */
  blocks(which?: readonly number[]): AsyncIterable<Block>;
}

/** A reader either knows the input or hands back why not; it never throws on bytes. */
export interface Reader {
  readonly format: string;
  /** Quick look at name and first bytes: could this be mine? */
  recognises(name: string, head: Uint8Array): boolean;
  open(source: ByteSource, folder: Folder, options?: ReadOptions): Promise<Recording>;
}
