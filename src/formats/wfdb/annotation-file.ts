/**
 * Annotation files in MIT format: byte pairs of a 6-bit code and a 10-bit step in time, with
 * modifiers for longer steps and for text.
 *
 * @see "WFDB Applications Guide", annot(5); notes at time 0 that begin with `##` carry the time
 *   resolution and names of user-defined codes ("WFDB Programmer's Guide", setiafreq and setannstr)
 */
import { excerpt } from "../../model/index.js";
import { textOf } from "../file-text.js";
import type { ProblemLog } from "../problem-log.js";
import { readFully } from "../read-fully.js";
import type { ByteSource } from "../recording.js";
import { beatCodes, mnemonics, modifiers, noteCode } from "./annotation-codes.js";

export interface Mark {
  /** In ticks of the file's own clock. */
  readonly tick: number;
  readonly code: number;
  readonly mnemonic: string;
  readonly beat: boolean;
  /** Text that goes with it; `""` if none. */
  readonly aux: string;
}

export interface AnnotationFile {
  readonly marks: readonly Mark[];
  /** Ticks per second if the file states it; `null` means frames of the record. */
  readonly resolution: number | null;
}

/** Marks kept: ten days of beats. A file with more is damaged or hostile. */
const mostMarks = 1_000_000;
const piece = 1 << 18;

/** @returns `null` after a problem: not in MIT format */
export async function readAnnotationFile(
  source: ByteSource,
  log: ProblemLog,
): Promise<AnnotationFile | null> {
  const bytes = createPairs(source);
  if (await looksLikeAha(source)) {
    const found = "16-byte entries of the AHA format; not read. Convert the file to MIT format";
    log.add("annotation-format", "lost-part", source.name, "annotations in MIT format", found);
    return null;
  }
  const marks: { tick: number; code: number; aux: string }[] = [];
  let tick = 0;
  let ended = false;
  let damaged = 0;
  for (;;) {
    const pair = await bytes.pair();
    if (pair === null || pair === 0) {
      ended = pair === 0;
      break;
    }
    const code = pair >> 10;
    const step = pair & 1023;
    if (code === modifiers.skip) {
      const high = await bytes.pair();
      const low = await bytes.pair();
      if (high === null || low === null) break;
      tick += (high << 16) | low;
    } else if (code === modifiers.aux) {
      const aux = await bytes.text(step);
      if (aux === null) break;
      const last = marks.at(-1);
      if (last !== undefined) last.aux = aux;
      else damaged += 1;
    } else if (code < modifiers.skip) {
      tick += step;
      // Code 0 is no annotation; writers use it to step back in time.
      if (code === 0) continue;
      if (!mnemonics.has(code) && !(code >= 42 && code <= 49)) damaged += 1;
      if (marks.length >= mostMarks) {
        const expected = `at most ${mostMarks} annotations`;
        log.add("annotations-too-many", "lost-part", source.name, expected, "more; the rest is not read");
        ended = true;
        break;
      }
      marks.push({ tick, code, aux: "" });
    }
  }
  if (!ended) {
    const found = `the file ends after ${marks.length} annotations`;
    log.add("annotations-cut", "lost-part", source.name, "a pair of zero bytes at the end", found);
  }
  if (damaged > 0) {
    const expected = "codes that the format knows";
    log.add(
      "annotation-code",
      "lost-part",
      source.name,
      expected,
      `${damaged} that it doesn't; kept as they are`,
    );
  }
  return withNames(marks);
}

interface Pairs {
  /** Next two bytes as a number from 0 to 65535; `null` at the end. */
  pair(): Promise<number | null>;
  /** Next `length` bytes and the byte that makes them even. */
  text(length: number): Promise<string | null>;
}

function createPairs(source: ByteSource): Pairs {
  let held = new Uint8Array();
  let used = 0;
  let offset = 0;
  const ensure = async (count: number) => {
    if (held.length - used >= count) return true;
    const more = await readFully(source, offset, Math.min(piece, Math.max(0, source.size - offset)));
    offset += more.length;
    const joined = new Uint8Array(held.length - used + more.length);
    joined.set(held.subarray(used));
    joined.set(more, held.length - used);
    held = joined;
    used = 0;
    return held.length >= count;
  };
  return {
    async pair() {
      if (held.length - used < 2 && !(await ensure(2))) return null;
      const value = (held[used] as number) | ((held[used + 1] as number) << 8);
      used += 2;
      return value;
    },
    async text(length) {
      if (!(await ensure(length))) return null;
      const value = textOf(held, used, used + length);
      used += length + (length & 1);
      if (used > held.length) {
        held = new Uint8Array();
        used = 0;
      }
      return value.replaceAll("\0", " ").trim();
    },
  };
}

/** Entries of 16 bytes: an unused byte, then a letter. In MIT format the second byte of a file is a code above 0. */
async function looksLikeAha(source: ByteSource): Promise<boolean> {
  if (source.size === 0 || source.size % 16 !== 0) return false;
  const head = await readFully(source, 0, Math.min(source.size, 64));
  for (let n = 0; n < head.length; n += 16) {
    if (head[n] !== 0 || !"NVFREBPQOU[]SATt+~|".includes(String.fromCharCode(head[n + 1] ?? 0))) return false;
  }
  // The same bytes could be two or three MIT annotations of 0 ticks; an AHA serial number counts up from 1.
  return head[6] === 1 && head[7] === 0;
}

/** Takes out the notes that define things, and puts names to codes. */
function withNames(raw: readonly { tick: number; code: number; aux: string }[]): AnnotationFile {
  const own = new Map<number, string>();
  const marks: Mark[] = [];
  let resolution: number | null = null;
  let defining = false;
  for (const { tick, code, aux } of raw) {
    if (code === noteCode && tick === 0 && (defining || aux.startsWith("## "))) {
      const rate = Number(/^## time resolution:\s*([\d.]+)/.exec(aux)?.[1]);
      if (rate > 0 && Number.isFinite(rate)) resolution = rate;
      if (aux.startsWith("## annotation type definitions")) defining = true;
      else if (aux.startsWith("## end of definitions")) defining = false;
      else if (defining) {
        const definition = /^(\d{1,2})\s+(\S{1,20})/.exec(aux);
        if (definition !== null) own.set(Number(definition[1]), definition[2]!);
      } else if (resolution === null || !aux.startsWith("## time resolution")) {
        marks.push({ tick, code, mnemonic: '"', beat: false, aux: excerpt(aux, 200) });
      }
      continue;
    }
    const mnemonic = own.get(code) ?? mnemonics.get(code) ?? `[${code}]`;
    // A redefined code may mean anything.
    const beat = beatCodes.has(code) && !own.has(code);
    marks.push({ tick, code, mnemonic, beat, aux: excerpt(aux, 200) });
  }
  return { marks, resolution };
}
