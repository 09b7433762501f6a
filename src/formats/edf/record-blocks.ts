/** Walks the records once and cuts them into blocks of the chosen channels. */
import { type Block, sampleIndex } from "../../model/index.js";
import type { ProblemLog } from "../problem-log.js";
import type { ByteSource } from "../recording.js";
import { tellJoint, tooLong } from "./joint-problems.js";
import type { EdfLayout } from "./layout.js";
import type { Notes } from "./notes.js";
import { createRecordReader } from "./record-reader.js";
import { decodeSamples, unscaled } from "./scaling.js";
import { silence } from "./silence.js";
import { createTimeline, type Joint } from "./timeline.js";

export interface EdfBody {
  readonly source: ByteSource;
  readonly layout: EdfLayout;
  /** EDF+D: the records' own times place them. Otherwise they join, and times are only checked. */
  readonly placed: boolean;
  readonly notes: Notes;
  readonly log: ProblemLog;
  /** Records whose joints were told by an earlier walk. */
  told: number;
  /** Channels of which values outside the digital range were told already. */
  readonly outside: Set<number>;
}

/** Blocks of the chosen channels in time order. Ends early where the source does. */
export async function* recordBlocks(body: EdfBody, chosen: readonly number[]): AsyncGenerator<Block> {
  const { source, layout, placed, notes, log } = body;
  const reader = createRecordReader(source, layout);
  const fastest = layout.channels.reduce((most, { rate }) => Math.max(most, rate), 1e-6);
  const timeline = createTimeline(layout.duration, fastest);
  const timed = layout.notes.length > 0 && layout.duration > 0;
  /** Next sample of each channel, and samples still to be dropped because their time is taken. */
  const next = layout.channels.map(() => 0);
  const skip = layout.channels.map(() => 0);

  if (chosen.length === 0 && layout.notes.length === 0) return;
  for (let record = 0; record < layout.records; ) {
    const count = await reader.fetch(record);
    const end = record + count;
    let run = record;
    if (layout.notes.length === 0) record = end;
    for (; record < end; record++) {
      const joint = record > 0 && timed ? await jointOf(record) : joined;
      const fresh = record >= body.told;
      if (fresh) tellJoint(joint, record, placed, source.name, log);
      body.told = Math.max(body.told, record + 1);
      await notes.take(reader, record);
      if (!placed || joint.kind === "joined" || joint.kind === "bad-stamp") continue;
      if (!(yield* samples(run, record))) return;
      run = record;
      if (joint.kind === "overlap") {
        for (const c of chosen) skip[c] = Math.max(0, (next[c] ?? 0) - Math.round(joint.at * rateOf(c)));
      } else if (tooLong(joint)) {
        return;
      } else {
        yield* silence(layout.channels, chosen, next, joint.at);
      }
    }
    const whole = yield* samples(run, end);
    if (!whole || count === 0) {
      if (end >= body.told || layout.notes.length === 0) tellEnd(end);
      return;
    }
  }

  async function jointOf(record: number): Promise<Joint> {
    const stamp = await notes.stamp(reader, record);
    return timeline.place(stamp, timeline.joins(stamp) ? null : await notes.stamp(reader, record + 1));
  }

  function rateOf(channel: number): number {
    return layout.channels[channel]?.rate ?? 1;
  }

  function tellEnd(record: number): void {
    if (body.told === Number.POSITIVE_INFINITY) return;
    body.told = Number.POSITIVE_INFINITY;
    const found = `the end within record ${record + 1}`;
    log.add("unexpected-end", "lost-part", source.name, `${layout.records} records, as its size says`, found);
  }

  /**
   * The samples of joined records, one block per channel, or per slice of a record too large for a piece.
   * Returns false where the source ended early.
   */
  async function* samples(from: number, to: number): AsyncGenerator<Block, boolean> {
    for (let slice = 0; from < to && slice < reader.slices; slice++) {
      for (const c of chosen) {
        const values = reader.slices === 1 ? decodeFetched(c, from, to) : await decodeSlice(c, from, slice);
        if (values === null) return false;
        const dropped = Math.min(skip[c] ?? 0, values.length);
        skip[c] = (skip[c] ?? 0) - dropped;
        if (values.length === dropped) continue;
        const first = next[c] ?? 0;
        next[c] = first + values.length - dropped;
        yield { channel: c, first: sampleIndex(first), values: values.subarray(dropped) };
      }
    }
    return true;
  }

  function decodeFetched(channel: number, from: number, to: number): Float64Array {
    const place = layout.places[channel] ?? nowhere;
    const values = new Float64Array((to - from) * place.samples);
    for (let record = from; record < to; record++) {
      decode(reader.fetched(record, place), channel, record, values, (record - from) * place.samples);
    }
    return values;
  }

  async function decodeSlice(channel: number, record: number, slice: number): Promise<Float64Array | null> {
    const place = layout.places[channel] ?? nowhere;
    const from = Math.floor((place.samples * slice) / reader.slices);
    const to = Math.floor((place.samples * (slice + 1)) / reader.slices);
    const bytes = await reader.cells(record, place, from, to);
    if (bytes.length < (to - from) * layout.width) return null;
    const values = new Float64Array(to - from);
    decode(bytes, channel, record, values, 0);
    return values;
  }

  function decode(bytes: Uint8Array, channel: number, record: number, out: Float64Array, at: number): void {
    const scaling = layout.scalings[channel] ?? unscaled;
    const outside = decodeSamples(bytes, layout.width, scaling, out, at);
    if (outside === 0 || body.outside.has(channel)) return;
    body.outside.add(channel);
    const where = `${source.name}, record ${record + 1}, signal "${layout.channels[channel]?.name ?? ""}"`;
    const range = `stored values from ${scaling.lowest} to ${scaling.highest}`;
    log.add(
      "outside-digital-range",
      "note",
      where,
      range,
      `${outside} outside in this record; scaled all the same`,
    );
  }
}

const joined: Joint = { kind: "joined" };
const nowhere = { offset: 0, samples: 0 };
