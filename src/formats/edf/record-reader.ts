/** Fetches records in pieces of at most 256 KiB, whole ones where they fit. */
import { readFully } from "../read-fully.js";
import type { ByteSource } from "../recording.js";
import type { EdfLayout, Place } from "./layout.js";

/** Bytes held at once; as doubles four times as much, so the blocks of a piece stay within 1 MiB. */
export const pieceBytes = 1 << 18;

export interface RecordReader {
  /** Into how many slices each record is cut; 1 when whole records fit a piece. */
  readonly slices: number;
  /**
   * Fetches the records from `record` on that make up one piece.
   *
   * @returns how many whole ones there are; 0 when the source ended before its stated size.
   *   Sliced records are not fetched here, and 1 is returned.
   */
  fetch(record: number): Promise<number>;
  /** All cells of a place in a fetched record. Not for sliced records. */
  fetched(record: number, place: Place): Uint8Array;
  /** Some cells of any record; short only where the source ends before its stated size. */
  cells(record: number, place: Place, from: number, to: number): Promise<Uint8Array>;
}

export function createRecordReader(source: ByteSource, layout: EdfLayout): RecordReader {
  const { recordBytes, records, width } = layout;
  const together = Math.floor(pieceBytes / recordBytes);
  let first = 0;
  let count = 0;
  let piece: Uint8Array = new Uint8Array();

  return {
    slices: together > 0 ? 1 : Math.ceil(recordBytes / pieceBytes),
    async fetch(record) {
      if (together === 0) return 1;
      const wanted = Math.min(together, records - record);
      piece = await readFully(source, layout.from + record * recordBytes, wanted * recordBytes);
      first = record;
      count = Math.floor(piece.length / recordBytes);
      return count;
    },
    fetched(record, place) {
      const at = (record - first) * recordBytes + place.offset;
      return piece.subarray(at, at + place.samples * width);
    },
    async cells(record, place, from, to) {
      const start = place.offset + from * width;
      const length = (to - from) * width;
      if (record >= first && record < first + count) {
        const at = (record - first) * recordBytes + start;
        return piece.subarray(at, at + length);
      }
      return readFully(source, layout.from + record * recordBytes + start, length);
    },
  };
}
