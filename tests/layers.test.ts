/** The layer table of CONTRIBUTING.md is the law; this reads it and holds the imports against it. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { describe, expect, test } from "vitest";

const root = join(import.meta.dirname, "..");
const src = join(root, "src");

/** Folder → folders it may import, from the table's rows. */
function readTable(): Map<string, readonly string[]> {
  const rows = readFileSync(join(root, "CONTRIBUTING.md"), "utf8").matchAll(
    /^\| `(\w+)` \|[^|]*\|([^|]*)\|$/gm,
  );
  return new Map(
    [...rows].map(([, folder, may]) => [
      folder as string,
      (may as string)
        .split(",")
        .map((name) => name.trim())
        .filter((name) => name !== "–"),
    ]),
  );
}

const table = readTable();
const files = readdirSync(src, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));
const isProduct = (name: string) => !name.endsWith(".test.ts") && !name.split(sep).includes("testing");
const imports = /(?:from|import)\s*\(?\s*"([^"]+)"/g;

/** Every import of product code as [file, what it names]. */
function importsOf(name: string): string[] {
  return [...readFileSync(join(src, name), "utf8").matchAll(imports)].map((match) => match[1] as string);
}

describe("the layer table", () => {
  test("names every folder of src, and no other", () => {
    const folders = readdirSync(src, { withFileTypes: true }).filter((entry) => entry.isDirectory());
    expect(folders.map((entry) => entry.name).sort()).toEqual([...table.keys()].sort());
    expect(readdirSync(src, { withFileTypes: true }).filter((entry) => entry.isFile())).toEqual([]);
  });

  test("lets no folder import itself upward through others", () => {
    for (const [folder, may] of table) {
      for (const other of may)
        expect(table.get(other), `${folder} may import ${other}`).not.toContain(folder);
    }
  });

  test.each(files.filter(isProduct))("holds for %s", (name) => {
    const own = name.split(sep)[0] as string;
    const paths = importsOf(name)
      .filter((text) => text.startsWith("."))
      .map((target) => relative(src, join(src, dirname(name), target)));
    const upward = paths.filter((path) => {
      const folder = path.split(sep)[0] as string;
      return folder !== own && !table.get(own)?.includes(folder);
    });
    expect(upward, "imports against the table").toEqual([]);
    expect(
      paths.filter((path) => /(^|\/)testing\/|\.test\.js$/.test(path)),
      "leans on test code",
    ).toEqual([]);
  });

  test.each(files.filter((name) => isProduct(name) && !name.startsWith("cli")))(
    "keeps Node out of %s",
    (name) => {
      expect(importsOf(name).filter((text) => text.startsWith("node:"))).toEqual([]);
      expect(readFileSync(join(src, name), "utf8")).not.toMatch(
        /\bDate\.now\b|\bMath\.random\b|\bnew Date\(\)/,
      );
    },
  );
});
