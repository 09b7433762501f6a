/** Makes MAT-files of level 5 in memory: little-endian, doubles, one variable after the other. */
import { zlibSync } from "fflate";

export interface Made {
  readonly name: string;
  readonly rows: number;
  readonly columns: number;
  /** Column after column. */
  readonly numbers: readonly number[];
  readonly compressed?: boolean;
  /** Sizes to write instead of the true ones. */
  readonly claim?: readonly [number, number];
}

function element(type: number, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(8 + Math.ceil(data.length / 8) * 8);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, type, true);
  view.setUint32(4, data.length, true);
  bytes.set(data, 8);
  return bytes;
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

/** @param spoil changes the compressed bytes of each variable */
export function matFile(variables: readonly Made[], spoil = (packed: Uint8Array) => packed): Uint8Array {
  const header = new Uint8Array(128).fill(32);
  header.set(new TextEncoder().encode("MATLAB 5.0 MAT-file, made for a test"));
  header.set([0, 1, 0x49, 0x4d], 124);
  const parts: Uint8Array[] = [header];
  for (const { name, rows, columns, numbers, compressed, claim } of variables) {
    const flags = new Uint8Array(Uint32Array.of(6, 0).buffer);
    const sizes = new Uint8Array(Int32Array.of(...(claim ?? [rows, columns])).buffer);
    const values = new Uint8Array(Float64Array.from(numbers).buffer);
    const matrix = element(
      14,
      joined([
        element(6, flags),
        element(5, sizes),
        element(1, new TextEncoder().encode(name)),
        element(9, values),
      ]),
    );
    if (compressed !== true) parts.push(matrix);
    else {
      const packed = spoil(zlibSync(matrix));
      const tag = new Uint8Array(Uint32Array.of(15, packed.length).buffer);
      parts.push(tag, packed);
    }
  }
  return joined(parts);
}
