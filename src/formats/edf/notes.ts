/** The annotation signals of a record: its time stamp, and the notes of the whole recording in order. */
import { type Annotation, excerpt, seconds } from "../../model/index.js";
import type { ProblemLog } from "../problem-log.js";
import type { EdfLayout, Place } from "./layout.js";
import { pieceBytes, type RecordReader } from "./record-reader.js";
import { readTals, type TalRead } from "./tal.js";

/** Notes kept; a file with more is damaged or hostile. */
const most = 200_000;

export interface Notes {
  /** In time order; complete once every record was taken. Times count from the first record's stamp. */
  readonly annotations: readonly Annotation[];
  /** Of the first record: seconds after the header's start time; `null` when unreadable or there are no notes. */
  readonly origin: number | null;
  /** Seconds after the first record's stamp; `null` when the record has no readable stamp. */
  stamp(reader: RecordReader, record: number): Promise<number | null>;
  /** Reads the notes of one record; records already read are passed over. */
  take(reader: RecordReader, record: number): Promise<void>;
}

/** Reads the first record's stamp; the notes follow with `take`. */
export async function openNotes(
  layout: EdfLayout,
  reader: RecordReader,
  file: string,
  log: ProblemLog,
): Promise<Notes> {
  const annotations: Annotation[] = [];
  let taken = 0;
  /** A record is asked for its stamp, then for its notes: its lists are read once. */
  let latest: { readonly record: number; readonly read: TalRead } | null = null;

  const first = async (from: RecordReader, record: number): Promise<TalRead> => {
    const place = layout.notes[0];
    if (place === undefined || record >= layout.records) return nothing;
    if (latest?.record !== record) {
      latest = { record, read: readTals(await bytesOf(layout, from, record, place)) };
    }
    return latest.read;
  };

  const insert = (note: Annotation) => {
    let at = annotations.length;
    while (at > 0 && (annotations[at - 1] as Annotation).time > note.time) at -= 1;
    annotations.splice(at, 0, note);
  };

  const keep = ({ tals, damaged }: TalRead, record: number, place: Place) => {
    const where = () => `${file}, record ${record + 1}, annotations`;
    const bytes = place.samples * layout.width;
    if (damaged !== null) {
      log.add("annotation-damaged", "lost-part", where(), "onset, duration and text", shown(damaged));
    }
    if (bytes > pieceBytes) {
      log.add("annotations-too-long", "lost-part", where(), `at most ${pieceBytes} bytes`, `${bytes} bytes`);
    }
    for (const { onset, duration, texts } of tals) {
      for (const text of texts) {
        if (annotations.length >= most) {
          log.add("annotations-too-many", "lost-part", where(), `at most ${most} notes`, "more, not kept");
          return;
        }
        const time = seconds(onset - (origin ?? 0));
        insert({ time, duration: duration === null ? null : seconds(duration), kind: "note", text });
      }
    }
  };

  const origin = (await first(reader, 0)).onset;
  return {
    annotations,
    origin,
    async stamp(from, record) {
      const { onset } = await first(from, record);
      return onset === null ? null : onset - (origin ?? 0);
    },
    async take(from, record) {
      if (record < taken) return;
      taken = record + 1;
      for (const [number, place] of layout.notes.entries()) {
        const read =
          number === 0 ? await first(from, record) : readTals(await bytesOf(layout, from, record, place));
        keep(read, record, place);
      }
    },
  };
}

const nothing: TalRead = { onset: null, tals: [], damaged: null };

function bytesOf(layout: EdfLayout, reader: RecordReader, record: number, place: Place): Promise<Uint8Array> {
  return reader.cells(record, place, 0, Math.min(place.samples, Math.floor(pieceBytes / layout.width)));
}

function shown(text: string): string {
  const line = excerpt(text, 40);
  return line === "" ? "bytes without text" : `"${line}"`;
}
