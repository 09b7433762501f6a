/** Numbers of a variable in order, a run at a time. */
import type { Variable } from "./variable.js";

export interface NumberStream {
  /** Fills `out`; NaN where the file has no more numbers. */
  fill(out: Float64Array): Promise<void>;
}

/** @param first numbers passed over before the first one given */
export async function openNumbers(variable: Variable, first: number): Promise<NumberStream> {
  const { storage, littleEndian, held } = variable;
  const stream = await variable.open();
  await stream.skip(first * storage.bytes);
  let at = first;
  return {
    async fill(out) {
      const wanted = Math.max(0, Math.min(out.length, held - at));
      const bytes = await stream.read(wanted * storage.bytes);
      const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
      const count = Math.floor(bytes.length / storage.bytes);
      for (let n = 0; n < count; n++) out[n] = storage.read(view, n * storage.bytes, littleEndian);
      out.fill(Number.NaN, count);
      at += count;
    },
  };
}
