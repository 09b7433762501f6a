/** Rows, cells and numbers against other code: Papa Parse for splitting, the language itself for numbers. */
import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { createUtf16Recoder, detectEncoding, textOf } from "../file-text.js";
import { createCellParser } from "./cell-number.js";
import { createRowScanner, type Delimiter, longestRow } from "./scan-rows.js";
import { bytesOf } from "./testing/table-text.js";

function cut(text: string, delimiter: Delimiter, pieces: number): string[][] {
  const scan = createRowScanner(delimiter, 50);
  const bytes = bytesOf(text);
  const rows: string[][] = [];
  const take = () => {
    while (scan.next()) {
      rows.push(
        Array.from({ length: scan.count }, (_, i) => textOf(scan.bytes, scan.starts[i]!, scan.ends[i]!)),
      );
    }
  };
  for (let at = 0; at < bytes.length; at += pieces) {
    scan.feed(bytes.subarray(at, at + pieces));
    take();
  }
  scan.finish();
  take();
  return rows;
}

const cell = fc.string({
  unit: fc.constantFrom("a", "1", ".", " ", ",", ";", '"', "\n", "é", "µ", "-"),
  maxLength: 6,
});
const table = fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 6 });

describe("rows and cells", () => {
  test("any table written by Papa Parse comes back, in chunks of any size", () => {
    fc.assert(
      fc.property(
        table,
        fc.constantFrom<Delimiter>(",", ";", "\t", "|"),
        fc.constantFrom("\n", "\r\n", "\r"),
        fc.integer({ min: 1, max: 40 }),
        (rows, delimiter, newline, pieces) => {
          const text = Papa.unparse(rows, { delimiter, newline, quotes: true });
          const got = cut(text, delimiter, pieces).map((row) => row.map((one) => one.replaceAll('""', '"')));
          expect(got).toEqual(rows);
        },
      ),
    );
  });

  test("plain text is split as Papa Parse splits it", () => {
    const plain = fc.array(fc.array(fc.stringMatching(/^[a-z0-9.-]{1,5}$/), { minLength: 1, maxLength: 4 }), {
      minLength: 1,
    });
    fc.assert(
      fc.property(plain, fc.integer({ min: 1, max: 40 }), (rows, pieces) => {
        const text = rows.map((row) => row.join(",")).join("\n");
        expect(cut(text, ",", pieces)).toEqual(Papa.parse(text, { delimiter: ",", newline: "\n" }).data);
      }),
    );
  });

  test.each([
    [
      '1,"2\n3,4\n5,6\n',
      [
        ["1", '"2'],
        ["3", "4"],
        ["5", "6"],
      ],
    ],
    [
      '1,"2"x\n3,4"\n5,6',
      [
        ["1", '"2"x'],
        ["3", '4"'],
        ["5", "6"],
      ],
    ],
  ])("a stray quote in %j takes no other row with it", (text, rows) => {
    expect(cut(text, ",", 7)).toEqual(rows);
  });

  test("blanks of any number separate, around and between", () => {
    expect(cut("  1   2\t3 \n4 5 6", "space", 3)).toEqual([
      ["1", "2", "3"],
      ["4", "5", "6"],
    ]);
  });

  test("a row without end is skipped in bounded memory, and counted", () => {
    const scan = createRowScanner(",", 4);
    const chunk = new Uint8Array(1 << 16).fill(55);
    let most = 0;
    for (let n = 0; n < 2000; n++) {
      scan.feed(chunk);
      while (scan.next());
      most = Math.max(most, scan.bytes.length);
    }
    scan.feed(bytesOf("\n1,2\n"));
    expect(scan.next()).toBe(true);
    expect([scan.count, scan.line, scan.tooLong, scan.firstTooLong]).toEqual([2, 2, 1, 1]);
    expect(most).toBeLessThan(2 * longestRow);
  });
});

describe("numbers", () => {
  const parse = (text: string, decimal: "." | "," = ".") => {
    const parser = createCellParser(decimal);
    const bytes = bytesOf(text);
    return [parser.parse(bytes, 0, bytes.length), parser.value] as const;
  };
  const written = fc.oneof(
    fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
    fc.tuple(fc.double({ min: -1e9, max: 1e9, noNaN: true }), fc.nat(12)).map(([x, n]) => x.toFixed(n)),
    fc.tuple(fc.double({ min: -1e9, max: 1e9, noNaN: true }), fc.nat(20)).map(([x, n]) => x.toExponential(n)),
    fc.maxSafeInteger().map(String),
  );

  test("are the very ones the language reads", () => {
    fc.assert(
      fc.property(written, (text) => {
        expect(parse(text)).toEqual(["value", Number(text)]);
        expect(parse(` ${text.replace(".", ",")} `, ",")).toEqual(["value", Number(text)]);
      }),
      { numRuns: 2000 },
    );
  });

  test.each([
    ["", "missing"],
    ["  ", "missing"],
    ["NaN", "missing"],
    ["-", "missing"],
    ["N/A", "missing"],
    ["null", "missing"],
    ["1e999", "overflow"],
    ["-Infinity", "overflow"],
    ["12x", "bad"],
    ["1.2.3", "bad"],
    ["1e", "bad"],
    ["0x10", "bad"],
    ["1,5", "bad"],
    ["\u0000", "bad"],
  ])("%j is %s", (text, kind) => {
    expect(parse(text)).toEqual([kind, Number.NaN]);
  });
});

describe("encodings", () => {
  test("any text in UTF-16 comes back, cut anywhere", () => {
    fc.assert(
      fc.property(
        fc
          .array(fc.oneof(fc.integer({ min: 0, max: 0xd7ff }), fc.integer({ min: 0xe000, max: 0x10ffff })), {
            maxLength: 12,
          })
          .map((codes) => String.fromCodePoint(...codes)),
        fc.boolean(),
        fc.integer({ min: 1, max: 9 }),
        (text, big, pieces) => {
          const bytes = new Uint8Array(text.length * 2);
          const view = new DataView(bytes.buffer);
          for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), !big);
          const recode = createUtf16Recoder(big);
          const out: number[] = [];
          for (let at = 0; at < bytes.length; at += pieces) out.push(...recode(bytes.slice(at, at + pieces)));
          expect(textOf(Uint8Array.from(out), 0, out.length)).toBe(text);
          expect(new TextDecoder().decode(Uint8Array.from(out))).toBe(text.replace(/^\ufeff/, ""));
        },
      ),
    );
  });

  test.each<[string, number[], string]>([
    ["a UTF-8 mark", [0xef, 0xbb, 0xbf, 49], "utf-8"],
    ["a UTF-16 mark", [0xff, 0xfe, 49, 0], "utf-16le"],
    ["UTF-16 without mark", [0, 49, 0, 44, 0, 50, 0, 10, 0, 49], "utf-16be"],
    ["plain digits", [49, 44, 50, 10, 49, 44, 50, 10], "utf-8"],
  ])("%s is seen", (_, bytes, encoding) => {
    expect(detectEncoding(Uint8Array.from(bytes)).encoding).toBe(encoding);
  });

  test("Latin-1 bytes are read as such", () => {
    expect(textOf(Uint8Array.from([0xb5, 86, 0xb0, 67]), 0, 4)).toBe("µV°C");
  });
});
