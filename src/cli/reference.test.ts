/** `--reference`, with the engine itself, on recordings that have an ECG and hand-marked R waves (`data/`, ODC-By). */
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { engine } from "./plug.js";
import { run } from "./testing/run.js";

const data = join(import.meta.dirname, "../../data");
const record = join(data, "recordings/a103l.hea");
const marks = join(data, "beats/a103l.csv");
/** One pleth and a clock, no ECG. */
const plain = join(data, "recordings/data2.csv");

const real = (words: readonly string[]) => run(words, { engine, columns: 400 });

interface Answer {
  readonly reference: {
    readonly file: string;
    readonly channel: string | null;
    readonly kind: string;
    readonly agreement: Record<"heart_beats" | "matched" | "missed" | "extra", number>;
    readonly pulse_deficit_per_min: number;
    readonly delay_ms: number;
  } | null;
  readonly windows: readonly {
    readonly capture: string;
    readonly presence: { readonly answer: string; readonly reference: boolean } | null;
    readonly agreement: Answer["reference"] extends infer R
      ? R extends { agreement: infer A }
        ? A
        : never
      : never;
  }[];
}
const answer = async (words: readonly string[]): Promise<Answer> =>
  JSON.parse((await real(["read", "--json", ...words])).out);

describe("read holds the pleth against", () => {
  test("the first ECG lead of the same record, unasked", async () => {
    const { reference, windows } = await answer([`${record}@0-60`]);
    expect(reference).toMatchObject({ file: record, channel: "II", kind: "ecg" });
    const solid = windows.filter((window) => window.capture === "solid");
    expect(solid.length).toBeGreaterThan(6);
    for (const { presence } of solid) expect(presence).toMatchObject({ answer: "found", reference: true });
    const beats = solid.reduce((sum, window) => sum + window.agreement.heart_beats, 0);
    expect(reference?.agreement.heart_beats).toBe(beats);
  });

  test("a lead named by its channel alone", async () => {
    expect((await answer([`${record}@0-30`, "--reference", "#v"])).reference?.channel).toBe("V");
    expect((await answer([`${record}@0-30`, "--reference", `${record}#2`])).reference?.channel).toBe("V");
  });

  test("hand-marked R waves, which the lead's own beats follow", async () => {
    const byMarks = (await answer([`${record}@0-60`, "--reference", marks])).reference!;
    const byLead = (await answer([`${record}@0-60`])).reference!;
    expect(byMarks).toMatchObject({ file: marks, channel: null, kind: "marks" });
    expect(byMarks.agreement).toEqual(byLead.agreement);
    expect(byMarks.agreement.missed).toBe(0);
    expect(Math.abs(byMarks.delay_ms - byLead.delay_ms)).toBeLessThan(15);
  });

  test("nothing when told so, or when the record has no lead", async () => {
    for (const words of [[`${record}@0-20`, "--reference", "none"], [plain]]) {
      const { reference, windows } = await answer(words);
      expect(reference).toBeNull();
      for (const window of windows) expect(window.presence).toBeNull();
      expect((await real(["read", ...words])).out).not.toContain("against");
    }
  });

  test("and says how many beats of the heart have their pulse", async () => {
    const { out } = await real(["read", `${record}@0-60`]);
    expect(out).toMatch(
      /\n {2}against ECG II: \d+ beats of the heart in solid stretches, each with its pulse\n/,
    );
  });
});

describe("compare", () => {
  const sides = [`${record}@0-60`, `${record}@60-120`];
  const references = async (words: readonly string[]) => {
    const { sound, suspect } = JSON.parse((await real(["compare", "--json", ...words])).out);
    return [sound, suspect].map(
      (side) => side.heart_reference && [side.heart_reference.channel, side.presence.reference],
    );
  };

  test("takes each side's own first lead, the one named, or none", async () => {
    expect(await references(sides)).toEqual([
      ["II", true],
      ["II", true],
    ]);
    expect(await references([...sides, "--reference", "#V"])).toEqual([
      ["V", true],
      ["V", true],
    ]);
    expect(await references([...sides, "--reference", "none"])).toEqual([null, null]);
  });

  test("S5: never tests one file against the clock of another", async () => {
    const words = [record, plain, "--reference", `${record}#V`];
    expect(await references(words)).toEqual([["V", true], null]);
  });
});

describe("what is no reference is refused in one line", () => {
  test.each([
    { why: "a pleth", reference: "#PLETH", code: 2, says: "taken for display" },
    { why: "no such lead", reference: "#aVF", code: 2, says: 'no channel "aVF"' },
    { why: "no such file", reference: join(data, "nope.csv"), code: 2, says: "no such file" },
    {
      why: "a record without lead or marks",
      reference: plain,
      code: 2,
      says: "no ECG lead and no marks of beats",
    },
    {
      why: "marks without R waves",
      reference: join(data, "beats/red_ir.csv"),
      code: 2,
      says: "no marks of kind R",
    },
    { why: "a part", reference: `${record}@0-10`, code: 64, says: "takes no times" },
  ])("$why", async ({ reference, code, says }) => {
    const ran = await real(["read", record, "--reference", reference]);
    expect(ran.code).toBe(code);
    expect(ran.err).toMatch(/^limbtide: [^\n]+\n$/);
    expect(ran.err).toContain(says);
  });
});
