/**
 * How samples are packed in WFDB signal files, as rows. A unit is the least run of bytes that holds
 * whole samples. Compressed formats (508, 516, 524) have their own decoder and only a row of facts here.
 *
 * @see "WFDB Applications Guide", signal(5)
 */

export interface SampleFormat {
  readonly unitBytes: number;
  readonly unitSamples: number;
  /** Stored value that stands for "no sample"; `null` where the format has none. */
  readonly invalid: number | null;
  /** Whole samples in `bytes` bytes, fewer than a unit. */
  readonly partial: (bytes: number) => number;
  /** Decodes `units` units from the start of `bytes` into the start of `out`. */
  readonly decode: (bytes: Uint8Array, units: number, out: Int32Array) => void;
}

const none = () => 0;
const at = (bytes: Uint8Array, n: number) => bytes[n] as number;
const pair = (bytes: Uint8Array, n: number) => at(bytes, n) | (at(bytes, n + 1) << 8);
/** The lowest `bits` bits as a two's complement number. */
const signed = (value: number, bits: number) => (value << (32 - bits)) >> (32 - bits);

function whole(width: number, invalid: number | null, read: (bytes: Uint8Array, n: number) => number) {
  return {
    unitBytes: width,
    unitSamples: 1,
    invalid,
    partial: none,
    decode(bytes: Uint8Array, units: number, out: Int32Array) {
      for (let n = 0; n < units; n++) out[n] = read(bytes, n * width);
    },
  };
}

/** Format 8 holds differences: `decode` hands them over as they are, sums are the stream's business. */
export const differences = 8;

export const sampleFormats: ReadonlyMap<number, SampleFormat> = new Map<number, SampleFormat>([
  [8, whole(1, null, (bytes, n) => signed(at(bytes, n), 8))],
  [16, whole(2, -32_768, (bytes, n) => signed(pair(bytes, n), 16))],
  [24, whole(3, -8_388_608, (bytes, n) => signed(pair(bytes, n) | (at(bytes, n + 2) << 16), 24))],
  [32, whole(4, -2_147_483_648, (bytes, n) => pair(bytes, n) | (pair(bytes, n + 2) << 16))],
  [61, whole(2, -32_768, (bytes, n) => signed((at(bytes, n) << 8) | at(bytes, n + 1), 16))],
  [80, whole(1, -128, (bytes, n) => at(bytes, n) - 128)],
  [160, whole(2, -32_768, (bytes, n) => pair(bytes, n) - 32_768)],
  [
    212,
    {
      unitBytes: 3,
      unitSamples: 2,
      invalid: -2048,
      partial: (bytes) => (bytes === 2 ? 1 : 0),
      decode(bytes, units, out) {
        for (let u = 0, n = 0; u < units; u++, n += 3) {
          const middle = at(bytes, n + 1);
          out[2 * u] = signed(at(bytes, n) | (middle << 8), 12);
          out[2 * u + 1] = signed(at(bytes, n + 2) | ((middle & 0xf0) << 4), 12);
        }
      },
    },
  ],
  [
    310,
    {
      unitBytes: 4,
      unitSamples: 3,
      invalid: -512,
      partial: (bytes) => (bytes >= 2 ? 1 : 0),
      decode(bytes, units, out) {
        for (let u = 0; u < units; u++) {
          const low = pair(bytes, 4 * u);
          const high = pair(bytes, 4 * u + 2);
          out[3 * u] = signed(low >> 1, 10);
          out[3 * u + 1] = signed(high >> 1, 10);
          out[3 * u + 2] = signed((low >> 11) | ((high >> 11) << 5), 10);
        }
      },
    },
  ],
  [
    311,
    {
      unitBytes: 4,
      unitSamples: 3,
      invalid: -512,
      partial: (bytes) => Math.max(0, bytes - 1),
      decode(bytes, units, out) {
        for (let u = 0; u < units; u++) {
          const all = pair(bytes, 4 * u) | (pair(bytes, 4 * u + 2) << 16);
          out[3 * u] = signed(all, 10);
          out[3 * u + 1] = signed(all >> 10, 10);
          out[3 * u + 2] = signed(all >> 20, 10);
        }
      },
    },
  ],
]);

/** Bits per sample of the formats that hold a FLAC stream. */
export const flacFormats: ReadonlyMap<number, 8 | 16 | 24> = new Map([
  [508, 8],
  [516, 16],
  [524, 24],
]);

/** Stored value that stands for "no sample". */
export function invalidCode(format: number): number | null {
  const bits = flacFormats.get(format);
  return bits === undefined ? (sampleFormats.get(format)?.invalid ?? null) : -(2 ** (bits - 1));
}

/** Samples in a file part of `bytes` bytes. */
export function samplesIn(format: SampleFormat, bytes: number): number {
  const units = Math.floor(bytes / format.unitBytes);
  return units * format.unitSamples + format.partial(bytes - units * format.unitBytes);
}
