/**
 * One suite for every reader. A reader's own test file says what its format means; this says
 * what all of them promise, damaged input included.
 *
 *     describeReader("csv", csvReader, [
 *       { name: "two columns", file: "a.csv", files: { "a.csv": bytes }, damage: [{ file: "a.csv", from: 20 }] },
 *     ]);
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Problem } from "../../model/index.js";
import { RecordingError } from "../chosen-channels.js";
import type { Reader, ReadOptions, Recording } from "../recording.js";
import { memoryFolder, memorySource } from "./memory-source.js";
import { type Walked, walk } from "./walk.js";

/** Where a file of a fixture may be cut or struck so that the samples before must survive. */
export interface Damage {
  readonly file: string;
  /** First byte after the header: cuts and strikes from here on leave all earlier samples as they were. */
  readonly from: number;
  /**
   * Samples per channel that lie wholly before this byte and must come out equal. Leave out where the
   * format has no fixed places; then what comes out must still be equal, but may be nothing.
   */
  readonly kept?: (byte: number) => readonly number[];
  /** Samples per channel at the cut that may differ, as a number torn in two does in text. Default 0. */
  readonly edge?: number;
  /** Leave out strikes where one bad byte spoils all, as in a compressed file; say why. */
  readonly noStrikes?: string;
}

export interface ReaderFixture {
  readonly name: string;
  /** Name of the file to open; must be one of `files`. */
  readonly file: string;
  /** All bytes by file name, companions included. At least one channel with samples, and no fatal problem. */
  readonly files: Readonly<Record<string, Uint8Array>>;
  readonly options?: ReadOptions;
  /** Every file is cut and struck anywhere without a crash; these say where samples must survive it. */
  readonly damage?: readonly Damage[];
  /** Companions nobody can know to be missing, such as a file of beat marks. */
  readonly optional?: readonly string[];
  /** Fixtures without channels (notes only) say so. */
  readonly channels?: "none";
}

export interface ContractOptions {
  /** Why this format can't be read in pieces (JSON, compressed MATLAB). Without it no read passes 1 MiB. */
  readonly readsWhole?: string;
  /** A file of several MiB, made when asked for, to see that it is read in pieces. */
  readonly large?: () => ReaderFixture;
}

const largestRead = 1 << 20;
/** Seconds of silence a reader may put in for one damaged time stamp: a week, and a day of slack. */
const longestPadding = 8 * 86_400;
/** The same damage on every run; change it to try others. */
const seed = 20_261_125;

type Files = Readonly<Record<string, Uint8Array>>;

function opened(reader: Reader, fixture: ReaderFixture, files: Files = fixture.files, most?: number) {
  const sources = Object.entries(files).map(([name, bytes]) => memorySource(name, bytes, most));
  const source = sources.find(({ name }) => name === fixture.file);
  if (source === undefined) throw new Error(`fixture ${fixture.name} lacks its file ${fixture.file}`);
  return { sources, recording: reader.open(source, memoryFolder(sources), fixture.options) };
}

/** Every fault says what it is, where, what was due and what came. */
export function expectWellFormed(problems: readonly Problem[]): void {
  for (const problem of problems) {
    expect(problem.code).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
    expect(["fatal", "lost-part", "note"]).toContain(problem.weight);
    for (const text of [problem.where, problem.expected, problem.found]) expect(text.trim()).not.toBe("");
  }
}

function expectSound(recording: Recording, walked: Walked): void {
  expectWellFormed(recording.problems);
  for (const [number, channel] of recording.channels.entries()) {
    expect(channel.rate, `rate of ${channel.name}`).toBeGreaterThan(0);
    expect(Number.isFinite(channel.rate), `rate of ${channel.name}`).toBe(true);
    expect(Number.isFinite(channel.start), `start of ${channel.name}`).toBe(true);
    if (channel.samples !== null) expect(walked.lengths[number]).toBe(channel.samples);
  }
  let before = Number.NEGATIVE_INFINITY;
  for (const { time, duration } of recording.annotations) {
    expect(Number.isFinite(time)).toBe(true);
    expect(time).toBeGreaterThanOrEqual(before);
    if (duration !== null) expect(duration).toBeGreaterThanOrEqual(0);
    before = time;
  }
}

/** Opens and walks damaged files; whatever comes must be sound, or be told as a problem. */
async function survive(reader: Reader, fixture: ReaderFixture, files: Files, whole: Recording, size: number) {
  const recording = await opened(reader, fixture, files).recording;
  const fastest = Math.max(1, ...whole.channels.map(({ rate }) => rate));
  const most = size + longestPadding * fastest;
  const walked = await walk(recording, { keep: size, most });
  expectWellFormed(recording.problems);
  for (const channel of recording.channels) {
    expect(Number.isFinite(channel.rate) && channel.rate > 0, `rate ${channel.rate}`).toBe(true);
    expect(Number.isFinite(channel.start), `start ${channel.start}`).toBe(true);
  }
  return { recording, walked };
}

function strike(bytes: Uint8Array, at: number, value: number): Uint8Array {
  const struck = bytes.slice();
  struck[at] = (struck[at] ?? 0) ^ (value === 0 ? 255 : value);
  return struck;
}

/** The first `least` samples are there and, with all that follow up to `most`, equal to the whole's. */
function expectSamePart(
  got: Float64Array,
  whole: Float64Array,
  least: number,
  most: number,
  what: string,
): void {
  expect(got.length, `${what}: samples kept`).toBeGreaterThanOrEqual(least);
  const end = Math.min(got.length, whole.length, most);
  for (let n = 0; n < end; n++) {
    if (!Object.is(got[n], whole[n])) expect(got[n], `${what}: sample ${n}`).toBe(whole[n]);
  }
}

/** Runs the whole contract as tests of the calling file. */
export function describeReader(
  name: string,
  reader: Reader,
  fixtures: readonly ReaderFixture[],
  options: ContractOptions = {},
): void {
  describe(`${name}: what every reader promises`, () => {
    describe.each(fixtures.map((fixture) => ({ title: fixture.name, fixture })))("$title", ({ fixture }) => {
      describeWhole(reader, fixture, options);
      describeDamaged(reader, fixture);
    });
    describeNonsense(reader, fixtures);
    if (options.large !== undefined) describeLarge(reader, options.large, options);
  });
}

function describeWhole(reader: Reader, fixture: ReaderFixture, options: ContractOptions): void {
  const bytes = fixture.files[fixture.file] ?? new Uint8Array();

  test("is recognised by name and first bytes", () => {
    expect(reader.recognises(fixture.file, bytes.subarray(0, 4096))).toBe(true);
  });

  test("blocks join without holes, counts and annotations hold, nothing is fatal", async () => {
    const { recording, sources } = opened(reader, fixture);
    const read = await recording;
    expect(read.format).toBe(reader.format);
    const walked = await walk(read);
    expectSound(read, walked);
    expect(read.problems.filter(({ weight }) => weight === "fatal")).toEqual([]);
    expect(read.channels.length > 0).toBe(fixture.channels !== "none");
    expect(walked.blocks > 0).toBe(fixture.channels !== "none");
    if (options.readsWhole === undefined) {
      for (const { count } of sources) expect(count.largest).toBeLessThanOrEqual(largestRead);
    }
  });

  test("a second walk gives the same samples, problems and annotations, also after one broken off", async () => {
    const read = await opened(reader, fixture).recording;
    for await (const _ of read.blocks()) break;
    const first = await walk(read);
    const problems = structuredClone(read.problems);
    const annotations = structuredClone(read.annotations);
    const second = await walk(read);
    expect(second.values).toEqual(first.values);
    expect(read.problems).toEqual(problems);
    expect(read.annotations).toEqual(annotations);
  });

  test("a source that answers in crumbs gives the same samples", async () => {
    const whole = await opened(reader, fixture).recording;
    const crumbs = await opened(reader, fixture, fixture.files, 61).recording;
    expect(crumbs.channels).toEqual(whole.channels);
    expect((await walk(crumbs)).values).toEqual((await walk(whole)).values);
    expect(crumbs.problems).toEqual(whole.problems);
  });

  test("a channel alone has the samples it has among all", async () => {
    const read = await opened(reader, fixture).recording;
    const all = await walk(read);
    for (const number of read.channels.keys()) {
      const alone = await walk(read, { which: [number] });
      expect(alone.values[number]).toEqual(all.values[number]);
    }
    expect((await walk(read, { which: [] })).blocks).toBe(0);
  });

  test("a channel that is not there is the caller's mistake, thrown at once", async () => {
    const read = await opened(reader, fixture).recording;
    for (const stray of [read.channels.length, 99, -1, 0.5, Number.NaN]) {
      expectStray(read, [stray]);
      expectStray(read, [...read.channels.keys(), stray]);
    }
    expectStray(
      await opened(reader, fixture, { ...fixture.files, [fixture.file]: new Uint8Array() }).recording,
      [99],
    );
  });
}

function expectStray(recording: Recording, which: readonly number[]): void {
  let thrown: unknown = null;
  try {
    recording.blocks(which);
  } catch (error) {
    thrown = error;
  }
  expect(thrown, `channels ${which.join()}`).toBeInstanceOf(RecordingError);
  expect(thrown).toMatchObject({ code: "no-such-channel" });
}

function describeDamaged(reader: Reader, fixture: ReaderFixture): void {
  for (const [file, bytes] of Object.entries(fixture.files)) {
    const damage = fixture.damage?.find((one) => one.file === file);

    const compare = async (files: Files, at: number, what: string) => {
      const whole = await opened(reader, fixture).recording;
      const good = await walk(whole);
      const size = Math.max(0, ...good.lengths);
      const { recording, walked } = await survive(reader, fixture, files, whole, size);
      if (damage === undefined || at < damage.from) return recording;
      const kept = damage.kept?.(at);
      for (const [number, values] of good.values.entries()) {
        const least = Math.min(kept?.[number] ?? 0, values.length);
        const got = walked.values[number] ?? new Float64Array();
        const reach = kept === undefined ? got.length - (damage.edge ?? 0) : least;
        expectSamePart(got, values, least, reach, `${what}, channel ${number}`);
      }
      return recording;
    };

    test(`${file} cut anywhere: no crash, and the part before the cut is the same`, async () => {
      await fc.assert(
        fc.asyncProperty(fc.nat(Math.max(0, bytes.length - 1)), async (at) => {
          await compare({ ...fixture.files, [file]: bytes.slice(0, at) }, at, `cut at ${at}`);
        }),
        { seed, numRuns: 60, examples: [[0], [1], [bytes.length - 1], [Math.floor(bytes.length / 2)]] },
      );
    });

    test(`${file} with a byte struck: no crash, and the part before it is the same`, async () => {
      await fc.assert(
        fc.asyncProperty(
          fc.nat(Math.max(0, bytes.length - 1)),
          fc.integer({ min: 1, max: 255 }),
          async (at, value) => {
            const files = { ...fixture.files, [file]: strike(bytes, at, value) };
            if (damage?.noStrikes === undefined && damage?.kept !== undefined) {
              await compare(files, at, `struck at ${at}`);
              return;
            }
            const whole = await opened(reader, fixture).recording;
            await survive(reader, fixture, files, whole, Math.max(0, ...(await walk(whole)).lengths));
          },
        ),
        { seed, numRuns: 150 },
      );
    });

    test(`${file} missing or empty is told, not thrown`, async () => {
      const whole = await opened(reader, fixture).recording;
      const empty = { ...fixture.files, [file]: new Uint8Array() };
      const { recording } = await survive(reader, fixture, empty, whole, 1);
      if (!fixture.optional?.includes(file)) expect(recording.problems.length).toBeGreaterThan(0);
      if (file === fixture.file || fixture.optional?.includes(file)) return;
      const { [file]: _, ...others } = fixture.files;
      const lacking = await survive(reader, fixture, others, whole, 1);
      expect(lacking.recording.problems.length).toBeGreaterThan(0);
    });
  }
}

function describeNonsense(reader: Reader, fixtures: readonly ReaderFixture[]): void {
  test("random bytes under a fitting name give at least one problem", async () => {
    for (const { file } of fixtures) {
      const fixture = { name: "random bytes", file, files: {} };
      await fc.assert(
        fc.asyncProperty(fc.uint8Array({ maxLength: 3000 }), async (bytes) => {
          const { recording } = opened(reader, fixture, { [file]: bytes });
          const read = await recording;
          await walk(read, { keep: 0, most: 1e8 });
          expectWellFormed(read.problems);
          expect(read.problems.length).toBeGreaterThan(0);
        }),
        { seed, numRuns: 60 },
      );
    }
  });

  test("any name and any first bytes may be shown to `recognises`", () => {
    fc.assert(
      fc.property(fc.string(), fc.uint8Array({ maxLength: 600 }), (file, head) => {
        expect(typeof reader.recognises(file, head)).toBe("boolean");
      }),
      { seed },
    );
  });
}

function describeLarge(reader: Reader, make: () => ReaderFixture, options: ContractOptions): void {
  test("a large file is read in pieces", async () => {
    const fixture = make();
    const size = fixture.files[fixture.file]?.length ?? 0;
    expect(size).toBeGreaterThan(4 * largestRead);
    const { recording, sources } = opened(reader, fixture);
    const read = await recording;
    await walk(read, { keep: 0 });
    expect(read.problems.filter(({ weight }) => weight === "fatal")).toEqual([]);
    if (options.readsWhole !== undefined) return;
    for (const { count } of sources) expect(count.largest).toBeLessThanOrEqual(largestRead);
  });
}
