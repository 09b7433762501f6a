/**
 * Decodes one FLAC frame from bytes in memory, exactly, checked by both of its sums.
 *
 * @see RFC 9639, "Free Lossless Audio Codec (FLAC)", section 9
 */
import { type BitReader, createBitReader } from "./flac-bits.js";
import { decodeSubframe } from "./flac-subframe.js";

/** What the stream's first metadata block says. */
export interface FlacInfo {
  readonly smallestBlock: number;
  readonly largestBlock: number;
  readonly channels: number;
  readonly bits: number;
  /** Samples per channel; `null` when the writer didn't know. */
  readonly samples: number | null;
}

export interface FlacFrame {
  /** Bytes it took. */
  readonly bytes: number;
  /** Position in the stream of its first sample, per channel. */
  readonly first: number;
  /** Samples per channel. */
  readonly count: number;
}

const blockSizes = [0, 192, 576, 1152, 2304, 4608, 0, 0, 256, 512, 1024, 2048, 4096, 8192, 16_384, 32_768];
const sampleSizes = [0, 8, 12, -1, 16, 20, 24, 32];

/**
 * @param from where the frame begins
 * @param out  one array per channel, each with room for `largestBlock`; spoilt when the answer is `null`
 * @returns `null` if there is no whole and undamaged frame
 */
export function decodeFrame(
  bytes: Uint8Array,
  from: number,
  info: FlacInfo,
  out: readonly Int32Array[],
): FlacFrame | null {
  if (!isSync(bytes, from)) return null;
  const bits = createBitReader(bytes, from);
  bits.take(15);
  const variable = bits.take(1) === 1;
  const blockCode = bits.take(4);
  const rateCode = bits.take(4);
  const channelCode = bits.take(4);
  const sizeCode = bits.take(3);
  if (bits.take(1) !== 0 || blockCode === 0 || rateCode === 15 || channelCode > 10) return null;
  const number = codedNumber(bits);
  if (number === null) return null;
  const count =
    blockCode === 6
      ? bits.take(8) + 1
      : blockCode === 7
        ? bits.take(16) + 1
        : (blockSizes[blockCode] as number);
  bits.take(rateCode === 12 ? 8 : rateCode === 13 || rateCode === 14 ? 16 : 0);
  const headerEnd = bits.at / 8;
  if (bits.overrun || crc8(bytes, from, headerEnd) !== bits.take(8)) return null;
  const stereo = channelCode >= 8;
  const channels = stereo ? 2 : channelCode + 1;
  const size = sampleSizes[sizeCode] === 0 ? info.bits : sampleSizes[sizeCode];
  if (channels !== info.channels || size !== info.bits || count > info.largestBlock) return null;

  for (let c = 0; c < channels; c++) {
    // The difference of two channels needs one bit more.
    const wide =
      (channelCode === 8 && c === 1) || (channelCode === 9 && c === 0) || (channelCode === 10 && c === 1);
    if (!decodeSubframe(bits, info.bits + (wide ? 1 : 0), count, out[c] as Int32Array)) return null;
  }
  bits.skipToByte();
  const end = bits.at / 8;
  const sum = bits.take(16);
  if (bits.overrun || crc16(bytes, from, end) !== sum) return null;
  if (stereo) joinStereo(channelCode, count, out[0] as Int32Array, out[1] as Int32Array);
  return { bytes: end + 2 - from, first: variable ? number : number * info.smallestBlock, count };
}

/** Whether a frame could begin here. */
export function isSync(bytes: Uint8Array, at: number): boolean {
  return bytes[at] === 0xff && ((bytes[at + 1] ?? 0) & 0xfe) === 0xf8;
}

/** Left and side, side and right, or mid and side, in place. */
function joinStereo(code: number, count: number, a: Int32Array, b: Int32Array): void {
  for (let n = 0; n < count; n++) {
    const x = a[n] as number;
    const y = b[n] as number;
    if (code === 8) b[n] = x - y;
    else if (code === 9) a[n] = x + y;
    else {
      const twice = 2 * x + (y & 1);
      a[n] = (twice + y) >> 1;
      b[n] = (twice - y) >> 1;
    }
  }
}

/** Frame or sample number, one to seven bytes, written as UTF-8 extended to 36 bits. */
function codedNumber(bits: BitReader): number | null {
  const lead = bits.take(8);
  if (lead < 0x80) return lead;
  const ones = Math.clz32(~(lead << 24));
  if (ones < 2 || ones > 7) return null;
  let value = lead & (0x7f >> ones);
  for (let n = 1; n < ones; n++) {
    const next = bits.take(8);
    if ((next & 0xc0) !== 0x80) return null;
    value = value * 64 + (next & 0x3f);
  }
  return value;
}

function crcTable(width: 8 | 16, polynomial: number): Uint16Array {
  const table = new Uint16Array(256);
  const top = 1 << (width - 1);
  for (let n = 0; n < 256; n++) {
    let sum = n << (width - 8);
    for (let bit = 0; bit < 8; bit++) sum = sum & top ? (sum << 1) ^ polynomial : sum << 1;
    table[n] = sum & (2 * top - 1);
  }
  return table;
}

const table8 = crcTable(8, 0x07);
const table16 = crcTable(16, 0x8005);

function crc8(bytes: Uint8Array, from: number, to: number): number {
  let sum = 0;
  for (let n = from; n < to; n++) sum = table8[sum ^ (bytes[n] as number)] as number;
  return sum;
}

function crc16(bytes: Uint8Array, from: number, to: number): number {
  let sum = 0;
  for (let n = from; n < to; n++) {
    sum = ((sum << 8) & 0xffff) ^ (table16[(sum >> 8) ^ (bytes[n] as number)] as number);
  }
  return sum;
}
