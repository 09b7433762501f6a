/**
 * FHIR Observations with SampledData, one or a Bundle of them, as JSON. R4, and R5's `interval`.
 *
 * value = point * factor + origin; the marks E, U and L are missing samples. Observations of one code,
 * site, subject and device that follow each other become one channel. JSON is read whole; the points
 * stay in their string and are turned into numbers block by block.
 *
 * Problem codes: file `file-too-large`, `not-json`, `not-observation`, `no-sampled-data`, `other-resources`;
 * observation `status`, `withdrawn`, `effective`; samples `period`, `factor`, `dimensions`, `code-map`,
 * `uneven-times`, `origin`, `no-data`, `bad-sample`, `error-mark`, `above-limit`, `below-limit`,
 * `points-uneven`; parts of a series `gap`, `overlap`.
 *
 * @see FHIR R4 "Observation" and "SampledData", FHIR R5 "SampledData"
 */
import { type Channel, hertz, seconds } from "../../model/index.js";
import { chosenChannels } from "../chosen-channels.js";
import { createProblemLog } from "../problem-log.js";
import type { Reader } from "../recording.js";
import type { Effective } from "./effective.js";
import { readJson } from "./json-file.js";
import { findSeries } from "./series.js";
import { trackBlocks } from "./track-blocks.js";
import { layTracks, type Segment } from "./tracks.js";

export const fhirReader: Reader = {
  format: "fhir",

  recognises(name, head) {
    if (/\.json$/i.test(name)) return true;
    let first = head[0] === 0xef ? 3 : 0;
    while (first < head.length && (head[first] as number) <= 32) first += 1;
    return head[first] === 0x7b && latin1(head).includes('"resourceType"');
  },

  async open(source, _folder, options) {
    const log = createProblemLog();
    const json = await readJson(source, log);
    const found =
      json === undefined ? { series: [], remarks: [] } : findSeries(json, source.name, options, log);
    const tracks = layTracks(found.series, log);
    const begin = earliest(found.series.flatMap(({ effective }) => effective ?? []));
    const after = (instant: number | null | undefined) =>
      instant == null || begin?.instant == null ? 0 : (instant - begin.instant) / 1000;
    const starts = tracks.map(({ instant }) => after(instant));
    const channels = tracks.map((track, n): Channel => {
      const { kind, sampled } = (track.segments[0] as Segment).series;
      const { name, samples } = track;
      const rate = hertz(sampled.rate);
      return { name, ...kind, unit: sampled.unit, rate, start: seconds(starts[n] ?? 0), samples };
    });
    return {
      format: "fhir",
      channels,
      startedAt: begin?.text ?? null,
      annotations: found.remarks
        .map(({ text, effective }) => ({
          time: seconds(after(effective?.instant)),
          duration: null,
          kind: "note" as const,
          text,
        }))
        .toSorted((a, b) => a.time - b.time),
      problems: log.problems,
      blocks: (which) => trackBlocks(tracks, starts, chosenChannels(channels.length, which)),
    };
  },
};

/** The first by instant; a bare date only when there is nothing else. */
function earliest(all: readonly Effective[]): Effective | null {
  let first: Effective | null = null;
  for (const one of all) {
    if (first === null || (one.instant !== null && (first.instant === null || one.instant < first.instant))) {
      first = one;
    }
  }
  return first;
}

function latin1(bytes: Uint8Array): string {
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return text;
}
