import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type CaptureGrade, captureGrades } from "../model/index.js";
import { forbiddenIn } from "../rules/testing/forbidden-words.js";
import { chooseRows, type GradeSpan, mostRows, rowSeconds } from "./choose-rows.js";
import { clockText } from "./clock-text.js";
import { textWidth, wrapText } from "./lettering.js";
import { decidesLine } from "./page.js";
import { stripPicture } from "./strip-picture.js";
import { type Parsed, parseXml } from "./testing/parse-xml.js";
import { createThinner, raiseFromLevel, type Trace } from "./trace.js";
import { type WaterlineSide, waterlinePicture } from "./waterline-picture.js";

/** Eight seconds of pulses at 75 /min, `size` tall, on a level of 1000. */
function pulses(size: number, from = 0, seconds = 8): Trace {
  const thinner = createThinner(from, from + seconds, 640);
  for (let i = 0; i < seconds * 100; i++) {
    const phase = (i / 80) % 1;
    thinner.next(from + i / 100, 1000 + size * Math.exp(-(((phase - 0.3) / 0.1) ** 2)));
  }
  return thinner.trace();
}

const feet = Array.from({ length: 10 }, (_, k) => 0.05 + 0.8 * k);

function side(change: Partial<WaterlineSide> & { readonly size?: number } = {}): WaterlineSide {
  const { size = 20, ...rest } = change;
  return {
    name: "Right middle finger",
    head: "right, sound",
    capture: "solid",
    trace: pulses(size),
    feet,
    lightLevel: 1000,
    ...rest,
  };
}

function waterline(suspect: WaterlineSide, sound = side(), together = true): string {
  return waterlinePicture({
    sentence: "The pulse wave at the left middle finger is weaker.",
    context: "lark.csv, from 0:00",
    sound,
    suspect,
    together,
    rows: [
      { label: "SpO₂ shown", sound: { text: "96 %" }, suspect: { text: "97 %, 12 s old", struck: true } },
      {
        label: "capture",
        sound: { text: "solid", grade: "solid" },
        suspect: { text: suspect.capture, grade: suspect.capture },
      },
    ],
    cannotSee: ["how much blood flows"],
    couldBeWrong: ["the digit was cold"],
  });
}

function strip(change: Partial<Parameters<typeof stripPicture>[0]> = {}): string {
  return stripPicture({
    sentence: "Pulse wave detected in 8 of 8 s.",
    context: "lark.csv#IR",
    site: "Left great toe",
    role: "suspect",
    rows: [{ trace: pulses(20), beats: feet.map((time) => time + 0.2) }],
    grades: [{ from: 0, to: 8, capture: "solid" }],
    losses: [],
    notes: [],
    cannotSee: ["how much blood flows"],
    ...change,
  });
}

const walk = (node: Parsed): Parsed[] => [node, ...node.children.flatMap(walk)];
const textsOf = (svg: string) =>
  walk(parseXml(svg)).flatMap((node) => (node.name === "text" ? [node.text] : []));

/** Every number a drawing gives, in any attribute. */
const numbersOf = (svg: string) =>
  walk(parseXml(svg)).flatMap((node) =>
    Object.entries(node.attributes)
      .filter(([name]) => /^(x|y|x1|x2|y1|y2|cx|cy|r|width|height|d)$/.test(name))
      .flatMap(([, value]) => value.split(/[A-Za-z\s,]+/).filter((part) => part !== "")),
  );

function holds(svg: string): void {
  const nodes = walk(parseXml(svg));
  for (const number of numbersOf(svg)) expect(Number(number), number).not.toBeNaN();
  expect(svg).not.toMatch(/NaN|Infinity|undefined|null/);
  for (const node of nodes) {
    if (node.name !== "text") continue;
    expect(Number(node.attributes["font-size"])).toBeGreaterThanOrEqual(14);
  }
  expect(forbiddenIn(textsOf(svg).join(" "))).toEqual([]);
  expect(textsOf(svg).join(" ")).toContain(decidesLine);
}

const pathsWith = (svg: string, part: string) =>
  walk(parseXml(svg)).filter((node) => node.name === "path" && Object.values(node.attributes).includes(part));

/** Lowest and highest y of a path. */
function reach(path: Parsed): readonly [number, number] {
  const ys = [...(path.attributes["d"] ?? "").matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map((match) =>
    Number(match[2]),
  );
  return [Math.min(...ys), Math.max(...ys)];
}

describe("every picture", () => {
  test.each(captureGrades)(
    "with a suspect side that is %s is well-formed, finite, legible, and says who decides",
    (capture) => {
      const quiet = capture === "solid" || capture === "shaky" ? {} : { feet: [], size: 0 };
      holds(waterline(side({ capture, ...quiet })));
      holds(waterline(side({ capture, ...quiet, lightLevel: null }), side(), false));
      holds(strip({ grades: [{ from: 0, to: 8, capture }] }));
    },
  );

  test("holds for traces without a sample, and with holes", () => {
    const empty = createThinner(0, 8, 640).trace();
    const holed = createThinner(0, 8, 640);
    for (let i = 0; i < 800; i++) holed.next(i / 100, i % 50 === 0 ? Number.NaN : Math.sin(i));
    for (const trace of [empty, holed.trace()]) {
      holds(waterline(side({ trace, feet: [] })));
      holds(strip({ rows: [{ trace, beats: [] }] }));
    }
    holds(strip({ rows: [], grades: [] }));
  });

  test("no name can break out of it", () => {
    const nasty = `<script>"&'\u0000\u0007\ud800]]> ${"x".repeat(300)}`;
    const names = fc.oneof(fc.constant(nasty), fc.string({ unit: "binary", maxLength: 60 }));
    fc.assert(
      fc.property(names, (name) => {
        const svg = strip({ sentence: name, context: name, site: name, notes: [name], cannotSee: [name] });
        expect(walk(parseXml(svg)).some((node) => node.name === "script")).toBe(false);
        const other = waterline(side({ name, head: name }), side({ name }));
        expect(walk(parseXml(other)).some((node) => node.name === "script")).toBe(false);
      }),
      { numRuns: 15 },
    );
  });

  test("same data, same bytes", () => {
    expect(waterline(side())).toBe(waterline(side()));
    expect(strip()).toBe(strip());
  });

  test("S1: no green ink, and no meaning by colour alone", () => {
    for (const svg of [waterline(side()), strip()]) {
      for (const [, r, g, b] of svg.matchAll(/#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})/g)) {
        const [red, green, blue] = [r, g, b].map((hex) => Number.parseInt(hex as string, 16)) as [
          number,
          number,
          number,
        ];
        expect(green > red + 8 && green > blue + 8, `#${r}${g}${b}`).toBe(false);
      }
    }
    const texts = textsOf(waterline(side({ capture: "shaky" })));
    expect(texts.filter((text) => text === "solid").length).toBeGreaterThan(0);
    expect(texts.filter((text) => text === "shaky").length).toBeGreaterThan(1);
    // The suspect side is told by its hatch and by lying below, not only by its ink.
    expect(pathsWith(waterline(side()), "url(#suspect-hatch)")).toHaveLength(1);
  });

  test("text stays inside the page", () => {
    const long =
      "Cannot tell: pulses at the left middle finger may hide in the noise of a moving vehicle, and nobody said what stands between";
    for (const svg of [strip({ sentence: long }), waterline(side({ name: long, head: long }))]) {
      for (const node of walk(parseXml(svg)).filter((one) => one.name === "text")) {
        const size = Number(node.attributes["font-size"]);
        const width = textWidth(node.text, size, node.attributes["font-weight"] === "700");
        const x = Number(node.attributes["x"]);
        const anchor = node.attributes["text-anchor"];
        const left = anchor === "end" ? x - width : anchor === "middle" ? x - width / 2 : x;
        expect(left, node.text).toBeGreaterThanOrEqual(0);
        expect(left + width, node.text).toBeLessThanOrEqual(360);
      }
    }
  });
});

describe("the waterline", () => {
  test("the sound side stands above the level line, the suspect side hangs below", () => {
    const svg = waterline(side({ size: 10 }));
    const [soundTop, soundBase] = reach(pathsWith(svg, "#3b4a8c")[0]!);
    const [suspectTop, suspectBase] = reach(pathsWith(svg, "url(#suspect-hatch)")[0]!);
    expect(soundBase).toBe(suspectTop);
    // Half as tall on one scale: the heights are to each other as the pulses are.
    expect((suspectBase - suspectTop) / (soundBase - soundTop)).toBeCloseTo(0.5, 1);
  });

  test("S3: without known gain each half has its own scale, the level line is dotted, and it says so", () => {
    const svg = waterline(side({ size: 10, lightLevel: null }));
    const heights = [pathsWith(svg, "#3b4a8c")[0]!, pathsWith(svg, "url(#suspect-hatch)")[0]!].map(reach);
    const [sound, suspect] = heights.map(([top, base]) => base - top) as [number, number];
    expect(suspect / sound).toBeCloseTo(1, 1);
    expect(textsOf(svg)).toContain("shape only");
    expect(svg).toContain('stroke-dasharray="2 5"');
    expect(textsOf(svg).join(" ")).not.toMatch(/\d %$/);
    const known = waterline(side({ size: 10 }));
    expect(textsOf(known)).not.toContain("shape only");
    expect(known).not.toContain('stroke-dasharray="2 5"');
  });

  test("S3, S5: noise under a probe without a wave is not magnified into one", () => {
    const svg = waterline(side({ capture: "none", size: 1, feet: [], lightLevel: null }));
    const [top, base] = reach(pathsWith(svg, "url(#suspect-hatch)")[0]!);
    expect(base - top).toBeLessThan(20);
  });

  test("S5: off and unreadable say so on their half; off draws no trace", () => {
    const off = waterline(side({ capture: "off", feet: [] }));
    expect(textsOf(off)).toContain("no working probe");
    expect(pathsWith(off, "url(#suspect-hatch)")).toHaveLength(0);
    expect(textsOf(waterline(side({ capture: "unreadable", feet: [] })))).toContain(
      "movement or noise hides whatever is there",
    );
  });

  test("S2: a number not believable is struck through and says so", () => {
    const struck = walk(parseXml(waterline(side()))).filter(
      (node) => node.attributes["text-decoration"] === "line-through",
    );
    expect(struck.map((node) => node.text)).toEqual(["97 %, 12 s old"]);
    expect(textsOf(waterline(side()))).toContain("not believable");
  });

  test("S4: names stand on both halves; without one it says that nobody stated it", () => {
    const svg = waterline(side({ name: "Left middle finger" }));
    expect(textsOf(svg)).toContain("Right middle finger, sound");
    expect(textsOf(svg)).toContain("Left middle finger, suspect");
    const unstated = textsOf(
      waterline(side({ name: "", head: "suspect" }), side({ name: "", head: "sound" })),
    );
    expect(unstated).toContain("site not stated, sound");
    expect(unstated.join(" ")).not.toMatch(/\bright\b/i);
  });

  test("beats of the sound side cross into the lower half only when both ran on one clock", () => {
    const hairlines = (svg: string) =>
      walk(parseXml(svg)).filter((node) => node.name === "line" && node.attributes["y1"] === "30");
    expect(hairlines(waterline(side()))).toHaveLength(10);
    for (const hair of hairlines(waterline(side())))
      expect(Number(hair.attributes["y2"])).toBeGreaterThan(136);
    const apart = waterline(side(), side(), false);
    for (const hair of hairlines(apart)) expect(Number(hair.attributes["y2"])).toBe(136);
    expect(textsOf(apart).join(" ")).toContain("Not recorded together");
  });
});

describe("the strip", () => {
  const day: GradeSpan[] = Array.from({ length: 288 }, (_, i) => [
    { from: i * 300, to: i * 300 + 290, capture: "solid" as CaptureGrade },
    { from: i * 300 + 290, to: i * 300 + 300, capture: "shaky" as CaptureGrade },
  ]).flat();

  test("draws all of a short recording and at most a page of a long one", () => {
    expect(chooseRows([{ from: 0, to: 47, capture: "solid" }], [])).toEqual([0, 10, 20, 30, 40]);
    const rows = chooseRows(day, [{ from: 50_000 }]);
    expect(rows).toHaveLength(mostRows);
    expect(rows).toContain(0);
    expect(rows.at(-1)).toBe(86_370);
    expect(rows.some((start) => start <= 50_000 && 50_000 < start + rowSeconds(86_400))).toBe(true);
    expect(rows).toEqual(rows.toSorted((a, b) => a - b));
  });

  test("says what it did not draw", () => {
    const rows = [0, 3000].map((from) => ({ trace: pulses(20, from, 30), beats: [] }));
    const texts = textsOf(strip({ rows, grades: day }));
    expect(texts).toContain("0:30 to 50:00 not drawn");
    expect(texts.join(" ")).toContain("drawn where underlined");
  });

  test("marks where a pulse was lost and came back", () => {
    expect(textsOf(strip({ losses: [{ from: 2, back: 5 }] }))).toEqual(
      expect.arrayContaining(["wave lost", "back"]),
    );
    expect(textsOf(strip({ losses: [{ from: 2, back: null }] }))).not.toContain("back");
  });

  test.each([
    [0, "0:00"],
    [59.99, "0:59"],
    [65, "1:05"],
    [3600, "1:00:00"],
    [86_399, "23:59:59"],
  ])("%d s reads %s", (time, text) => {
    expect(clockText(time)).toBe(text);
  });
});

describe("thinning", () => {
  test("keeps lowest and highest of every bin, in their order", () => {
    const signal = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), {
      minLength: 1,
      maxLength: 300,
    });
    fc.assert(
      fc.property(signal, (values) => {
        const thinner = createThinner(0, 1, 7);
        values.forEach((value, i) => {
          thinner.next(i / values.length, value);
        });
        const { times, values: kept } = thinner.trace();
        expect(Math.max(...kept)).toBe(Math.max(...values));
        expect(Math.min(...kept)).toBe(Math.min(...values));
        expect(kept.length).toBeLessThanOrEqual(14);
        for (let i = 1; i < times.length; i++) expect(times[i]).toBeGreaterThan(times[i - 1] as number);
      }),
    );
  });

  test("heights above the level do not feel a slope under the pulses", () => {
    const thinner = createThinner(0, 8, 800);
    for (let i = 0; i < 800; i++) {
      const phase = (i / 80) % 1;
      thinner.next(i / 100, 5 * i + 20 * Math.exp(-(((phase - 0.5) / 0.08) ** 2)));
    }
    const raised = raiseFromLevel(
      thinner.trace(),
      Array.from({ length: 10 }, (_, k) => 0.8 * k),
    );
    expect(Math.max(...raised.values)).toBeCloseTo(20, 0);
    expect(Math.min(...raised.values)).toBe(0);
  });
});

test("lines break at spaces, and inside a word only where it is longer than a line", () => {
  expect(wrapText("one two three", 20, textWidth("one two", 20))).toEqual(["one two", "three"]);
  const pieces = wrapText("x".repeat(50), 20, 100);
  expect(pieces.join("")).toBe("x".repeat(50));
  for (const piece of pieces) expect(textWidth(piece, 20)).toBeLessThanOrEqual(100);
});
