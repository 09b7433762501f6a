import { mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020, type ValidateFunction } from "ajv/dist/2020.js";
import { afterAll, describe, expect, test } from "vitest";
import { Folder, run, table } from "./testing/run.js";

const root = join(import.meta.dirname, "../..");
const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, strictRequired: false, strictTypes: false });
const schemaOf = (name: string): ValidateFunction =>
  ajv.compile(JSON.parse(readFileSync(join(root, "docs/schemas", `${name}.json`), "utf8")));
const schemas = { read: schemaOf("read"), compare: schemaOf("compare"), score: schemaOf("score") };

function holds(name: keyof typeof schemas, text: string): Record<string, never> {
  const value = JSON.parse(text) as Record<string, never>;
  expect(schemas[name](value) ? [] : schemas[name].errors).toEqual([]);
  return value;
}

const folder = new Folder();
afterAll(() => folder.remove());
const good = folder.write("lark.csv", table({ IR: "wave" }));
const flat = folder.write("flat.csv", table({ IR: "flat" }));
const half = folder.write("half.csv", table({ IR: "half" }));
const missing = folder.write("missing.csv", table({ IR: "missing" }));
const two = folder.write(
  "two.csv",
  table({ IR1: "wave", IR2: "small wave", PLETH1: "wave", PLETH2: "wave" }),
);

describe("read --json", () => {
  test.each([
    ["a wave", good],
    ["no wave", flat],
    ["half a wave", half],
    ["no probe", missing],
    ["a display trace", `${two}#PLETH1`],
    ["a part", `${good}@5-12`],
  ])("%s keeps to its schema", async (_, source) => {
    const { out } = await run(["read", "--json", source, "--site", "left great toe"]);
    const answer = holds("read", out) as unknown as {
      windows: { start_s: number; end_s: number }[];
      site: string;
    };
    expect(answer.site).toBe("left great toe");
    expect(out.match(/\n/g)).toHaveLength(1);
    for (const [i, window] of answer.windows.entries()) {
      if (i > 0) expect(window.start_s).toBe(answer.windows[i - 1]!.end_s);
    }
  });

  test("a part keeps the clock of the record", async () => {
    const answer = holds("read", (await run(["read", "--json", `${good}@5-15`])).out) as never as {
      beats_s: number[];
      windows: { start_s: number }[];
      from_s: number;
      duration_s: number;
    };
    expect(answer.windows[0]?.start_s).toBe(5);
    expect(Math.min(...answer.beats_s)).toBeGreaterThanOrEqual(5);
    expect(answer).toMatchObject({ from_s: 5, duration_s: 20 });
  });

  test("the made waves are found where they were made", async () => {
    // Made at 50/s with a top every 40 samples from the 12th on.
    const { beats_s } = JSON.parse((await run(["read", "--json", good])).out);
    expect(beats_s).toEqual(Array.from({ length: 25 }, (_, k) => Number((0.24 + 0.8 * k).toFixed(2))));
  });

  test("S2: nothing but a solid window is believable", async () => {
    const { windows } = JSON.parse((await run(["read", "--json", half])).out);
    for (const window of windows) expect(window.believable).toBe(window.capture === "solid");
    expect(windows.some((window: { believable: boolean }) => !window.believable)).toBe(true);
  });

  test("several sources: one document a line, those that cannot be read on standard error", async () => {
    const { code, out, err } = await run(["read", "--json", good, `${folder.path}/nope.csv`, flat]);
    const lines = out.trimEnd().split("\n");
    expect(lines).toHaveLength(2);
    for (const line of lines) holds("read", line);
    expect(err).toMatch(/^limbtide: [^\n]*nope\.csv: no such file\n$/);
    expect(code).toBe(2);
  });
});

describe("compare --json", () => {
  const sites = ["--sound-site", "right middle finger", "--suspect-site", "left middle finger"];
  test.each([
    ["sizes differ", [`${two}#IR1`, `${two}#IR2`, ...sites]],
    ["display traces", [`${two}#PLETH1`, `${two}#PLETH2`, ...sites]],
    ["no wave", [good, flat]],
    ["no probe", [good, missing, "--cold", "suspect", "--raised", "neither", "--lowered", "neither"]],
    ["nothing on both sides", [flat, missing]],
  ])("%s keeps to its schema", async (_, words) => {
    const { out } = await run(["compare", "--json", ...words]);
    holds("compare", out);
  });

  test("S4: sites as stated, on the side they were stated for", async () => {
    const answer = JSON.parse((await run(["compare", "--json", `${two}#IR1`, `${two}#IR2`, ...sites])).out);
    expect(answer.sound.site).toBe("right middle finger");
    expect(answer.suspect.site).toBe("left middle finger");
    const unstated = JSON.parse((await run(["compare", "--json", `${two}#IR1`, `${two}#IR2`])).out);
    expect([unstated.sound.site, unstated.suspect.site]).toEqual([null, null]);
  });

  test("not stated is not no", async () => {
    const answer = JSON.parse(
      (await run(["compare", "--json", good, flat, "--cuff", "suspect", "--cold", "neither"])).out,
    );
    expect(answer.sound.declared).toMatchObject({ cuff: false, cold: false, block: null, height: null });
    expect(answer.suspect.declared).toMatchObject({ cuff: true, cold: false, pump: null });
  });
});

describe("score --json", () => {
  const scored = new Folder();
  afterAll(() => scored.remove());
  for (const name of ["beats", "windows", "recordings"]) mkdirSync(join(scored.path, name));
  scored.write("recordings/lark.csv", table({ IR: "wave" }));
  scored.write("wren.csv", table({ IR1: "wave", IR2: "flat" }));
  const tops = Array.from({ length: 25 }, (_, k) => 0.24 + 0.8 * k);
  // 10 ms early, one mark left out, one added inside the unmarked span, one ECG mark.
  const marks = tops.filter((_, k) => k !== 3).map((time) => `P,${(time + 0.01).toFixed(2)}`);
  scored.write("beats/lark.csv", `kind,time_s\nR,0.1\n${marks.join("\n")}\nP,19.7\n`);
  scored.write(
    "beats/lark.unreadable.csv",
    "start_s,end_s,channel,reason\n19.6,20,IR,made up\n0,10,II,an ECG\n",
  );
  scored.write("windows/lark.csv", "start_s,end_s,label\n0,5,good\n5,10,doubtful\n");
  scored.write("beats/wren.csv", `kind,time_s\n${tops.map((time) => `P,${time.toFixed(2)}`).join("\n")}\n`);
  scored.write("beats/wren.unreadable.csv", "start_s,end_s,channel,reason\n100,101,IR1,past the end\n");
  scored.write("beats/gone.csv", "kind,time_s\nP,1\n");

  test("counts against hand-made marks, pools them, and says what was left out", async () => {
    const { code, out, err } = await run(["score", "--json", scored.path]);
    // docs/json.md: 0 only if all that has marks was scored.
    expect(code).toBe(2);
    expect(err).toMatch(/^limbtide: [^\n]+: gone: marks, but no recording of that name\n$/);
    const answer = holds("score", out) as never as {
      records: { name: string; channel: string; beats: object; grades: unknown }[];
      pooled: { beats: object; grades: { good: object } };
      left_out: { name: string }[];
    };
    // The ECG's span must not hide the beat without a mark.
    expect(answer.records.find(({ name }) => name === "lark")?.beats).toMatchObject({
      hits: 24,
      missed: 0,
      extra: 1,
      sensitivity: 1,
      timing_ms: { median: -10 },
    });
    expect(answer.records.find(({ name }) => name === "wren")).toMatchObject({
      channel: "IR1",
      beats: { hits: 25, missed: 0, extra: 0, f1: 1 },
      grades: null,
    });
    expect(answer.pooled.beats).toMatchObject({ hits: 49, extra: 1, precision: 0.98 });
    expect(answer.pooled.grades.good).toMatchObject({ solid: 1 });
    expect(answer.left_out.map(({ name }) => name)).toEqual(["gone"]);
  });

  test("prints the same for a person", async () => {
    const { out } = await run(["score", scored.path]);
    expect(out).toMatch(/lark +24 +0 +1 +1\.0000 +0\.9600 +0\.9796/);
    expect(out).toMatch(/all +49 +0 +1/);
    expect(out).toContain("gone: marks, but no recording of that name");
  });

  test("follows a list where there is one", async () => {
    scored.write(
      "marked.csv",
      "name,source,rate_hz,reference,person\nlark,lark.csv#IR,50,,one\nowl,owl.csv,,,two\n",
    );
    const answer = holds("score", (await run(["score", "--json", scored.path])).out) as never as {
      records: { name: string }[];
      left_out: object[];
    };
    expect(answer.records.map(({ name }) => name)).toEqual(["lark"]);
    expect(answer.left_out).toEqual([{ name: "owl", why: "no recording owl.csv" }]);
  });

  test.each([
    ["nothing there", "nope", 2],
    ["no marks", "empty", 2],
    ["no folder named", null, 64],
  ])("%s", async (_, name, code) => {
    mkdirSync(join(folder.path, "empty"), { recursive: true });
    const ran = await run(["score", ...(name === null ? [] : [join(folder.path, name)])]);
    expect(ran.code).toBe(code);
    expect(ran.err).toMatch(/^limbtide: [^\n]+\n$/);
  });

  test("broken marks name their line", async () => {
    const broken = new Folder();
    mkdirSync(join(broken.path, "beats"));
    broken.write("lark.csv", table({ IR: "wave" }));
    broken.write("beats/lark.csv", "kind,time_s\nP,1\nP,soon\n");
    const { code, err } = await run(["score", broken.path]);
    broken.remove();
    expect(code).toBe(2);
    expect(err).toMatch(/lark\.csv, line 3: time_s is not a number/);
  });
});
