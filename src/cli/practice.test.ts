import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { afterAll, describe, expect, test } from "vitest";
import { Folder, run } from "./testing/run.js";

const root = join(import.meta.dirname, "../..");
const ajv = new Ajv2020({ strict: true, allowUnionTypes: true });
const schemaOf = (name: string) =>
  ajv.compile(JSON.parse(readFileSync(join(root, "docs/schemas", `${name}.json`), "utf8")));
const schemas = {
  practice: schemaOf("practice"),
  "practice-list": schemaOf("practice-list"),
  truth: schemaOf("truth"),
};
const faults = (name: keyof typeof schemas, value: unknown) =>
  schemas[name](value) ? [] : schemas[name].errors;

const folder = new Folder();
afterAll(() => folder.remove());
const at = (name: string) => join(folder.path, name);
const act = (...words: string[]) => run(["practice", "--scenario", "quiet-pair", "--rate", "50", ...words]);

describe("practice --list", () => {
  test("keeps to its schema and holds at least sixteen scenarios", async () => {
    const { code, out } = await run(["practice", "--list", "--json"]);
    expect(code).toBe(0);
    expect(faults("practice-list", JSON.parse(out))).toEqual([]);
  });
  test("in words gives each name, what it teaches and its cautions, and fits 40 columns", async () => {
    const { out } = await run(["practice", "--list"], { columns: 40 });
    expect(out).toContain("cuff-by-wave");
    expect(out).toMatch(/60\s+s\s+at\s+most/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(40);
  });
});

describe("practice --scenario", () => {
  test.each([
    ["csv", ["a.csv", "a.truth.csv", "a.truth.json"]],
    ["edf", ["a.edf", "a.truth.edf", "a.truth.json"]],
    ["hea", ["a.dat", "a.hea", "a.truth.dat", "a.truth.hea", "a.truth.json"]],
  ])("writes .%s with the truth beside it", async (ending, names) => {
    const own = new Folder();
    const { code, out } = await act("--seed", "4", "--out", join(own.path, `a.${ending}`), "--json");
    const written = readdirSync(own.path).filter((name) => !name.endsWith(".atr"));
    const truth = JSON.parse(readFileSync(join(own.path, "a.truth.json"), "utf8"));
    own.remove();
    expect(code).toBe(0);
    expect(faults("practice", JSON.parse(out))).toEqual([]);
    expect(faults("truth", truth)).toEqual([]);
    expect(written).toEqual(names);
    // 70 beats a minute for two minutes, at each of two sites; the last may not have come to its end.
    for (const { beats } of truth.sites) expect(Math.abs(beats.length - 140)).toBeLessThanOrEqual(6);
  });

  test("the same seed gives the same bytes, another seed others", async () => {
    const bytes = async (seed: string, name: string) => {
      await act("--seed", seed, "--out", at(name));
      return readFileSync(at(name), "latin1").replace(/^#.*\n/, "");
    };
    const first = await bytes("7", "b.csv");
    expect(await bytes("7", "c.csv")).toBe(first);
    expect(await bytes("8", "d.csv")).not.toBe(first);
  });

  test("cautions stand before what was written (S12)", async () => {
    const words = ["practice", "--scenario", "vein-band", "--rate", "25", "--out", at("v.csv")];
    const { out } = await run(words);
    expect(out.indexOf("holds the release")).toBeGreaterThan(-1);
    expect(out.indexOf("holds the release")).toBeLessThan(out.indexOf("Written:"));
  });

  test.each([
    [["--scenario", "no-such", "--out", "x.csv"], "no scenario"],
    [["--out", "x.csv"], "--list"],
    [["--scenario", "quiet-pair"], "--out FILE"],
    [["--scenario", "quiet-pair", "--out", "x.doc"], ".edf"],
    [["--scenario", "quiet-pair", "--out", "a b.hea"], "letters, digits"],
    [["--scenario", "quiet-pair", "--out", "x.csv", "--seed", "-1.5"], "needs a value"],
    [["--scenario", "quiet-pair", "--out", "x.csv", "--seed", "1.5"], "whole number"],
    [["--scenario", "quiet-pair", "--out", "x.csv", "--rate", "24"], "from 25 to 1000"],
    [["--scenario", "quiet-pair", "--out", "x.csv", "--choke-pressure", "3"], "from -12 to -2"],
    [["x.csv"], "takes no files"],
  ])("%j is a mistake on the line, said in one", async (words, says) => {
    const { code, out, err } = await run(["practice", ...words]);
    expect({ code, out }).toEqual({ code: 64, out: "" });
    expect(err).toContain(says);
    expect(err.trim().split("\n")).toHaveLength(1);
  });

  test("a folder that is not there is bad input", async () => {
    const { code, err } = await act("--out", at("no/such/x.csv"));
    expect(code).toBe(2);
    expect(err).toMatch(/^limbtide: .*x\.csv/);
  });
});
