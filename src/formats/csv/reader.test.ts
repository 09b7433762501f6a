import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { csvReader } from "./reader.js";
import { readTable } from "./testing/read-table.js";
import { bytesOf, waveTable } from "./testing/table-text.js";

const plain = (rows: number) => waveTable({ rows, at: (n) => n / 100, stamp: (t) => t.toFixed(2) });

describe("any way of writing the same table", () => {
  const numbers = fc.array(
    fc.tuple(fc.integer({ min: -1e6, max: 1e6 }), fc.option(fc.integer({ min: 0, max: 9999 }))),
    {
      minLength: 12,
      maxLength: 60,
    },
  );
  test("gives the same values", async () => {
    await fc.assert(
      fc.asyncProperty(
        numbers,
        fc.constantFrom<["." | ",", string]>(
          [".", ","],
          [".", ";"],
          [",", ";"],
          [".", "\t"],
          [",", "\t"],
          [".", "|"],
          [",", "|"],
        ),
        fc.constantFrom("\n", "\r\n", "\r"),
        fc.constantFrom("", "NaN", "NA", "-"),
        fc.record({ mark: fc.boolean(), quoted: fc.boolean(), comment: fc.boolean(), ending: fc.boolean() }),
        async (rows, [decimal, delimiter], lineEnd, missing, how) => {
          const write = (x: number) => x.toFixed(3).replace(".", decimal);
          const quote = (text: string) => (how.quoted ? `"${text}"` : text);
          const lines = [
            ...(how.comment ? ["# made up"] : []),
            ["time_s", "PLETH [mV]", "II"].map(quote).join(delimiter),
            ...rows.map(([a, b], n) =>
              [write(n / 50), write(a / 1000), b === null ? missing : write(b / 1000)]
                .map(quote)
                .join(delimiter),
            ),
          ];
          const text = (how.mark ? "\ufeff" : "") + lines.join(lineEnd) + (how.ending ? lineEnd : "");
          const { channels, values, codes } = await readTable(text);
          expect(codes).toEqual([]);
          expect(channels.map(({ name, unit, rate }) => [name, unit, rate])).toEqual([
            ["PLETH", "mV", 50],
            ["II", "", 50],
          ]);
          expect(values[0]).toEqual(rows.map(([a]) => Number((a / 1000).toFixed(3))));
          expect(values[1]).toEqual(
            rows.map(([, b]) => (b === null ? Number.NaN : Number((b / 1000).toFixed(3)))),
          );
        },
      ),
      { numRuns: 150 },
    );
  });
});

describe("names and rates", () => {
  test("blank header cells are numbered, units taken out of names", async () => {
    const { channels } = await readTable(",PLETH (a.u.),,IR_ADC\n1,2,3,4\n5,6,7,8\n", { rate: 100 });
    expect(channels.map(({ name, unit, kind }) => [name, unit, kind])).toEqual([
      ["column 1", "", "other"],
      ["PLETH", "a.u.", "display-pleth"],
      ["column 3", "", "other"],
      ["IR_ADC", "", "raw-light"],
    ]);
  });

  test.each([
    ["# Sampling Rate (Hz):= 1000.00\n# Labels:= PPG\n1\n2\n", 1000, "PPG"],
    ["# fs = 0.5 kHz\nPLETH,II\n1,2\n3,4\n", 500, "PLETH"],
    ["Sample frequency;250\n\nPLETH;II\n1;2\n3;4\n", 250, "PLETH"],
    ["sample_10hz,PLETH\n7,1\n8,2\n", 10, "sample_10hz"],
  ])("%j has its rate written", async (text, rate, name) => {
    const { channels, values } = await readTable(text);
    expect(channels[0]).toMatchObject({ rate, name });
    expect(values[0]).toHaveLength(2);
  });

  test("the only column may be a wave under a rate's name, with a note", async () => {
    const { channels, codes } = await readTable(plain(200).replace("PLETH", "hr"));
    expect(channels[0]?.kind).toBe("display-pleth");
    expect(codes).toEqual(["kind-assumed"]);
  });

  test("empty lines in a single column are missing values, those at the end are not", async () => {
    const { values } = await readTable('PLETH\n1\n\n\n""\n2\n\n\n', { rate: 10 });
    expect(values[0]).toEqual([1, Number.NaN, Number.NaN, Number.NaN, 2]);
  });

  test("numbers of a device are held between rows, never mixed", async () => {
    const at = (n: number) => n / 100 + 0.1 * Math.sin(n / 900);
    const rows = Array.from(
      { length: 6000 },
      (_, n) => `${at(n).toFixed(4)},${n % 200 < 100 ? 97 : 91},${n}`,
    );
    const { values, codes } = await readTable(`time_s,SpO2,PLETH\n${rows.join("\n")}\n`);
    expect(codes).toEqual(["clock-uneven"]);
    expect(new Set(values[0])).toEqual(new Set([97, 91]));
  });
});

describe("damage is told with its line and count, and the rest is read", () => {
  const spoilt = (change: (lines: string[]) => void) => {
    const lines = plain(500).split("\n");
    change(lines);
    return readTable(lines.join("\n"));
  };
  test("cells that are no numbers", async () => {
    const { values, problems } = await spoilt((lines) => {
      for (const n of [100, 200, 300]) lines[n] = `${((n - 1) / 100).toFixed(2)},lost`;
      lines[400] = "3.99,1e999";
    });
    expect(values[0]).toHaveLength(500);
    expect(values[0]!.flatMap((value, k) => (Number.isNaN(value) ? [k] : []))).toEqual([99, 199, 299, 399]);
    expect(problems).toEqual([
      {
        code: "not-a-number",
        weight: "lost-part",
        where: "a.csv, line 101",
        expected: "a number",
        found: '"lost" in column "PLETH", left missing, 3 times',
      },
      {
        code: "number-overflow",
        weight: "lost-part",
        where: "a.csv, line 401",
        expected: "a number within range",
        found: '"1e999" in column "PLETH", left missing, once',
      },
    ]);
  });

  test("short and long rows, text, a header in the middle", async () => {
    const { values, problems } = await spoilt((lines) => {
      lines[50] = "0.49";
      lines[60] += ",9,9";
      lines.splice(70, 0, "time_s,PLETH");
      lines.splice(80, 0, "--- paused ---");
    });
    expect(values[0]).toHaveLength(500);
    expect(values[0]!.flatMap((value, k) => (Number.isNaN(value) ? [k] : []))).toEqual([49]);
    expect(problems.map(({ code, where }) => [code, where])).toEqual([
      ["short-rows", "a.csv, line 51"],
      ["long-rows", "a.csv, line 61"],
      ["text-lines", "a.csv, line 71"],
    ]);
  });

  test.each([
    ["nothing", "", "empty-file"],
    ["a header only", "time_s,PLETH\n", "no-table"],
    ["text only", "to be or not\nto be\n", "no-table"],
    ["NUL bytes", "\0".repeat(5000), "no-table"],
  ])("%s is fatal", async (_, text, code) => {
    const { channels, problems } = await readTable(text);
    expect(channels).toEqual([]);
    expect(problems.map((one) => [one.code, one.weight])).toEqual([[code, "fatal"]]);
  });

  test("a hundred thousand columns: the first are read", async () => {
    const row = (n: number) => Array.from({ length: 30_000 }, (_, i) => (i + n) % 10).join(",");
    const { channels, codes, values } = await readTable([row(0), row(1), row(2)].join("\n"), { rate: 10 });
    expect(channels).toHaveLength(1024);
    expect(values[1023]).toEqual([3, 4, 5]);
    expect(codes).toContain("too-many-columns");
  });

  test("three MiB without a line end, then rows", async () => {
    const rows = plain(300).split("\n");
    rows.splice(100, 0, "9".repeat(3 << 20));
    const { values, problems } = await readTable(rows.join("\n"));
    expect(values[0]).toHaveLength(300);
    expect(problems.map(({ code, where }) => [code, where])).toEqual([["row-too-long", "a.csv, line 101"]]);
  });
});

describe("recognises", () => {
  test.each([
    ["a.csv", "", true],
    ["A.TSV", "", true],
    ["notes.txt", "", true],
    ["readings", "time,PLETH\n0,1\n1,2\n", true],
    ["readings", "once upon a time\n", false],
    ["a.edf", "1,2\n3,4\n", false],
  ])("%s beginning %j: %s", (name, head, answer) => {
    expect(csvReader.recognises(name, bytesOf(head))).toBe(answer);
  });
});

test("a rate that is no rate is the caller's mistake", async () => {
  await expect(readTable(plain(10), { rate: 0 })).rejects.toThrow(/^out-of-range/);
});
