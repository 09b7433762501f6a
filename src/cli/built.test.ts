/** The program as a person runs it: `bin/limbtide` in a process of its own. */
import { execFile, spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { Folder, table } from "./testing/run.js";

const root = join(import.meta.dirname, "../..");
const bin = join(root, "bin/limbtide");
const folder = new Folder();
afterAll(() => folder.remove());
const good = folder.write("lark.csv", table({ IR: "wave" }, 30));
const recordings = join(root, "data/recordings");

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

function limbtide(words: readonly string[], env: Readonly<Record<string, string>> = {}): Promise<Ran> {
  return new Promise((done) => {
    execFile(
      process.execPath,
      [bin, ...words],
      { env: { ...process.env, ...env }, maxBuffer: 1e8 },
      (error, out, err) => {
        done({ code: typeof error?.code === "number" ? error.code : error === null ? 0 : -1, out, err });
      },
    );
  });
}

beforeAll(async () => {
  // Builds if need be, so that no test below waits for it.
  expect((await limbtide(["--version"])).code).toBe(0);
}, 60_000);

test("tells the version of package.json", async () => {
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  expect((await limbtide(["--version"])).out).toBe(`limbtide ${version}\n`);
});

test("runs through a link from another folder", async () => {
  const place = mkdtempSync(join(tmpdir(), "limbtide-link-"));
  symlinkSync(bin, join(place, "limbtide"));
  const ran = await new Promise<string>((done) => {
    execFile(join(place, "limbtide"), ["--version"], { cwd: place }, (_, out) => done(out));
  });
  expect(ran).toMatch(/^limbtide \d/);
});

test("hostile files each end in one line, together in code 2", async () => {
  const cases = {
    "empty.csv": "",
    "empty.hea": "",
    "zeros.edf": new Uint8Array(2048),
    "noise.csv": Uint8Array.from({ length: 8192 }, (_, i) => (i * 7919 + (i >> 3)) & 255),
    "torn.json": '{"resourceType":"Observation","component":[{',
    "torn.hea": "lark 1 100 1000\nlark.dat 16",
    "words.txt": "This is a letter, not a recording.\nIt has two lines.\n",
    "escape.hea": "lark 1 100 1000\n../../../../etc/passwd 16 200 12 0 0 0 0 PLETH\n",
  };
  const paths = Object.entries(cases).map(([name, content]) => folder.write(name, content));
  const all = [...paths, "/", "/dev/null", "/nope/nope.csv", "nope#PLETH@0-60"];
  const { code, out, err } = await limbtide(["read", ...all]);
  expect({ code, out }).toEqual({ code: 2, out: "" });
  const lines = err.trimEnd().split("\n");
  expect(lines).toHaveLength(all.length);
  for (const line of lines) expect(line).toMatch(/^limbtide: .+: .+/);
  expect(err).not.toMatch(/\bat .*:\d+:\d+/);
});

test("one hostile file alone is one line and code 2", async () => {
  const { code, out, err } = await limbtide(["read", folder.write("alone.csv", "")]);
  expect({ code, out }).toEqual({ code: 2, out: "" });
  expect(err).toMatch(/^limbtide: [^\n]+\n$/);
});

test("the line names the file once, with its path", async () => {
  const path = folder.write("void.csv", "");
  const { err } = await limbtide(["read", path]);
  expect(err.split("void.csv")).toHaveLength(2);
  expect(err).toContain(path);
});

test("a table too short for the part asked for is bad input, as any other file is", async () => {
  const { code, out, err } = await limbtide(["read", "--rate", "50", `${good}@90-`]);
  expect({ code, out }).toEqual({ code: 2, out: "" });
  expect(err).toMatch(/^limbtide: [^\n]+it ends before\n$/);
});

test("S5: nothing recorded and too little recorded are not called movement", async () => {
  const first = async (name: string, rows: readonly unknown[]) => {
    const path = folder.write(name, `PLETH,row\n${rows.map((cell, i) => `${cell},${i}`).join("\n")}\n`);
    return (await limbtide(["read", "--rate", "50", path])).out.split("\n")[0];
  };
  expect(await first("three.csv", [1, 2, 3])).toMatch(/^Cannot tell: too short to judge/);
  expect(await first("nothing.csv", Array(1000).fill("NaN"))).toMatch(/^Cannot tell: samples are missing/);
});

test("real recordings: the answer as JSON, beats near the hand-made marks", async () => {
  const { code, out } = await limbtide(["read", "--json", join(recordings, "bidmc_01.hea")]);
  expect(code).toBe(0);
  const { beats_s, windows, kind } = JSON.parse(out);
  expect(kind).toBe("display-pleth");
  // data/beats/bidmc_01.csv holds 711 marks in 480 s.
  expect(Math.abs(beats_s.length - 711)).toBeLessThan(15);
  expect(windows[0].start_s).toBe(0);
  expect(windows.at(-1).end_s).toBeCloseTo(480, 0);
});

test("a part of a record is read on the record's clock", async () => {
  const { out } = await limbtide(["read", "--json", `${join(recordings, "bidmc_01.hea")}#PLETH@1:00-1:20`]);
  const { windows, beats_s } = JSON.parse(out);
  expect(windows[0].start_s).toBeCloseTo(60, 2);
  expect(windows.at(-1).end_s).toBeCloseTo(80, 2);
  expect(Math.min(...beats_s)).toBeGreaterThan(60);
  expect(Math.max(...beats_s)).toBeLessThan(80);
});

test("the recordings that come along are scored", async () => {
  const { code, out } = await limbtide(["score", "--json", join(root, "data")]);
  expect(code).toBe(0);
  const { records, pooled, left_out } = JSON.parse(out);
  expect(left_out).toEqual([]);
  expect(records).toHaveLength(12);
  // The bar of the design: pooled F1 at least 0.99.
  expect(pooled.beats.f1).toBeGreaterThanOrEqual(0.99);
});

test("pictures are written as SVG and PNG", async () => {
  for (const name of ["strip.svg", "strip.png"]) {
    const path = join(folder.path, name);
    const { code, err } = await limbtide([
      "read",
      join(recordings, "data.csv"),
      "--rate",
      "100",
      "--picture",
      path,
    ]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(existsSync(path)).toBe(true);
  }
  const png = readFileSync(join(folder.path, "strip.png"));
  // Signature and width as in the PNG specification (ISO/IEC 15948), sections 5.2 and 11.2.2.
  expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
  expect(png.readUInt32BE(16)).toBe(1080);
  expect(readFileSync(join(folder.path, "strip.svg"), "utf8")).toMatch(/^<\?xml .*<svg /s);
});

test("two sides of one record: a waterline, and a sentence that names both", async () => {
  const pair = folder.write("pair.csv", table({ IR1: "wave", IR2: "flat" }, 30));
  const path = join(folder.path, "waterline.png");
  const { code, out, err } = await limbtide([
    "compare",
    `${pair}#IR1`,
    `${pair}#IR2`,
    "--rate",
    "50",
    ...["--kind", "IR1=infrared", "--kind", "IR2=infrared"],
    ...["--sound-site", "right middle finger", "--suspect-site", "left middle finger"],
    ...["--picture", path],
  ]);
  expect(err).toBe("");
  expect([0, 1]).toContain(code);
  expect(out.split("\n\n")[0]).toContain("left middle finger");
  expect(readFileSync(path).readUInt32BE(16)).toBe(1080);
});

test("no colour in a pipe, asked for or not", async () => {
  for (const env of [{}, { FORCE_COLOR: "1" }, { NO_COLOR: "1" }] as Record<string, string>[]) {
    const { out } = await limbtide(["read", "--rate", "50", good], env);
    expect(out).not.toContain("\u001b");
    expect(out).not.toBe("");
  }
});

test("a reader that goes away is no fault", async () => {
  const words = Array.from({ length: 40 }, () => join(recordings, "bidmc_01.hea"));
  const child = spawn(process.execPath, [bin, "read", "--json", ...words.slice(0, 12)], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let err = "";
  child.stderr.on("data", (chunk) => {
    err += chunk;
  });
  child.stdout.once("data", () => child.stdout.destroy());
  const code = await new Promise((done) => child.on("close", done));
  expect(err).toBe("");
  expect(code).toBe(0);
});
