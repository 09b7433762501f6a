/** The pulse layer may not import rules, so its limits stand there once more; here the two are held together. */
import { expect, test } from "vitest";
import { captureLimits } from "../pulse/capture-grade.js";
import { publishedQuality } from "../pulse/quality-published.js";
import { captureRules } from "./index.js";

const sameAs = {
  "capture.off": captureLimits.offShare,
  "capture.off-rail": captureLimits.offShare,
  "capture.hidden": captureLimits.hidden,
  "capture.missing": captureLimits.flat,
  "capture.flat-run": captureLimits.flat,
  "capture.clip": captureLimits.clip,
  "capture.short": captureLimits.shortest,
  "capture.pulses": captureLimits.pulses,
  "capture.silence": captureLimits.gap,
  "capture.interval-short": captureLimits.shortestInterval,
  "capture.interval-long": captureLimits.longestInterval,
  "capture.template-mean": captureLimits.mean,
  "capture.template-worst": captureLimits.min,
  "capture.size-ratio": captureLimits.sizeRatio,
  "capture.base": captureLimits.baseMove,
  "capture.rest": captureLimits.rest,
  "capture.swings": captureLimits.cycles,
  "capture.crest": captureLimits.crest,
  "capture.sine": captureLimits.edge,
  "capture.sine-even": captureLimits.edgeIfEven,
  "capture.sine-usual": captureLimits.edgeIfUsual,
  "capture.sine-short": captureLimits.edgeIfShort,
  "capture.sine-any": captureLimits.edgeIfRich,
  "capture.sizes-even": captureLimits.evenSizes,
  "capture.unlike": captureLimits.unlike,
  "capture.interval-ratio": captureLimits.intervalRatio,
  "capture.likely": captureLimits.likely,
  "capture.swings-second": captureLimits.swings,
  "capture.lost": captureLimits.lostBeats,
  "capture.rhythm": captureLimits.rhythm,
  "capture.rhythm-clear": captureLimits.clearRhythm,
  "capture.smooth": captureLimits.smooth,
  "capture.narrow": captureLimits.narrow,
  "capture.quiet": captureLimits.quietShare,
  "capture.faded": captureLimits.fadedUpper,
  "capture.rhythm-chance": captureLimits.fadedChance,
} as const;

test.each(Object.entries(sameAs))("%s is the limit the capture grade uses, %d", (id, limit) => {
  expect(captureRules.find((rule) => rule.id === id)?.value).toBe(limit);
});

test("every row of the grade's own ladder is held to the grade", () => {
  const own = captureRules
    .filter((rule) => rule.source.startsWith("ours: rule ladder"))
    .map((rule) => rule.id);
  expect(own.filter((id) => !(id in sameAs))).toEqual([]);
});

test("what a note says of irregular rhythms is what the grade uses", () => {
  const note = (id: string) => {
    const rule = captureRules.find((one) => one.id === id);
    return rule !== undefined && "note" in rule ? rule.note : "";
  };
  expect(note("capture.silence")).toContain(` ${captureLimits.unevenGap}.`);
  expect(note("capture.template-mean")).toContain(` ${captureLimits.unevenMean}.`);
  expect(note("capture.template-worst")).toContain(` ${captureLimits.unevenMin}.`);
  expect(note("capture.rest")).toContain(` ${captureLimits.unevenRest}.`);
});

test("what a note says of shapes and of absence is what the grade uses", () => {
  const note = (id: string) => {
    const rule = captureRules.find((one) => one.id === id);
    return rule !== undefined && "note" in rule ? rule.note : "";
  };
  expect(note("capture.sine")).toContain(`${captureLimits.steep} times`);
  expect(note("capture.sine-even")).toContain(
    `${captureLimits.edge} at more than ${Math.round(60 / captureLimits.crowded)} `,
  );
  expect(note("capture.sine-even")).toContain(
    `fewer than ${Math.round(60 / captureLimits.sparse)} beats/min`,
  );
  expect(note("capture.sine-even")).toContain(`${captureLimits.rising} times`);
  expect(note("capture.sine-usual")).toContain(`${captureLimits.usual} times`);
  expect(note("capture.sizes-even")).toContain(`${captureLimits.evenIfIrregular} in an irregular rhythm`);
  expect(note("capture.sizes-even")).toContain(`${captureLimits.unevenSizes} if`);
  expect(note("capture.sizes-even")).toContain(`${captureLimits.wildSizes} where`);
  expect(note("capture.rhythm-chance")).toContain(`${captureLimits.chance} where`);
  expect(note("capture.rhythm-chance")).toContain(`above ${captureLimits.fadedTiny} of it`);
});

test.each([
  ["capture.rate-low", publishedQuality.slowest],
  ["capture.rate-high", publishedQuality.fastest],
  ["capture.gap", publishedQuality.longestGap],
  ["capture.interval-ratio-published", publishedQuality.intervalRatio],
  ["capture.template-published", publishedQuality.templateCorrelation],
] as const)("%s is the published limit the pulse layer shows", (id, limit) => {
  const rule = captureRules.find((one) => one.id === id);
  expect([rule?.value, rule?.unit]).toEqual([limit.value, limit.unit]);
  expect(rule?.support === "published").toBe(limit.support === "published");
});
