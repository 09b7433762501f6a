import { afterAll, describe, expect, test } from "vitest";
import { forbiddenIn } from "../rules/testing/forbidden-words.js";
import { commands } from "./main.js";
import { Folder, run, table } from "./testing/run.js";
import { bothSites, stated } from "./testing/stated.js";

const folder = new Folder();
afterAll(() => folder.remove());
const good = folder.write("lark.csv", table({ IR: "wave" }));
const flat = folder.write("flat.csv", table({ IR: "flat" }));
const missing = folder.write("missing.csv", table({ IR: "missing" }));
const wild = folder.write("wild.csv", table({ PLETH: "wild" }));
const half = folder.write("half.csv", table({ IR: "half" }));
const two = folder.write("two.csv", table({ IR1: "wave", IR2: "small wave", ECG: "wave" }));
const display = folder.write("display.csv", table({ PLETH1: "wave", PLETH2: "wave" }));
const other = folder.write("other.csv", table({ A: "wave", "B=1": "wave" }));
const odd = folder.write("odd#name@0-9.csv", table({ IR: "wave" }));
const empty = folder.write("empty.csv", "");
const binary = folder.write(
  "binary.csv",
  Uint8Array.from({ length: 4096 }, (_, i) => (i * 7919) & 255),
);

describe("exit codes of read", () => {
  test.each([
    { why: "solid somewhere", words: [good], code: 0 },
    { why: "half of it solid", words: [half], code: 0 },
    { why: "no wave", words: [flat], code: 1 },
    { why: "no probe", words: [missing], code: 1 },
    { why: "noise", words: [wild], code: 1 },
    { why: "a part", words: [`${good}@5-15`], code: 0 },
    { why: "a channel", words: [`${two}#IR2`], code: 0 },
    { why: "a channel by number", words: [`${two}#2`], code: 0 },
    { why: "a channel in other letters", words: [`${two}#ir2@0-10`], code: 0 },
    { why: "# and @ in the file's name", words: [odd], code: 0 },
    { why: "# and @ in the file's name and after it", words: [`${odd}#IR@0-10`], code: 0 },
    { why: "a channel stated to be a pleth", words: ["--kind", "B=1=display", `${other}#B=1`], code: 0 },
    { why: "several, gravest counts", words: [good, flat], code: 1 },
    { why: "several, one bad", words: [good, `${folder.path}/nope`, flat], code: 2 },
    { why: "empty file", words: [empty], code: 2 },
    { why: "not a recording", words: [binary], code: 2 },
    { why: "a folder", words: [folder.path], code: 2 },
    { why: "no such file", words: [`${folder.path}/nope.csv`], code: 2 },
    { why: "a device", words: ["/dev/null"], code: 2 },
    { why: "ambiguous", words: [two], code: 2 },
    { why: "no pleth", words: [other], code: 2 },
    { why: "an ECG taken for a pleth", words: [`${two}#ECG`], code: 2 },
    { why: "no such channel", words: [`${two}#IR3`], code: 2 },
    { why: "a part beyond the end", words: [`${good}@90-`], code: 2 },
    { why: "a part that ends before it begins", words: [`${good}@15-5`], code: 2 },
    { why: "too few samples per second", words: ["--rate", "19", good], code: 2 },
    { why: "more samples per second than any sensor gives", words: ["--rate", "1e9", good], code: 2 },
    { why: "a kind for a channel that is not there", words: ["--kind", "PLTH=display", good], code: 2 },
    { why: "such a kind with several files", words: ["--kind", "PLTH=display", good, half], code: 2 },
    {
      why: "a kind for a channel of one of them",
      words: ["--kind", "B=1=display", good, `${other}#B=1`],
      code: 0,
    },
    { why: "picture where no folder is", words: ["--picture", `${folder.path}/no/x.svg`, good], code: 2 },
    { why: "nothing named", words: [], code: 64 },
    { why: "unknown option", words: ["--frobnicate", good], code: 64 },
    { why: "an option without its value", words: [good, "--rate"], code: 64 },
    { why: "a switch with a value", words: ["--json=yes", good], code: 64 },
    { why: "a rate of nothing", words: ["--rate", "0", good], code: 64 },
    { why: "a rate below nothing", words: ["--rate", "-5", good], code: 64 },
    { why: "a rate in words", words: ["--rate", "fast", good], code: 64 },
    { why: "an unknown kind", words: ["--kind", "IR=ultraviolet", good], code: 64 },
    { why: "a kind without channel", words: ["--kind", "=red", good], code: 64 },
    { why: "half a site", words: ["--site", "middle finger", good], code: 64 },
    { why: "a picture of two", words: ["--picture", "a.svg", good, half], code: 64 },
    { why: "a picture of another kind", words: ["--picture", "a.gif", good], code: 64 },
  ])("$code: $why", async ({ words, code }) => {
    const ran = await run(["read", ...words]);
    expect({ code: ran.code, err: ran.err }).toMatchObject({ code });
    if (code >= 2) {
      expect(ran.err).toMatch(/^limbtide: [^\n]+\n$/);
      expect(ran.err).not.toMatch(/\bat .*:\d+:\d+|Error/);
    } else {
      expect(ran.err).toBe("");
      expect(ran.out).not.toBe("");
    }
  });
});

describe("exit codes of compare", () => {
  const known = [...bothSites, ...stated];
  test.each([
    { why: "a smaller wave", words: [`${two}#IR1`, `${two}#IR2`, ...known], code: 0 },
    { why: "no wave without a test of presence", words: [good, flat, ...known], code: 1 },
    { why: "no probe", words: [good, missing, ...known], code: 1 },
    { why: "a pump", words: [`${two}#IR1`, `${two}#IR2`, ...known, "--pump", "yes"], code: 1 },
    { why: "one source", words: [good], code: 64 },
    { why: "three sources", words: [good, flat, half], code: 64 },
    { why: "the same stretch twice", words: [good, good], code: 64 },
    { why: "overlapping stretches", words: [`${good}@0-10`, `${good}@5-15`], code: 64 },
    { why: "a side that is none", words: [good, flat, "--cuff", "left"], code: 64 },
    { why: "an unknown mechanism", words: [good, flat, "--mechanism", "magic"], code: 64 },
    { why: "a kind for a channel of neither", words: ["--kind", "PLTH=red", good, flat], code: 2 },
    { why: "suspect missing", words: [good, `${folder.path}/nope`], code: 2 },
  ])("$code: $why", async ({ words, code }) => {
    const ran = await run(["compare", ...words]);
    expect({ code: ran.code, err: ran.err }).toMatchObject({ code });
    if (code >= 2) expect(ran.err).toMatch(/^limbtide: [^\n]+\n$/);
  });
});

describe("the program", () => {
  test.each([[[]], [["red"]], [["--frob"]], [["Read"]]])("does not understand %j", async (words) => {
    expect((await run(words)).code).toBe(64);
  });

  test.each([["--help"], ["-h"], ["help"]])("%s lists every command", async (word) => {
    const { code, out } = await run([word]);
    expect(code).toBe(0);
    for (const { name } of commands) expect(out).toContain(`limbtide ${name} `);
  });

  test.each(commands.map(({ name }) => name))(
    "%s --help names every option and has examples",
    async (name) => {
      const command = commands.find((one) => one.name === name)!;
      const { code, out } = await run([name, "--nonsense", "--help"]);
      expect(code).toBe(0);
      for (const option of command.options) expect(out).toContain(`--${option.name}`);
      for (const [line] of command.examples) expect(out).toContain(line);
      expect((await run(["help", name])).out).toBe(out);
    },
  );

  test("a fault of its own is one line and code 70", async () => {
    const engine = {
      open: async () => {
        throw new TypeError("broken on purpose");
      },
    };
    const ran = await run(["read", good], { engine: engine as never });
    expect(ran.code).toBe(70);
    expect(ran.err).toMatch(/^limbtide: a fault of its own: broken on purpose\.[^\n]*\n$/);
  });
});

describe("errors say what to do", () => {
  test("several pleths are listed with their kinds", async () => {
    const { err } = await run(["read", two]);
    expect(err).toContain("IR1 (infrared), IR2 (infrared)");
    expect(err).not.toContain("ECG (ecg),");
    expect(err).toContain(`"${two}#IR1"`);
  });

  test("without a pleth all channels are listed, and how to state one", async () => {
    const { err } = await run(["read", other]);
    expect(err).toContain("A (other), B=1 (other)");
    expect(err).toContain('--kind "A=display"');
  });

  test("text from files cannot steer the terminal", async () => {
    const nasty = folder.write("nasty.csv", table({ IR: "wave" }));
    const { err, out } = await run(["read", `${nasty}#\u001b[2J\u0007\u202e`]);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: those are what must not come through
    expect(err + out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
    expect(err).toContain("no channel");
  });
});

describe("what a person reads", () => {
  test("the sentence comes first, then one line a stretch", async () => {
    const { out } = await run(["read", "--site", "left great toe", half]);
    const lines = out.split("\n");
    expect(lines[0]).toBe(
      "Pulse wave detected at the left great toe in 10 of 20 s. Wave lost from sight at 0:10, not back.",
    );
    expect(lines.filter((line) => /^ +\d+:\d\d – /.test(line))).toEqual([
      expect.stringMatching(/0:00 – 0:10 +◆ solid +\d+ \/min {2}PI /),
      expect.stringMatching(/0:10 – 0:20 +○ none +too few beats/),
    ]);
  });

  test("S5: no wave, no probe and noise are three different answers", async () => {
    const first = async (file: string) => (await run(["read", file])).out.split("\n")[0];
    expect(await first(flat)).toMatch(/^No pulse wave found under a working probe/);
    expect(await first(missing)).toMatch(/^No working probe/);
    expect(await first(wild)).toMatch(/^Cannot tell: movement or noise/);
  });

  test("S1, S13: no forbidden word, and who decides stands on every answer", async () => {
    const runs = [
      ["read", good],
      ["read", flat],
      ["read", missing],
      ["read", wild],
      ["compare", `${two}#IR1`, `${two}#IR2`],
      ["compare", `${display}#PLETH1`, `${display}#PLETH2`, "--mechanism", "practice"],
      ["compare", good, missing],
    ];
    for (const words of runs) {
      const { out } = await run(words);
      expect(forbiddenIn(out), words.join(" ")).toEqual([]);
      expect(out.replace(/\s+/g, " ")).toContain(
        "local protocol, medical direction and licensed judgement come first",
      );
    }
    for (const { name } of commands) expect(forbiddenIn((await run([name, "--help"])).out)).toEqual([]);
    expect(forbiddenIn((await run(["--help"])).out)).toEqual([]);
  });

  test("S11: compartment syndrome is spoken of wherever the limb can swell or nobody said", async () => {
    for (const how of [[], ["--mechanism", "fracture"]]) {
      const { out } = await run(["compare", `${two}#IR1`, `${two}#IR2`, ...how]);
      expect(out.replace(/\s+/g, " ")).toContain("a compartment syndrome");
    }
    expect((await run(["read", good])).out.replace(/\s+/g, " ")).toContain("a compartment syndrome");
  });

  test("S4: sides stand where stated, and are never guessed from names", async () => {
    const named = folder.write("pair.csv", table({ IR1: "wave", IR2: "small wave" }));
    const unstated = await run(["compare", `${named}#IR1`, `${named}#IR2`]);
    expect(unstated.out).toContain("sound (site not stated)");
    expect(unstated.out).not.toMatch(/\b(left|right)\b/);
    const sited = await run(["compare", `${named}#IR1`, `${named}#IR2`, ...bothSites]);
    expect(sited.out).toContain("sound: right middle finger");
    expect(sited.out).toContain("suspect: left middle finger");
  });

  test("S3: a display trace shows no perfusion index and no ratio", async () => {
    const { out } = await run(["compare", `${display}#PLETH1`, `${display}#PLETH2`]);
    expect(out).toMatch(/perfusion index +– +–/);
    expect(out).not.toContain("PI ratio");
    expect((await run(["read", `${display}#PLETH1`])).out).toContain("No perfusion index");
  });
});

describe("terminals", () => {
  const sequence = "\u001b[";
  test.each([
    { why: "a pipe", shell: {}, colour: false },
    { why: "a terminal", shell: { outIsTerminal: true }, colour: true },
    { why: "NO_COLOR", shell: { outIsTerminal: true, env: { NO_COLOR: "1" } }, colour: false },
    { why: "NO_COLOR left empty", shell: { outIsTerminal: true, env: { NO_COLOR: "" } }, colour: true },
    { why: "a dumb terminal", shell: { outIsTerminal: true, env: { TERM: "dumb" } }, colour: false },
  ])("$why: weight and colour $colour", async ({ shell, colour }) => {
    const { out } = await run(["compare", `${two}#IR1`, `${two}#IR2`], shell);
    expect(out.includes(sequence)).toBe(colour);
  });

  test("progress goes to a terminal on standard error only, and is wiped", async () => {
    expect((await run(["read", good])).err).toBe("");
    const { err } = await run(["read", good], { errIsTerminal: true });
    expect(err).toContain("reading");
    expect(err.endsWith("\r\u001b[K")).toBe(true);
  });

  test.each([20, 80, 400])("answers keep within %d columns as far as they may", async (columns) => {
    const { out } = await run(["read", "--site", "left great toe", half], { columns });
    const prose = out.split("\n").filter((line) => !line.includes(folder.path) && !/–/.test(line));
    expect(Math.max(...prose.map((line) => line.length))).toBeLessThanOrEqual(
      Math.max(40, Math.min(100, columns)),
    );
  });
});
