import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createProblemLog } from "../problem-log.js";
import type { ReadOptions } from "../recording.js";
import { emptyFolder, memorySource } from "../testing/memory-source.js";
import { describeReader } from "../testing/reader-contract.js";
import { walk } from "../testing/walk.js";
import { readJson } from "./json-file.js";
import { countPoints, createPointCursor } from "./points.js";
import { fhirReader } from "./reader.js";

const golden = (path: string) => new Uint8Array(readFileSync(new URL(`golden/${path}`, import.meta.url)));
const encode = (text: string) => new TextEncoder().encode(text);

async function read(json: unknown, options?: ReadOptions) {
  const text = typeof json === "string" ? json : JSON.stringify(json);
  const recording = await fhirReader.open(memorySource("a.json", encode(text)), emptyFolder, options);
  const { values } = await walk(recording);
  const codes = recording.problems.map(({ code }) => code);
  return { recording, codes, values: values.map((all) => [...all]) };
}

const mdc = "urn:iso:std:iso:11073:10101";
const pleth = { coding: [{ system: mdc, code: "150452" }] };

function sampled(change: object = {}): Record<string, unknown> {
  return { origin: { value: 0 }, period: 8, dimensions: 1, data: "1 2 3", ...change };
}

function observation(change: object = {}, data: object = {}): Record<string, unknown> {
  return {
    resourceType: "Observation",
    status: "final",
    code: pleth,
    valueSampledData: sampled(data),
    ...change,
  };
}

function bundle(...resources: unknown[]) {
  return { resourceType: "Bundle", type: "collection", entry: resources.map((resource) => ({ resource })) };
}

// Oracle: golden/expect.py, decimal arithmetic from the FHIR text.
test.each(["hl7-example", "parts"])("%s has the expected values", async (name) => {
  const expected = JSON.parse(new TextDecoder().decode(golden(`${name}/expected.json`))) as {
    channels: (number | null)[][];
  };
  const { values } = await read(new TextDecoder().decode(golden(`${name}/input.json`)));
  expect(values.map(({ length }) => length)).toEqual(expected.channels.map(({ length }) => length));
  for (const [c, channel] of expected.channels.entries()) {
    for (const [n, value] of channel.entries()) {
      if (value === null) expect(values[c]?.[n]).toBeNaN();
      else expect(values[c]?.[n]).toBeCloseTo(value, 9);
    }
  }
});

test("the HL7 example: ECG leads by their code, 100 samples/s, start with its zone", async () => {
  const { recording, codes } = await read(new TextDecoder().decode(golden("hl7-example/input.json")));
  expect(recording.startedAt).toBe("2015-02-19T09:30:35+01:00");
  expect(recording.channels.map(({ name, kind, rate }) => [name, kind, rate])).toEqual([
    ["MDC_ECG_ELEC_POTL_I", "ecg", 100],
    ["MDC_ECG_ELEC_POTL_II", "ecg", 100],
    ["MDC_ECG_ELEC_POTL_III", "ecg", 100],
  ]);
  expect(codes).toEqual([]);
});

test("parts of a series in a Bundle: one channel per dimension, site in its name, pause and marks told", async () => {
  const { recording, codes } = await read(new TextDecoder().decode(golden("parts/input.json")));
  const names = recording.channels.map(({ name, kind, unit }) => `${name}; ${kind}; ${unit}`);
  expect(names).toEqual([
    "MDC_PULS_OXIM_PLETH (left index finger) 1; display-pleth; mV",
    "MDC_PULS_OXIM_PLETH (left index finger) 2; display-pleth; mV",
  ]);
  expect(codes.toSorted()).toEqual(["above-limit", "below-limit", "error-mark", "gap"]);
  expect(recording.startedAt).toBe("2026-05-04T08:00:00.000Z");
});

describe("value = data * factor + origin", () => {
  // IHE/Continua PHD worked example: origin -3.4, factor 3.
  test("origin -3.4, factor 3", async () => {
    const { values } = await read(
      observation({}, { origin: { value: -3.4 }, factor: 3, data: "123 110 97 99 112 118" }),
    );
    for (const [n, value] of [365.6, 326.6, 287.6, 293.6, 332.6, 350.6].entries()) {
      expect(values[0]?.[n]).toBeCloseTo(value, 10);
    }
  });

  test("origin -3300, factor 1.612", async () => {
    const { values } = await read(observation({}, { origin: { value: -3300 }, factor: 1.612, data: "2041" }));
    expect(values[0]?.[0]).toBeCloseTo(-9.908, 9);
  });

  // FHIR R5 SampledData: E error, L and U beyond the limits of detection.
  test("E, U and L are missing samples, each kind told with its count", async () => {
    const { values, recording } = await read(observation({}, { upperLimit: 4095, data: "10 E 12 U L" }));
    expect(values[0]).toEqual([10, Number.NaN, 12, Number.NaN, Number.NaN]);
    expect(recording.problems).toMatchObject([
      { code: "error-mark", weight: "note" },
      { code: "above-limit", expected: "values up to the upper limit 4095" },
      { code: "below-limit" },
    ]);
  });

  test("points are read as `Number` reads them, whatever their form", () => {
    const decimal = fc.tuple(
      fc.constantFrom("", "-", "+"),
      fc.stringMatching(/^\d{1,18}$/),
      fc.oneof(fc.constant(""), fc.stringMatching(/^\.\d{0,12}$/)),
      fc.constantFrom("", "e2", "E-3"),
    );
    fc.assert(
      fc.property(
        fc.array(
          decimal.map((parts) => parts.join("")),
          { minLength: 1 },
        ),
        (points) => {
          const data = points.join(" ");
          const cursor = createPointCursor(data);
          for (const point of points) expect(cursor.next()).toBe(Number(point));
          expect(countPoints(data)).toMatchObject({ points: points.length, bad: 0 });
        },
      ),
    );
  });

  test.each(["12x", "--1", ".", "1e999", "NaN", "e", "Infinity", "0x10"])("%s is no point", async (point) => {
    const { values, recording } = await read(observation({}, { data: `1 ${point} 3` }));
    expect(values[0]).toEqual([1, Number.NaN, 3]);
    expect(recording.problems).toMatchObject([{ code: "bad-sample", weight: "lost-part" }]);
  });
});

describe("rate", () => {
  test.each([
    { title: "R4 period in ms", data: {}, rate: 125 },
    { title: "R5 interval in ms", data: { period: undefined, interval: 4, intervalUnit: "ms" }, rate: 250 },
    { title: "R5 interval in s", data: { period: undefined, interval: 2, intervalUnit: "s" }, rate: 0.5 },
  ])("$title", async ({ data, rate }) => {
    const { recording, codes } = await read(observation({}, data));
    expect(recording.channels[0]?.rate).toBeCloseTo(rate, 12);
    expect(codes).toEqual([]);
  });

  test("stated by the user", async () => {
    const { recording } = await read(observation({}, { period: undefined }), { rate: 50 });
    expect(recording.channels[0]?.rate).toBe(50);
  });
});

describe("kind and name", () => {
  const coded = (system: string, code: string) => ({ code: { coding: [{ system, code }] } });
  test.each([
    { ...coded(mdc, "150452"), kind: "display-pleth", name: "MDC_PULS_OXIM_PLETH" },
    { ...coded("http://loinc.org", "59408-5"), kind: "spo2", name: "SpO2 by pulse oximetry" },
    { ...coded("http://loinc.org", "8889-8"), kind: "pulse-rate", name: "Heart rate by pulse oximetry" },
    {
      ...coded("http://loinc.org", "61006-3"),
      kind: "perfusion-index",
      name: "Perfusion index by pulse oximetry",
    },
    { ...coded("http://example.org", "150452"), kind: "other", name: "150452" },
    { code: { text: "IR_ADC" }, kind: "raw-light", name: "IR_ADC" },
    {
      code: { text: "Finger", coding: [{ system: mdc, code: "150452" }] },
      kind: "display-pleth",
      name: "Finger",
    },
    { code: undefined, kind: "other", name: "unnamed" },
  ])("$name is $kind", async ({ code, kind, name }) => {
    const { recording } = await read(observation({ code }));
    expect(recording.channels[0]).toMatchObject({ kind, name });
  });

  test("the user's word beats the code", async () => {
    const { recording } = await read(observation(), { kinds: { MDC_PULS_OXIM_PLETH: "infrared" } });
    expect(recording.channels[0]).toMatchObject({ kind: "raw-light", colour: "infrared" });
  });

  test("without an origin the level is unknown, so it is no raw light (S3)", async () => {
    const { recording, codes } = await read(
      observation({ code: { text: "IR_ADC" } }, { origin: { unit: "mV" } }),
    );
    expect(recording.channels[0]).toMatchObject({ kind: "display-pleth", colour: null });
    expect(codes).toEqual(["origin"]);
  });

  test("left and right are two channels, never joined (S4)", async () => {
    const at = (site: string, second: string) =>
      observation({ bodySite: { text: site }, effectiveDateTime: `2026-05-04T08:00:${second}Z` });
    const { recording } = await read(bundle(at("left thumb", "00"), at("right thumb", "00.024")));
    expect(recording.channels.map(({ name, start }) => [name, start])).toEqual([
      ["MDC_PULS_OXIM_PLETH (left thumb)", 0],
      ["MDC_PULS_OXIM_PLETH (right thumb)", 0.024],
    ]);
  });
});

describe("parts of a series", () => {
  const part = (when: string | undefined, data: string) =>
    observation({ effectiveDateTime: when }, { period: 100, data });

  test("join when they follow on, a zone apart", async () => {
    const { values, codes } = await read(
      bundle(part("2026-05-04T08:00:00Z", "1 2 3"), part("2026-05-04T10:00:00.3+02:00", "4 5")),
    );
    expect(values).toEqual([[1, 2, 3, 4, 5]]);
    expect(codes).toEqual([]);
  });

  test("a part that begins too early loses the samples whose time is taken", async () => {
    const { values, codes } = await read(
      bundle(part("2026-05-04T08:00:00Z", "1 2 3 4"), part("2026-05-04T08:00:00.2Z", "5 6 7 8")),
    );
    expect(values).toEqual([[1, 2, 3, 4, 7, 8]]);
    expect(codes).toEqual(["overlap"]);
  });

  test("a part told twice adds nothing", async () => {
    const twice = part("2026-05-04T08:00:00Z", "1 2 3 4");
    const { values, codes } = await read(bundle(twice, twice, twice, part("2026-05-04T08:00:00.4Z", "5 6")));
    expect(values).toEqual([[1, 2, 3, 4, 5, 6]]);
    expect(codes).toEqual(["overlap", "overlap"]);
  });

  test("parts without a time are channels of their own", async () => {
    const { values, codes } = await read(bundle(part(undefined, "1 2"), part(undefined, "3 4")));
    expect(values).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(codes).toEqual(["effective"]);
  });

  test("more than a week of silence begins a new channel", async () => {
    const { values } = await read(
      bundle(part("2026-05-04T08:00:00Z", "1"), part("2026-06-04T08:00:00Z", "2")),
    );
    expect(values).toEqual([[1], [2]]);
  });
});

test("remarks of the observation are annotations", async () => {
  const first = observation({ effectiveDateTime: "2026-05-04T08:00:00Z" });
  const later = observation({ effectiveDateTime: "2026-05-04T08:00:01Z", note: [{ text: "splint on" }] });
  const { recording } = await read(bundle(later, first));
  expect(recording.annotations).toEqual([{ time: 1, duration: null, kind: "note", text: "splint on" }]);
});

describe("what can't be used is told", () => {
  const empty = { resourceType: "Observation", status: "final", code: pleth };
  test.each<{ title: string; json: unknown; codes: string[] }>([
    { title: "no JSON", json: '{"resourceType": "Obs', codes: ["not-json"] },
    { title: "an empty file", json: "", codes: ["not-json"] },
    { title: "null", json: "null", codes: ["not-observation"] },
    { title: "a list", json: "[]", codes: ["not-observation"] },
    { title: "another resource", json: { resourceType: "Patient" }, codes: ["not-observation"] },
    { title: "no samples", json: { ...empty, valueQuantity: { value: 97 } }, codes: ["no-sampled-data"] },
    {
      title: "no period",
      json: observation({}, { period: undefined }),
      codes: ["period", "no-sampled-data"],
    },
    { title: "period 0", json: observation({}, { period: 0 }), codes: ["period", "no-sampled-data"] },
    { title: "period as text", json: observation({}, { period: "8" }), codes: ["period", "no-sampled-data"] },
    {
      title: "interval of length",
      json: observation({}, { period: undefined, interval: 1, intervalUnit: "um" }),
      codes: ["period", "no-sampled-data"],
    },
    { title: "factor 0", json: observation({}, { factor: 0 }), codes: ["factor", "no-sampled-data"] },
    { title: "factor null", json: observation({}, { factor: null }), codes: ["factor", "no-sampled-data"] },
    {
      title: "dimensions 0",
      json: observation({}, { dimensions: 0 }),
      codes: ["dimensions", "no-sampled-data"],
    },
    { title: "no dimensions", json: observation({}, { dimensions: undefined }), codes: ["dimensions"] },
    { title: "uneven dimensions", json: observation({}, { dimensions: 2 }), codes: ["points-uneven"] },
    { title: "no data", json: observation({}, { data: undefined }), codes: ["no-data", "no-sampled-data"] },
    { title: "blank data", json: observation({}, { data: "  " }), codes: ["no-data", "no-sampled-data"] },
    {
      title: "uneven times",
      json: observation({}, { offsets: "0 1 3" }),
      codes: ["uneven-times", "no-sampled-data"],
    },
    {
      title: "codes as samples",
      json: observation({}, { codeMap: "x" }),
      codes: ["code-map", "no-sampled-data"],
    },
    {
      title: "entered in error",
      json: observation({ status: "entered-in-error" }),
      codes: ["withdrawn", "no-sampled-data"],
    },
    { title: "no status", json: observation({ status: undefined }), codes: ["status"] },
    {
      title: "31 February",
      json: observation({ effectiveDateTime: "2026-02-31T08:00:00Z" }),
      codes: ["effective"],
    },
    {
      title: "other resources beside",
      json: bundle(observation(), { resourceType: "Device" }),
      codes: ["other-resources"],
    },
    { title: "an empty bundle", json: bundle(), codes: ["no-sampled-data"] },
  ])("$title", async ({ json, codes }) => {
    const got = await read(json);
    expect(got.codes).toEqual(codes);
  });

  test("a file beyond the largest is not read at all", async () => {
    const log = createProblemLog();
    const source = memorySource("a.json", encode(JSON.stringify(observation())));
    expect(await readJson(source, log, 20)).toBeUndefined();
    expect(log.problems).toMatchObject([{ code: "file-too-large", weight: "fatal" }]);
    expect(source.count.reads).toBe(0);
  });
});

describe("recognition", () => {
  test.each([
    ["a.json", "anything", true],
    ["a.txt", '\ufeff {"id": "x", "resourceType": "Observation"}', true],
    ["a.txt", '{"id": "x"}', false],
    ["a.csv", "time,ppg", false],
  ])("%s that begins %s: %s", (name, head, answer) => {
    expect(fhirReader.recognises(name, encode(head))).toBe(answer);
  });
});

const large = () => {
  const data = Array.from({ length: 1_200_000 }, (_, n) => 2048 + (n % 97)).join(" ");
  return {
    name: "large",
    file: "a.json",
    files: { "a.json": encode(JSON.stringify(observation({}, { data }))) },
  };
};

describeReader(
  "fhir",
  fhirReader,
  ["hl7-example", "parts"].map((name) => ({
    name,
    file: `${name}.json`,
    files: { [`${name}.json`]: golden(`${name}/input.json`) },
  })),
  { readsWhole: "JSON has no fixed places; its text is fetched in pieces but parsed at once", large },
);
