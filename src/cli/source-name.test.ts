import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { wholeSpan } from "./engine.js";
import { parseSourceName, type Standing } from "./source-name.js";

const disk =
  (files: Readonly<Record<string, Standing>>) =>
  async (path: string): Promise<Standing> =>
    Object.hasOwn(files, path) ? (files[path] as Standing) : "nothing";

describe("a source name", () => {
  const span = { from: 0, to: 60 };
  test.each([
    ["a.csv", { file: "a.csv", channel: null, span: wholeSpan }],
    ["a.csv#IR", { file: "a.csv", channel: "IR", span: wholeSpan }],
    ["a.csv@0-60", { file: "a.csv", channel: null, span }],
    ["a.csv#IR@0-60", { file: "a.csv", channel: "IR", span }],
    ["a.csv#IR@0:00:00-1:00", { file: "a.csv", channel: "IR", span }],
    ["a.csv#IR@home", { file: "a.csv", channel: "IR@home", span: wholeSpan }],
    ["a.csv#IR@home@0-60", { file: "a.csv", channel: "IR@home", span }],
    ["a.csv#no. #2", { file: "a.csv", channel: "no. #2", span: wholeSpan }],
    ["a.csv#PPG Finger@5-", { file: "a.csv", channel: "PPG Finger", span: { from: 5, to: null } }],
  ])("%s", async (text, expected) => {
    expect(await parseSourceName(text, disk({ "a.csv": "file" }))).toEqual(expected);
  });

  test("takes the longest name that is a file", async () => {
    const stand = disk({ "a#1.csv": "file", a: "file", "b@0-60": "file", b: "file" });
    expect(await parseSourceName("a#1.csv", stand)).toEqual({
      file: "a#1.csv",
      channel: null,
      span: wholeSpan,
    });
    expect(await parseSourceName("a#1.csv#IR", stand)).toMatchObject({ file: "a#1.csv", channel: "IR" });
    expect(await parseSourceName("b@0-60", stand)).toMatchObject({ file: "b@0-60", span: wholeSpan });
    expect(await parseSourceName("b@0-60@0-60", stand)).toMatchObject({ file: "b@0-60", span });
    expect(await parseSourceName("a#IR", stand)).toMatchObject({ file: "a", channel: "IR" });
  });

  test.each([
    ["b.csv", /^b\.csv: no such file$/],
    ["b.csv#IR@0-60", /^b\.csv: no such file$/],
    ["d", /^d: is a folder/],
    ["p", /^p: is not a regular file/],
    ["a.csv@60", /^a\.csv: "@60" is not/],
    ["a.csv@60-30", /"@60-30" ends before or where it begins/],
    ["a.csv#", /is not #CHANNEL/],
    ["#", /no such file/],
    ["", /no such file/],
  ])("%j is refused in one line", async (text, line) => {
    const stand = disk({ "a.csv": "file", d: "folder", p: "other" });
    await expect(parseSourceName(text, stand)).rejects.toMatchObject({
      code: 2,
      line: expect.stringMatching(line),
    });
  });

  test("any file name can be named, whatever it holds", async () => {
    const names = fc.string({ minLength: 1, unit: fc.constantFrom("a", "#", "@", "-", "1", ":", ".", " ") });
    await fc.assert(
      fc.asyncProperty(names, async (name) => {
        expect(await parseSourceName(name, disk({ [name]: "file" }))).toMatchObject({
          file: name,
          channel: null,
        });
      }),
    );
  });
});
