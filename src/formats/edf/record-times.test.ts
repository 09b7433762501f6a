// Record times and notes: EDF+ specification, sections 2.2.2 to 2.2.4. Values follow from the ramps put in.
import { describe, expect, test } from "vitest";
import { type TestFile, tals } from "./testing/edf-file.js";
import { annotations, pleth, ramp, readEdf as read } from "./testing/read-edf.js";

describe("times of records", () => {
  const timed = (reserved: string, times: (string | null)[]): TestFile => ({
    reserved,
    signals: [pleth, annotations],
    body: times.map((time, k) => [ramp(k), time === null ? "" : tals(time)]),
  });
  const nan = (count: number) => new Array<number>(count).fill(Number.NaN);

  test("EDF+D: one stamp that the next takes back moves nothing", async () => {
    const { values, recording } = await read(timed("EDF+D", ["+0", "+1", "+82", "+3"]));
    expect(values[0]).toEqual([0, 1, 2, 3].flatMap(ramp));
    expect(recording.problems).toMatchObject([{ code: "record-time", where: "a.edf, record 3" }]);
  });

  test("EDF+D: a record that runs back loses only the samples whose time is taken", async () => {
    const { values, recording } = await read(timed("EDF+D", ["+0", "+1", "+1.5", "+2.5"]));
    expect(values[0]).toEqual([...ramp(0), ...ramp(1), 10, 11, ...ramp(3)]);
    expect(recording.problems).toMatchObject([{ code: "records-overlap", weight: "lost-part" }]);
  });

  test("EDF+D: what was dropped once is not dropped again after a pause", async () => {
    const { values } = await read(timed("EDF+D", ["+0", "+0.5", "+3", "+4"]));
    expect(values[0]).toEqual([...ramp(0), 6, 7, ...nan(6), ...ramp(2), ...ramp(3)]);
  });

  test("EDF+D: a record begins at the sample nearest to its time", async () => {
    const { values } = await read(timed("EDF+D", ["+0", "+1.40", "+2.40"]));
    expect(values[0]).toEqual([...ramp(0), ...nan(2), ...ramp(1), ...ramp(2)]);
  });

  test("EDF+D: a pause of many blocks is filled to its end, all channels side by side", async () => {
    const slow = { label: "SpO2", samples: 1 };
    const body = ["+0", "+100000"].map((time) => [ramp(0), [97], tals(time)]);
    const { values, codes } = await read({ reserved: "EDF+D", signals: [pleth, slow, annotations], body });
    expect(values.map(({ length }) => length)).toEqual([400_004, 100_001]);
    expect(values[1]?.filter((value) => !Number.isNaN(value))).toEqual([97, 97]);
    expect(codes).toEqual(["gap"]);
  });

  test("EDF+D: samples move to their stated time once the clocks are a tenth of a second apart", async () => {
    const fast = { label: "Pleth", samples: 40 };
    const body = Array.from({ length: 200 }, (_, k) => [[k], tals(`+${(k * 1.0009).toFixed(4)}`)]);
    const { values, codes } = await read({ reserved: "EDF+D", signals: [fast, annotations], body });
    // 112 steps of 0.9 ms are the first beyond 0.1 s: 0.1008 s, four samples. The other 87 stay below it.
    expect(values[0]).toHaveLength(8004);
    expect(values[0]?.slice(112 * 40 - 1, 112 * 40 + 5)).toEqual([0, ...nan(4), 112]);
    expect(codes).toEqual(["gap"]);
  });

  test("EDF+D: an unreadable stamp follows on", async () => {
    const { values, codes } = await read(timed("EDF+D", ["+0", "+4", null, "+6"]));
    expect(values[0]).toEqual([...ramp(0), ...nan(12), ...[1, 2, 3].flatMap(ramp)]);
    expect(codes).toEqual(["gap", "record-time"]);
  });

  test("EDF+D: more than a week of silence is damage and ends the reading", async () => {
    const { values, codes } = await read(timed("EDF+D", ["+0", "+1", "+604803", "+604804"]));
    expect(values[0]).toEqual([0, 1].flatMap(ramp));
    expect(codes).toEqual(["gap-too-long"]);
  });

  test("EDF+D: slow drift between stamps and samples is not a gap", async () => {
    const times = Array.from({ length: 20 }, (_, k) => `+${(k * 1.0005).toFixed(4)}`);
    const { values, codes } = await read(timed("EDF+D", times));
    expect(values[0]).toHaveLength(80);
    expect(codes).toEqual([]);
  });

  test("EDF+C: records stay joined whatever their stamps, but a jump is told", async () => {
    const { values, recording } = await read(timed("EDF+C", ["+0", "+1", "+9", "+10"]));
    expect(values[0]).toEqual([0, 1, 2, 3].flatMap(ramp));
    expect(recording.problems).toMatchObject([{ code: "record-time", weight: "lost-part" }]);
  });

  test("EDF+D without annotations is told", async () => {
    const { codes } = await read({ reserved: "EDF+D", signals: [pleth], body: [[ramp(0)]] });
    expect(codes).toEqual(["no-record-times"]);
  });

  test("notes count from the first sample and are in order", async () => {
    const { recording } = await read({
      reserved: "EDF+C",
      signals: [pleth, annotations],
      body: [
        [ramp(0), tals("+0.5", "+1.75\x151.5\x14late\x14")],
        [ramp(1), tals("+1.5", "+0.75\x14early\x14")],
      ],
    });
    expect(recording.annotations).toEqual([
      { time: 0.25, duration: null, kind: "note", text: "early" },
      { time: 1.25, duration: 1.5, kind: "note", text: "late" },
    ]);
    expect(recording.startedAt).toBe("2024-03-02T10:20:30.500");
  });
});
