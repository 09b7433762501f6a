/** A signal file that holds a FLAC stream, one signal per channel, as a stream of raw numbers. */
import { excerpt } from "../../model/index.js";
import type { ProblemLog } from "../problem-log.js";
import { readFully } from "../read-fully.js";
import type { ByteSource } from "../recording.js";
import { decodeFrame, type FlacFrame, type FlacInfo, isSync } from "./flac-frame.js";
import type { SignalLine } from "./header-fields.js";
import { flacFormats, invalidCode } from "./sample-format.js";
import type { RawStream, SignalFile } from "./signal-file.js";

const piece = 1 << 17;
/** A frame that could take more is refused: recorders use blocks of some thousand samples. */
const largestFrame = 1 << 21;
/** Samples lost to damage that are filled in, at most. */
const longestHole = 2 ** 26;

/** @returns `null` after a problem */
export async function openFlac(
  source: ByteSource,
  lines: readonly SignalLine[],
  offset: number,
  log: ProblemLog,
): Promise<SignalFile | null> {
  const where = `file ${excerpt(source.name)}`;
  const opened = await readInfo(source, offset);
  const refuse = (code: string, expected: string, found: string) => {
    log.add(code, "lost-part", where, expected, found);
    return null;
  };
  if (opened === null)
    return refuse("flac-header", "a FLAC stream", "other bytes; convert the record to format 16");
  const { info, audio } = opened;
  const { format, samplesPerFrame } = lines[0] as SignalLine;
  const size = flacFormats.get(format) ?? 16;
  if (info.channels !== lines.length || info.bits !== size) {
    const expected = `${lines.length} channels of ${size} bits as the header says`;
    return refuse("flac-channels", expected, `${info.channels} of ${info.bits} bits`);
  }
  if (lines.some((line) => line.samplesPerFrame !== samplesPerFrame)) {
    return refuse("flac-channels", "one rate in one FLAC stream", "signals of several rates");
  }
  if (info.smallestBlock < 1 || info.largestBlock < info.smallestBlock || frameRoom(info) > largestFrame) {
    const found = `blocks of ${info.largestBlock} samples; convert the record to format 16`;
    return refuse("flac-frame-size", `frames of at most ${largestFrame} bytes`, found);
  }
  const perFrame = lines.length * samplesPerFrame;
  return {
    name: source.name,
    format,
    perFrame,
    frames: info.samples === null ? null : Math.floor(info.samples / samplesPerFrame),
    odd: info.samples === null ? 0 : (info.samples % samplesPerFrame) * lines.length,
    padding: 0,
    start: () => flacStream(source, audio, info, samplesPerFrame, invalidCode(format) ?? 0, where, log),
  };
}

/** Bytes a frame may take: four per sample is more than any sane encoder writes. */
function frameRoom(info: FlacInfo): number {
  return 1024 + info.channels * (info.largestBlock * 4 + 64);
}

/** The stream's facts and where its frames begin. */
async function readInfo(
  source: ByteSource,
  offset: number,
): Promise<{ info: FlacInfo; audio: number } | null> {
  const head = await readFully(source, offset, 42);
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  // "fLaC", then a block of type 0 with 34 bytes.
  if (head.length < 42 || view.getUint32(0) !== 0x664c6143) return null;
  if ((view.getUint8(4) & 0x7f) !== 0 || (view.getUint32(4) & 0xffffff) !== 34) return null;
  const packed = view.getUint32(18);
  const samples = (view.getUint8(21) & 15) * 2 ** 32 + view.getUint32(22);
  const info = {
    smallestBlock: view.getUint16(8),
    largestBlock: view.getUint16(10),
    channels: ((packed >> 9) & 7) + 1,
    bits: ((packed >> 4) & 31) + 1,
    samples: samples === 0 ? null : samples,
  };
  let audio = offset + 42;
  for (let last = view.getUint8(4) >= 128, blocks = 0; !last; blocks++) {
    const block = await readFully(source, audio, 4);
    if (block.length < 4 || blocks > 1000) return null;
    last = (block[0] as number) >= 128;
    audio += 4 + (((block[1] as number) << 16) | ((block[2] as number) << 8) | (block[3] as number));
  }
  return { info, audio };
}

function flacStream(
  source: ByteSource,
  audio: number,
  info: FlacInfo,
  samplesPerFrame: number,
  invalid: number,
  where: string,
  log: ProblemLog,
): RawStream {
  const block = Array.from({ length: info.channels }, () => new Int32Array(info.largestBlock));
  const frames = createFrames(source, audio, info, block, where, log);
  /** Next sample wanted, per channel. */
  let at = 0;
  let frame: FlacFrame | null = null;
  const perFrame = samplesPerFrame * info.channels;
  return {
    async next(count, out) {
      const end = at + count * samplesPerFrame;
      const begin = at;
      while (at < end) {
        while (frame === null || at >= frame.first + frame.count) {
          frame = await frames.next(at);
          if (frame === null) {
            const whole = Math.floor((at - begin) / samplesPerFrame);
            return whole * perFrame;
          }
        }
        const until = Math.min(end, at < frame.first ? frame.first : frame.first + frame.count);
        for (; at < until; at++) {
          const k = at - begin;
          const base = Math.floor(k / samplesPerFrame) * perFrame + (k % samplesPerFrame);
          for (let c = 0; c < info.channels; c++) {
            const value = at < frame.first ? invalid : (block[c]?.[at - frame.first] as number);
            out[base + c * samplesPerFrame] = value;
          }
        }
      }
      return count * perFrame;
    },
  };
}

/** Frames one after the other; damaged ones are told and passed over. */
function createFrames(
  source: ByteSource,
  audio: number,
  info: FlacInfo,
  block: readonly Int32Array[],
  where: string,
  log: ProblemLog,
): { next(due: number): Promise<FlacFrame | null> } {
  const space = frameRoom(info);
  let held = new Uint8Array();
  /** Place in the source of `held`, and of what is used of it. */
  let from = audio;
  let used = 0;
  const refill = async () => {
    while (held.length - used < space && from + held.length < source.size) {
      const more = await readFully(source, from + held.length, piece);
      if (more.length === 0) return;
      const joined = new Uint8Array(held.length - used + more.length);
      joined.set(held.subarray(used));
      joined.set(more, held.length - used);
      from += used;
      used = 0;
      held = joined;
    }
  };
  return {
    async next(due) {
      let damaged = false;
      for (;;) {
        await refill();
        if (used >= held.length) return null;
        if (info.samples !== null && due >= info.samples) return null;
        const frame = decodeFrame(held, used, info, block);
        if (frame !== null && frame.first >= due && frame.first - due <= longestHole) {
          used += frame.bytes;
          return frame;
        }
        if (!damaged) {
          const place = `${where}, byte ${from + used}`;
          const found = "damaged bytes; samples up to the next whole frame are missing";
          log.add("flac-frame", "lost-part", place, `the frame of sample ${due}`, found);
          damaged = true;
        }
        used += 1;
        while (used < held.length && !isSync(held, used)) used += 1;
      }
    },
  };
}
