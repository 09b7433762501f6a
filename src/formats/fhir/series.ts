/** Finds the sampled series in an Observation or a Bundle of them, and what each one is. */
import { type Channel, excerpt } from "../../model/index.js";
import { inferKind } from "../channel-kind.js";
import type { ProblemLog } from "../problem-log.js";
import type { ReadOptions } from "../recording.js";
import { knownCode } from "./codes.js";
import { type Effective, effectiveText, readEffective } from "./effective.js";
import { isObject, type Json, objectAt, objectsAt, shownAt, textAt } from "./json.js";
import { readSampledData, type SampledData } from "./sampled-data.js";

export interface Series {
  /** What is measured and, where stated, on which part of the body (S4). */
  readonly name: string;
  readonly kind: Pick<Channel, "kind" | "colour" | "polarity" | "because">;
  readonly sampled: SampledData;
  readonly effective: Effective | null;
  /** Equal for series that may be parts of one channel: same code, site, subject, device and place in the observation. */
  readonly key: string;
  readonly where: string;
}

export interface Remark {
  readonly text: string;
  readonly effective: Effective | null;
}

export interface Found {
  readonly series: readonly Series[];
  readonly remarks: readonly Remark[];
}

/** Observations with these states hold no results to be used. */
const withdrawn = ["entered-in-error", "cancelled"];

/** Walks the resource; anything that isn't a series is passed over or told. */
export function findSeries(
  json: unknown,
  file: string,
  options: ReadOptions | undefined,
  log: ProblemLog,
): Found {
  const series: Series[] = [];
  const remarks: Remark[] = [];
  const root = isObject(json) ? json : null;
  const type = textAt(root, "resourceType");
  if (root !== null && type === "Observation") {
    readObservation(root, `${file}, Observation`, options, log, series, remarks);
  } else if (root !== null && type === "Bundle") {
    let others = 0;
    for (const [n, entry] of objectsAt(root, "entry").entries()) {
      const resource = objectAt(entry, "resource");
      if (textAt(resource, "resourceType") !== "Observation" || resource === null) others += 1;
      else readObservation(resource, `${file}, Bundle.entry[${n}]`, options, log, series, remarks);
    }
    if (others > 0)
      log.add("other-resources", "note", file, "Observation", `${others} other entries, not read`);
  } else {
    const found = root === null ? "no JSON object" : `resourceType ${shownAt(root, "resourceType")}`;
    log.add("not-observation", "fatal", file, "a FHIR Observation or Bundle", found);
    return { series, remarks };
  }
  if (series.length === 0) {
    log.add("no-sampled-data", "fatal", file, "an Observation with SampledData", "none that can be read");
  }
  return { series, remarks };
}

function readObservation(
  observation: Json,
  where: string,
  options: ReadOptions | undefined,
  log: ProblemLog,
  series: Series[],
  remarks: Remark[],
): void {
  const status = textAt(observation, "status");
  if (status === null) log.add("status", "note", where, "`status`", shownAt(observation, "status"));
  if (status !== null && withdrawn.includes(status)) {
    log.add("withdrawn", "lost-part", where, "an observation that stands", `status "${status}"; not read`);
    return;
  }
  const text = effectiveText(observation);
  const effective = text === null ? null : readEffective(text);
  if (text !== null && effective === null) {
    log.add("effective", "note", where, "a FHIR dateTime", `"${excerpt(text)}"`);
  }
  for (const note of objectsAt(observation, "note")) {
    const remark = textAt(note, "text");
    if (remark !== null) remarks.push({ text: remark, effective });
  }
  const parts = [
    { json: observation, where },
    ...objectsAt(observation, "component").map((json, n) => ({ json, where: `${where}.component[${n}]` })),
  ];
  for (const [place, part] of parts.entries()) {
    const found = objectAt(part.json, "valueSampledData");
    if (found === null) continue;
    const sampled = readSampledData(found, options?.rate, part.where, log);
    if (sampled === null || sampled.samples === 0) continue;
    const code = objectAt(part.json, "code");
    const name = nameOf(code, observation);
    const key = [name, place, reference(observation, "subject"), reference(observation, "device")];
    series.push({
      name,
      kind: kindOf(name, code, sampled, options),
      sampled,
      effective,
      key: JSON.stringify([...key, sampled.unit, sampled.rate, sampled.dimensions]),
      where: part.where,
    });
  }
}

function nameOf(code: Json | null, observation: Json): string {
  const what = conceptText(code) ?? "unnamed";
  const site = conceptText(objectAt(observation, "bodySite"));
  return site === null ? what : `${what} (${site})`;
}

/** Text of a CodeableConcept: its own, a coding's, the name known for its code, or the bare code. */
function conceptText(concept: Json | null): string | null {
  const codings = objectsAt(concept, "coding");
  const displays = codings.map((coding) => textAt(coding, "display"));
  return (
    textAt(concept, "text") ??
    displays.find((display) => display !== null) ??
    knownCode(codings)?.name ??
    codings.map((coding) => textAt(coding, "code")).find((one) => one !== null) ??
    null
  );
}

/** The user's word first, then the code, then the name. Without an origin there is no level, so no raw light. */
function kindOf(
  name: string,
  code: Json | null,
  sampled: SampledData,
  options: ReadOptions | undefined,
): Series["kind"] {
  const byName = inferKind({ name, unit: sampled.unit }, options);
  const row = knownCode(objectsAt(code, "coding"));
  if (row !== null && byName.because !== "stated by the user") {
    const because = `code ${row.code} (${row.name})`;
    return { kind: row.kind, colour: null, polarity: "systole-up", because };
  }
  if (byName.kind === "raw-light" && !sampled.levelled) {
    return {
      ...byName,
      kind: "display-pleth",
      colour: null,
      because: `${byName.because}, but its level is unknown`,
    };
  }
  return byName;
}

function reference(observation: Json, key: string): string {
  const json = objectAt(observation, key);
  return textAt(json, "reference") ?? textAt(json, "display") ?? "";
}
