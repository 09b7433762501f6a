/** What makes a strip legible: pulses as tall as they can be, words that do not cover each other. */
import { describe, expect, test } from "vitest";
import { textWidth } from "./lettering.js";
import { stripPicture } from "./strip-picture.js";
import { type Parsed, parseXml } from "./testing/parse-xml.js";
import { createThinner } from "./trace.js";

/** Pulses at 75 /min, 20 tall, on a level that moves by `drift` a second. */
function pulses(from: number, seconds: number, drift: number) {
  const thinner = createThinner(from, from + seconds, 640);
  for (let i = 0; i < seconds * 100; i++) {
    const phase = (i / 80) % 1;
    const time = from + i / 100;
    thinner.next(time, 1000 + drift * time + 20 * Math.exp(-(((phase - 0.3) / 0.1) ** 2)));
  }
  return thinner.trace();
}

function strip(change: Partial<Parameters<typeof stripPicture>[0]>): Parsed {
  return parseXml(
    stripPicture({
      sentence: "Pulse wave detected in 60 of 60 s.",
      context: "lark.csv#IR",
      site: "Left great toe",
      role: "suspect",
      rows: [],
      grades: [{ from: 0, to: 60, capture: "solid" }],
      losses: [],
      notes: [],
      cannotSee: ["how much blood flows"],
      ...change,
    }),
  );
}

const walk = (node: Parsed): Parsed[] => [node, ...node.children.flatMap(walk)];

/** Heights of the traces, px. */
const heights = (svg: Parsed) =>
  walk(svg)
    .filter((node) => node.name === "path" && node.attributes["stroke-width"] === "1.3")
    .map((path) => {
      const ys = [...(path.attributes["d"] ?? "").matchAll(/[ML]-?[\d.]+ (-?[\d.]+)/g)].map((found) =>
        Number(found[1]),
      );
      return Math.max(...ys) - Math.min(...ys);
    });

describe("the strip's scale", () => {
  const rows = (drift: number) =>
    [0, 10, 20, 30, 40, 50].map((from) => ({ trace: pulses(from, 10, drift), beats: [] }));

  test("a level that drifts from row to row does not flatten the pulses", () => {
    for (const height of heights(strip({ rows: rows(0) }))) expect(height).toBeGreaterThan(45);
    // Over the minute the level moves by three pulses, within a row by half of one.
    for (const height of heights(strip({ rows: rows(1) }))) expect(height).toBeGreaterThan(45);
  });

  test("rows share one gain, so that a pulse that shrinks is seen to", () => {
    const small = pulses(10, 10, 0);
    const shrunk = { ...small, values: small.values.map((value) => 1000 + (value - 1000) / 4) };
    const [tall, short] = heights(
      strip({
        rows: [
          { trace: pulses(0, 10, 0), beats: [] },
          { trace: shrunk, beats: [] },
        ],
      }),
    );
    expect((short as number) / (tall as number)).toBeCloseTo(0.25, 1);
  });
});

test("words of flags close together do not cover each other", () => {
  const svg = strip({
    rows: [{ trace: pulses(0, 20, 0), beats: [] }],
    losses: [2, 3, 8, 18].map((from) => ({ from, back: from + 0.9 })),
  });
  const words = walk(svg)
    .filter((node) => node.name === "text" && ["wave lost", "back"].includes(node.text))
    .map(({ text, attributes }) => {
      const x = Number(attributes["x"]);
      return { text, from: x, to: x + textWidth(text, 14, true), y: Number(attributes["y"]) };
    });
  expect(words.filter(({ text }) => text === "wave lost")).toHaveLength(4);
  for (const [i, one] of words.entries()) {
    for (const other of words.slice(i + 1)) {
      const apart = one.to <= other.from || other.to <= one.from || Math.abs(one.y - other.y) >= 15;
      expect(apart, `${one.text} at ${one.from}, ${other.text} at ${other.from}`).toBe(true);
    }
    expect(one.to).toBeLessThanOrEqual(360);
  }
});
