/** From channels to the answer, on a real recording of two sites (`data/`, PhysioKit sample, MIT). */
import { describe, expect, test } from "vitest";
import { type Block, hertz, type Site } from "../model/index.js";
import { createPulseListener } from "../pulse/listener.js";
import { compareChannels } from "./compare-channels.js";
import { nothingDeclared, nothingKnown } from "./declared.js";
import { readableRates, type Span } from "./listen.js";
import { channelNamed, rate, rows } from "./testing/finger-and-ear.js";

function side(column: number, span: Span, site: Site | null) {
  const channel = channelNamed(`column ${column}`);
  const values = Float64Array.from(rows, (row) => row[column]!);
  async function* blocks(): AsyncGenerator<Block> {
    yield { channel: 0, first: 0, values } as Block;
  }
  return { pleth: { channel, blocks }, span, site, declared: nothingDeclared, heart: null, saturation: null };
}

test("the rates that are told to be readable are those the pulse engine takes", () => {
  const listener = (rate: number) => () =>
    createPulseListener(
      { rate: hertz(rate), polarity: "systole-up", level: false },
      { beat() {}, window() {}, loss() {} },
    );
  const { from, to } = readableRates;
  for (const rate of [from, to]) expect(listener(rate)).not.toThrow();
  for (const rate of [from * 0.999, to * 1.001]) expect(listener(rate)).toThrow(/argument-out-of-range/);
});

/** A window ends with a whole sample. */
const sample = 1 / rate;
const oneRecord = { ...nothingKnown, oneClock: true };
const finger: Site = { side: "left", digit: "middle finger" };

describe("two times of one recording", () => {
  const compared = compareChannels(
    side(0, { from: 0, to: 60 }, finger),
    side(0, { from: 90, to: 140 }, finger),
    oneRecord,
  );

  test("each side is read where it was asked for", async () => {
    const { sound, suspect } = await compared;
    expect(sound.to).toBeLessThanOrEqual(60 + sample);
    expect(suspect.from).toBeGreaterThanOrEqual(90);
    expect(suspect.to).toBeLessThanOrEqual(140 + sample);
    // Labelled good throughout by hand (data/windows).
    expect([sound.capture, suspect.capture]).toEqual(["solid", "solid"]);
  });

  test("no beat of one time lies in the other, so nothing is timed", async () => {
    const { comparison } = await compared;
    expect(comparison.delay).toBeNull();
    expect(comparison.reasons.map((one) => one.words)).toContain(
      "timing not compared: the two sides were not recorded together",
    );
  });

  test("one digit at two times is its own first reading, not one digit twice", async () => {
    const { comparison } = await compared;
    expect(comparison.reasons.map((one) => one.code)).not.toContain("same-site");
    expect(comparison.couldBeWrong.join()).toContain("the limb's own first reading");
  });
});

test("spans that overlap in part are compared where both were read", async () => {
  const { sound, suspect, comparison } = await compareChannels(
    side(1, { from: 0, to: 60 }, null),
    side(0, { from: 30, to: 100 }, null),
    oneRecord,
  );
  for (const { from, to } of [sound, suspect]) {
    expect(from).toBeGreaterThanOrEqual(30);
    expect(to).toBeLessThanOrEqual(60 + sample);
  }
  // Allen and Murray 2000: finger after ear by about 66 ms.
  expect(comparison.delay?.value).toBeGreaterThan(30);
});
