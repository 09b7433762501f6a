/**
 * EDF, EDF+ (continuous, discontinuous, notes only) and their 24-bit siblings BDF, BDF+.
 *
 * Samples lie on one even grid per channel from the first record on. In EDF+D each record goes to the
 * time it carries: pauses become missing samples, samples whose time is already taken are dropped.
 * Channels keep their own rates. `options.rate` is the rate of the fastest channel; the others keep
 * their ratio to it.
 *
 * Problem codes: header `not-edf`, `header-cut`, `header-length`, `header-not-ascii`, `signal-count`,
 * `samples-per-record`, `record-empty`, `record-duration`, `record-count`, `no-scale`,
 * `digital-range-reversed`, `start-date`, `start-time`; records `records-missing`, `records-beyond-count`,
 * `record-cut`, `unexpected-end`, `outside-digital-range`; times `record-time`, `no-record-times`, `gap`,
 * `gap-too-long`, `records-overlap`; notes `annotation-damaged`, `annotations-too-long`, `annotations-too-many`.
 *
 * @see EDF: Kemp et al. 1992; EDF+: Kemp and Olivan 2003 and www.edfplus.info/specs
 */

import { chosenChannels, noBlocks } from "../chosen-channels.js";
import { createProblemLog } from "../problem-log.js";
import type { Reader, Recording } from "../recording.js";
import { readHeader, sampleWidth } from "./header.js";
import { layOut } from "./layout.js";
import { openNotes } from "./notes.js";
import { type EdfBody, recordBlocks } from "./record-blocks.js";
import { createRecordReader } from "./record-reader.js";
import { startOf } from "./start-date.js";

export const edfReader: Reader = {
  format: "edf",

  recognises(name, head) {
    return sampleWidth(head) !== null || /\.(edf|bdf)\+?$/i.test(name);
  },

  async open(source, _folder, options) {
    const log = createProblemLog();
    const header = await readHeader(source, log);
    const layout = header === null ? null : layOut(header, source, options, log);
    if (header === null || layout === null) return nothing(log.problems);
    const notes = await openNotes(layout, createRecordReader(source, layout), source.name, log);
    if (layout.notes.length > 0 && layout.records > 0 && notes.origin === null) {
      const where = `${source.name}, record 1`;
      log.add("record-time", "note", where, "a record time", "none that can be read; 0 s taken");
    }
    if (header.plus === "discontinuous" && layout.notes.length === 0) {
      const found = "no annotation signal; records taken as following on";
      log.add("no-record-times", "lost-part", source.name, "record times, as EDF+D needs", found);
    }
    const { startDate, startTime, recording } = header;
    const where = `${source.name}, header`;
    const placed = header.plus === "discontinuous" && layout.notes.length > 0 && layout.duration > 0;
    const body: EdfBody = { source, layout, placed, notes, log, told: 0, outside: new Set() };
    return {
      format: "edf",
      channels: layout.channels,
      startedAt: startOf(startDate, startTime, recording, notes.origin ?? 0, where, log),
      annotations: notes.annotations,
      problems: log.problems,
      blocks: (which) => recordBlocks(body, chosenChannels(layout.channels.length, which)),
    };
  },
};

function nothing(problems: Recording["problems"]): Recording {
  return {
    format: "edf",
    channels: [],
    startedAt: null,
    annotations: [],
    problems,
    blocks: noBlocks,
  };
}
