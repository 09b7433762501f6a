/** Makes WFDB files in memory, by bit strings where the reader shifts and masks. */

import type { ReadOptions } from "../../recording.js";
import { memoryFolder, memorySource } from "../../testing/memory-source.js";
import { walk } from "../../testing/walk.js";
import { wfdbReader } from "../reader.js";

export const plainFormats = [8, 16, 24, 32, 61, 80, 160, 212, 310, 311] as const;

/** Bits of a stored number, and what is added to make it positive. */
const widths: Readonly<Record<number, readonly [number, number]>> = {
  8: [8, 0],
  16: [16, 0],
  24: [24, 0],
  32: [32, 0],
  61: [16, 0],
  80: [8, 128],
  160: [16, 32_768],
  212: [12, 0],
  310: [10, 0],
  311: [10, 0],
};

export const widthOf = (format: number) => widths[format]?.[0] ?? 16;

/** Samples in the order of the file to bytes. Format 8: the samples are steps already. */
export function pack(format: number, samples: readonly number[]): Uint8Array {
  const [width, plus] = widths[format] ?? [16, 0];
  const bits = (value: number | undefined) =>
    BigInt.asUintN(width, BigInt((value ?? 0) + plus))
      .toString(2)
      .padStart(width, "0");
  const bytes: number[] = [];
  const put = (text: string) => bytes.push(Number.parseInt(text, 2));
  const little = (text: string, most: number) => {
    for (let end = text.length, n = 0; end > 0 && n < most; end -= 8, n++) put(text.slice(end - 8, end));
  };
  const step = format === 212 ? 2 : format === 310 || format === 311 ? 3 : 1;
  for (let n = 0; n < samples.length; n += step) {
    const there = Math.min(step, samples.length - n);
    const [a, b, c] = [bits(samples[n]), bits(samples[n + 1]), bits(samples[n + 2])];
    if (format === 212) little(b.slice(4) + b.slice(0, 4) + a, 3 - (there === 1 ? 1 : 0));
    else if (format === 310) little(`${c.slice(0, 5)}${b}0${c.slice(5)}${a}0`, there === 1 ? 2 : 4);
    else if (format === 311) little(`00${c}${b}${a}`, there + 1);
    else if (format === 61) for (const part of [a.slice(0, 8), a.slice(8)]) put(part);
    else little(a, 4);
  }
  return Uint8Array.from(bytes);
}

export type Files = Readonly<Record<string, Uint8Array | string>>;

export function bytesOf(files: Files): Record<string, Uint8Array> {
  return Object.fromEntries(
    Object.entries(files).map(([name, body]) => [
      name,
      typeof body === "string" ? Uint8Array.from(Buffer.from(body, "utf8")) : body,
    ]),
  );
}

/** Opens the first file among the others and walks it. */
export async function readFiles(files: Files, options?: ReadOptions, which?: readonly number[]) {
  const sources = Object.entries(bytesOf(files)).map(([name, bytes]) => memorySource(name, bytes));
  const recording = await wfdbReader.open(sources[0]!, memoryFolder(sources), options);
  const { values } = await walk(recording, which === undefined ? {} : { which });
  return {
    recording,
    values: values.map((all) => [...all]),
    codes: recording.problems.map(({ code, weight }) => `${code} ${weight}`),
  };
}
