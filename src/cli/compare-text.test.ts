/** What a tired reader gets: short, in this order, nothing twice. */
import { afterAll, describe, expect, test } from "vitest";
import { Folder, run, table } from "./testing/run.js";
import { bothSites, oneToe, stated } from "./testing/stated.js";

const folder = new Folder();
afterAll(() => folder.remove());
const two = folder.write("two.csv", table({ IR1: "wave", IR2: "small wave", IR3: "wave" }));
const known = [...stated, "--same-digit", "yes"];

async function lines(words: readonly string[]): Promise<string[]> {
  return (await run(["compare", ...words], { columns: 400 })).out.split("\n");
}

describe("what was not stated", () => {
  const words = [`${two}#IR1`, `${two}#IR2`];

  test("is one line for a person", async () => {
    const unsaid = (await lines(words)).filter((line) => line.includes("each could change this"));
    expect(unsaid).toHaveLength(1);
    expect(unsaid[0]).toMatch(/^ {2}- not stated, and each could change this: cuff or tourniquet; cold/);
    expect((await lines(words)).filter((line) => line.includes("- whether "))).toEqual([]);
  });

  test("is a clause each in JSON", async () => {
    const { out } = await run(["compare", "--json", ...words]);
    const clauses: string[] = JSON.parse(out).could_be_wrong;
    expect(clauses.filter((clause) => clause.includes("not stated")).length).toBeGreaterThan(4);
  });

  test("is not spoken of when all was", async () => {
    const said = await lines([...words, ...known]);
    expect(said.join()).not.toContain("not stated, and each");
  });
});

test("S1: what no-difference cannot see stands right under it, once", async () => {
  const said = await lines([`${two}#IR1`, `${two}#IR3@0.02-`, ...known]);
  const at = said.findIndex((line) => line.startsWith("No side difference found"));
  expect(at).toBe(0);
  expect(said[1]).toBe("What this can't see:");
  expect(said.filter((line) => line.includes("compartment syndrome"))).toHaveLength(1);
});

test("S9: a limit is called one, and its support is said once", async () => {
  const said = (await lines([`${two}#IR1`, `${two}#IR2`])).join("\n");
  expect(said).toMatch(/pulse rates agree .* \[limit > 5 \/min; common practice, no source: /);
  expect(said).not.toMatch(/common practice: common practice/);
});

test("S4: one site at two times has no side called sound", async () => {
  const said = (await lines([`${two}#IR1@0-10`, `${two}#IR1@10-20`, ...oneToe])).join("\n");
  expect(said).toContain("first reading: left great toe");
  expect(said).toContain("later: left great toe");
  expect(said).not.toMatch(/\bsound: /i);
});

test("the two columns never touch", async () => {
  const head = (await lines([`${two}#IR1@0-10`, `${two}#IR1@10-20`, ...oneToe])).find((line) =>
    line.includes("later:"),
  );
  expect(head).toMatch(/left great toe {3}later:/);
});

describe("narrow terminals", () => {
  const words = [`${two}#IR1`, `${two}#IR2`, ...known];
  // What cannot be broken: paths, and single words of the sources.
  const tooWide = (out: string, columns: number) =>
    out.split("\n").filter((line) => line.length > columns && !line.includes(folder.path));

  test.each([40, 48, 60, 70, 80, 100])("%d columns are not run over", async (columns) => {
    for (const stated of [[], bothSites, oneToe]) {
      const ran = await run(["compare", ...words, ...stated], { columns });
      expect(tooWide(ran.out, columns)).toEqual([]);
    }
    for (const channel of ["IR1", "IR2"]) {
      expect(tooWide((await run(["read", `${two}#${channel}`], { columns })).out, columns)).toEqual([]);
    }
  });

  test("a narrow one stacks the two sides under each number, none left out", async () => {
    const wide = (await run(["compare", ...words], { columns: 100 })).out;
    const narrow = (await run(["compare", ...words], { columns: 40 })).out;
    expect(wide).toMatch(/\n {2}pulse rate +75 \/min +75 \/min\n/);
    expect(narrow).toMatch(/\n {2}pulse rate\n {4}sound +75 \/min\n {4}suspect +75 \/min\n/);
    for (const label of ["capture", "pulse rate", "perfusion index", "PI ratio", "delay"]) {
      expect(narrow.includes(`\n  ${label}\n`), label).toBe(wide.includes(`\n  ${label} `));
    }
  });
});

test("a difference of rates that is mere rounding is not spelled out", async () => {
  const said = (await lines([`${two}#IR1`, `${two}#IR2`, ...known])).join("\n");
  expect(said).toContain("pulse rates agree within 0.1 a minute");
});
