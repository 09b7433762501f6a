/** Runs a recording to its end and puts the blocks back together, checking the joins on the way. */
import type { Block, Channel } from "../../model/index.js";
import type { Recording } from "../recording.js";

/** Samples one block may hold: 1 MiB of doubles. */
const largestBlock = 131_072;

export interface WalkLimits {
  /** Channel numbers, default all. */
  readonly which?: readonly number[];
  /** Samples kept per channel; the rest is checked and counted only. */
  readonly keep?: number;
  /** Samples per channel after which the walk gives up as endless. */
  readonly most?: number;
}

export interface Walked {
  /** Samples by channel number, at most `keep`; NaN is a missing one. Empty for channels not chosen. */
  readonly values: readonly Float64Array[];
  /** All samples seen, by channel number. */
  readonly lengths: readonly number[];
  readonly blocks: number;
}

class Gathered {
  private held = new Float64Array(1024);
  private kept = 0;
  length = 0;
  constructor(private readonly keep: number) {}
  add(values: Float64Array): void {
    this.length += values.length;
    const wanted = values.subarray(0, Math.max(0, this.keep - this.kept));
    if (this.kept + wanted.length > this.held.length) {
      const larger = new Float64Array(2 * (this.kept + wanted.length));
      larger.set(this.held.subarray(0, this.kept));
      this.held = larger;
    }
    this.held.set(wanted, this.kept);
    this.kept += wanted.length;
  }
  get values(): Float64Array {
    return this.held.slice(0, this.kept);
  }
}

/**
 * @throws {Error} where a block breaks the contract of `Block` and `Recording.blocks`: a hole or an
 *   overlap, an unknown or unchosen channel, an empty or oversized block, one channel running ahead
 */
export async function walk(recording: Recording, limits: WalkLimits = {}): Promise<Walked> {
  const { which, keep = Number.POSITIVE_INFINITY, most = Number.POSITIVE_INFINITY } = limits;
  const chosen = new Set(which ?? recording.channels.keys());
  const gathered = recording.channels.map(() => new Gathered(keep));
  const longest = recording.channels.map(() => 0);
  let blocks = 0;
  for await (const block of recording.blocks(which)) {
    const channel = recording.channels[block.channel];
    const sofar = gathered[block.channel];
    if (channel === undefined || sofar === undefined || !chosen.has(block.channel)) {
      throw new Error(`block of channel ${block.channel}, which was not asked for`);
    }
    checkJoin(block, sofar.length);
    longest[block.channel] = Math.max(longest[block.channel] ?? 0, block.values.length / channel.rate);
    checkSideBySide(recording.channels, chosen, gathered, longest, block);
    sofar.add(block.values);
    if (sofar.length > most) {
      throw new Error(`channel ${block.channel} doesn't end: ${sofar.length} samples`);
    }
    blocks += 1;
  }
  return { values: gathered.map((all) => all.values), lengths: gathered.map((all) => all.length), blocks };
}

function checkJoin(block: Block, expected: number): void {
  if (block.first !== expected) {
    throw new Error(`channel ${block.channel}: block starts at ${block.first}, expected ${expected}`);
  }
  if (block.values.length === 0 || block.values.length > largestBlock) {
    throw new Error(`channel ${block.channel}: block of ${block.values.length} samples`);
  }
}

/** No channel may start a block while another, not yet at its end, is more than a block behind. */
function checkSideBySide(
  channels: readonly Channel[],
  chosen: ReadonlySet<number>,
  gathered: readonly Gathered[],
  longest: readonly number[],
  block: Block,
): void {
  const own = channels[block.channel];
  if (own === undefined) return;
  const begins = own.start + block.first / own.rate;
  for (const other of chosen) {
    const channel = channels[other];
    const count = gathered[other]?.length ?? 0;
    if (channel === undefined || channel.samples === null || count >= channel.samples) continue;
    const slack = 1 + Math.max(...longest) + 1 / channel.rate + Math.max(0, channel.start - own.start);
    if (channel.start + count / channel.rate < begins - slack) {
      throw new Error(`channel ${block.channel} is at ${begins} s while channel ${other} lags`);
    }
  }
}
