/** Invented probes whose truth is known, and a real one with hand-marked R waves (`data/`, ODC-By). */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { type Block, type Presence, type Seconds, seconds, type Window } from "../model/index.js";
import { createRandom } from "../pulse/testing/noise.js";
import { heartBeats } from "./heart-beats.js";
import { holdToHeart, reviseByHeart } from "./hold-to-heart.js";
import { type ChannelStream, listen } from "./listen.js";
import { rawLight } from "./testing/make-reading.js";
import {
  clearProbe,
  makeLight,
  type ProbeRecipe,
  signalRate,
  signalSeconds,
} from "./testing/make-signals.js";

const whole = { from: null, to: null };

function streamOf(values: Float64Array, block = 500): ChannelStream {
  return {
    channel: { ...rawLight, rate: signalRate as never, samples: values.length },
    async *blocks() {
      for (let first = 0; first < values.length; first += block) {
        yield { channel: 0, first, values: values.subarray(first, first + block) } as Block;
      }
    },
  };
}

/** Beats 0.8 s apart with 2 % scatter, all the time. */
function steady(interval = 0.8): Seconds[] {
  const random = createRandom(5);
  const beats: Seconds[] = [];
  for (let at = 0.1; at < signalSeconds; at += interval * (1 + 0.02 * (2 * random() - 1)))
    beats.push(seconds(at));
  return beats;
}

async function held(
  recipe: Partial<ProbeRecipe>,
  pulsed: readonly Seconds[],
  hearts: readonly Seconds[],
  block?: number,
) {
  const stream = streamOf(makeLight({ ...clearProbe, ...recipe }, pulsed, createRandom(3)), block);
  const heard = await listen(stream, whole);
  return { heard, ...(await holdToHeart(stream, whole, heard, hearts)) };
}

const hearts = steady();

describe("a pulse at every beat", () => {
  test("is found in every window, with all beats matched", async () => {
    const { heard, windows, held: each, counts, deficit } = await held({}, hearts, hearts);
    expect(windows).toEqual(heard.windows);
    expect(windows.every((window) => window.capture === "solid")).toBe(true);
    expect(each.map(({ presence }) => presence?.answer)).toEqual(windows.map(() => "found"));
    expect(counts?.heartBeats).toBeGreaterThan(30);
    expect(counts).toMatchObject({ matched: counts?.heartBeats, missed: 0, extra: 0 });
    expect(deficit).toBe(0);
  });

  test("gives the same however the samples are cut", async () => {
    const { heard: _, ...one } = await held({}, hearts, hearts, 1);
    const { heard: __, ...other } = await held({}, hearts, hearts, 777);
    expect(one).toEqual(other);
  });
});

describe("beats of the heart without a pulse", () => {
  test("are counted as missed, and come to the deficit per minute", async () => {
    // Marks between the beats that have a pulse: as many missed as added.
    const added = [10.02, 15.02].map((time) => {
      const before = hearts.findLastIndex((beat) => beat < time);
      return seconds((hearts[before]! + hearts[before + 1]!) / 2);
    });
    const { counts, deficit, windows } = await held(
      {},
      hearts,
      [...hearts, ...added].sort((a, b) => a - b),
    );
    const minutes =
      windows.filter((one) => one.capture === "solid").reduce((sum, { from, to }) => sum + to - from, 0) / 60;
    expect(counts).toMatchObject({ missed: 2, extra: 0 });
    expect(deficit).toBeCloseTo(2 / minutes, 9);
  });

  test("pulses without a beat are counted as extra", async () => {
    const fewer = hearts.filter((_, i) => i !== 12 && i !== 20 && i !== 25);
    expect((await held({}, hearts, fewer)).counts).toMatchObject({ missed: 0, extra: 3 });
  });
});

describe("a reference that says otherwise", () => {
  test("takes the trust from a wave that does not follow the heart", async () => {
    // Regular, alike and strong, as a pump or a ventilator makes it; the heart beats at another rate.
    const { heard, windows } = await held({}, steady(0.8), steady(0.93));
    const before = heard.windows.filter((one) => one.capture === "solid").length;
    const denied = windows.filter((one) => one.reasons[0]?.code === "reference-disagrees");
    expect(before).toBeGreaterThan(3);
    expect(denied.length).toBeGreaterThan(before / 2);
    for (const window of denied) expect(window.capture).toBe("shaky");
  });

  test("brings a wave out that is too small to be graded, and never makes it solid", async () => {
    const {
      heard,
      windows,
      held: each,
    } = await held({ pi: 0.04, noise: "white", noisePi: 0.05 }, hearts, hearts);
    const none = heard.windows.flatMap((one, i) => (one.capture === "none" ? [i] : []));
    const found = none.filter((i) => each[i]!.presence?.answer === "found");
    expect(found.length).toBeGreaterThan(2);
    for (const i of found) expect(windows[i]!.capture).toBe("shaky");
    for (const [i, window] of windows.entries()) {
      if (window.capture === "solid") expect(heard.windows[i]!.capture).toBe("solid");
    }
  });
});

describe("one window", () => {
  const window = (capture: Window["capture"]): Window => ({
    from: seconds(0),
    to: seconds(5),
    capture,
    reasons: [],
    pulseRate: null,
    perfusionIndex: null,
  });
  const presence = (answer: Presence["answer"]): Presence => ({
    answer,
    p: 0.5,
    amplitude: null,
    upperLimit: null,
    upperLimitIndex: null,
    delay: null,
    reference: true,
  });
  test.each([
    ["solid", "not-found", "shaky"],
    ["solid", "cannot-tell", "solid"],
    ["solid", "likely", "solid"],
    ["none", "found", "shaky"],
    ["none", "likely", "none"],
    ["none", "not-found", "none"],
    ["shaky", "found", "shaky"],
    ["shaky", "not-found", "shaky"],
  ] as const)("%s with %s is %s", (capture, answer, then) => {
    expect(reviseByHeart(window(capture), presence(answer)).capture).toBe(then);
  });

  test.each(["off", "unreadable"] as const)("%s is not tested and stays", (capture) => {
    expect(reviseByHeart(window(capture), null).capture).toBe(capture);
  });
});

describe("marks as a reference", () => {
  const marks = readFileSync(new URL("../../data/beats/bidmc_01.csv", import.meta.url), "utf8")
    .split("\n")
    .flatMap((line) => (line.startsWith("R,") ? [seconds(Number(line.slice(2)))] : []));

  test("are taken where they fall into the stretch and 5 s around it", async () => {
    const beats = await heartBeats({ kind: "marks", beats: marks }, { from: 100, to: 110 });
    expect(beats).toEqual(marks.filter((time) => time >= 95 && time <= 115));
    expect(beats.length).toBeGreaterThan(20);
    expect(await heartBeats({ kind: "marks", beats: marks }, whole)).toEqual(marks);
  });
});
