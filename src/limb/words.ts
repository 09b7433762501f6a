/** Plain words for sites and verdicts. Names sides only when they were given (S4). */
import { type Estimate, type Millis, type Site, siteName } from "../model/index.js";
import type { ComparisonReason, Verdict } from "./comparison.js";

/** Two significant digits, or whole numbers from 10 on. */
export function figure(value: number): string {
  if (!Number.isFinite(value)) return "unknown";
  return Math.abs(value) >= 10 ? String(Math.round(value)) : String(Number(value.toPrecision(2)));
}

/** `56 ms (53 to 60) before`, `between 2 ms before and 8 ms after`: whole milliseconds, no minus signs to trip over. */
export function latenessWords({ value, low, high }: Estimate<Millis>): string {
  const size = (ms: number) => String(Math.round(Math.abs(ms)));
  if (low < 0 && high >= 0) return `between ${size(low)} ms before and ${size(high)} ms after`;
  const [near, far] = Math.abs(low) <= Math.abs(high) ? [low, high] : [high, low];
  return `${size(value)} ms (${size(near)} to ${size(far)}) ${value < 0 ? "before" : "after"}`;
}

/** Words for a site at two times, where there is no sound side: nothing may call its first reading one. */
export function rolesOf(
  sound: Site | null,
  suspect: Site | null,
): { readonly sound: string; readonly suspect: string } {
  const one =
    sound !== null && suspect !== null && sound.side === suspect.side && sound.digit === suspect.digit;
  return one ? { sound: "first reading", suspect: "later" } : { sound: "sound", suspect: "suspect" };
}

export interface Names {
  readonly sound: string;
  readonly suspect: string;
  /** The sound side after the suspect side was named: "the right". */
  readonly other: string;
  /** The same with its preposition: "at the right". */
  readonly atOther: string;
}

/**
 * "the left middle finger" and "the right"; "the suspect side" where no site was given.
 * One site at two times is its own reference: "its own first reading".
 */
export function namesOf(sound: Site | null, suspect: Site | null): Names {
  const soundName = sound === null ? "the sound side" : `the ${siteName(sound)}`;
  const suspectName = suspect === null ? "the suspect side" : `the ${siteName(suspect)}`;
  const sameDigit = sound !== null && suspect !== null && sound.digit === suspect.digit;
  if (sameDigit && sound.side === suspect.side) {
    const first = "its own first reading";
    return { sound: first, suspect: suspectName, other: first, atOther: `in ${first}` };
  }
  const other = sameDigit ? `the ${sound.side}` : soundName;
  return { sound: soundName, suspect: suspectName, other, atOther: `at ${other}` };
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

export interface Spoken {
  readonly sound: Site | null;
  readonly suspect: Site | null;
  readonly reasons: readonly ComparisonReason[];
  readonly ratio: number | null;
  readonly delay: number | null;
  readonly amplitudeCompared: boolean;
  readonly timingCompared: boolean;
  readonly cannotSee: readonly string[];
  readonly marks: readonly string[];
}

/** The one sentence that answers, with marks (S6) before it and, for `no-difference`, its limits after it (S1). */
export function sentenceOf(verdict: Verdict, said: Spoken): string {
  const names = namesOf(said.sound, said.suspect);
  const marked = said.marks.length > 0 ? `${capital(said.marks.join("; "))}: ` : "";
  return marked + capitalUnlessMarked(answer(verdict, names, said), marked);
}

function capitalUnlessMarked(text: string, marked: string): string {
  return marked === "" ? capital(text) : text;
}

function answer(verdict: Verdict, names: Names, said: Spoken): string {
  switch (verdict) {
    case "absent":
      return `no pulse wave at ${names.suspect}; ${names.other} has one.`;
    case "weaker":
      return said.ratio === null
        ? `the pulse wave at ${names.suspect} is too small to see beat by beat; ${names.other} has a clear one.`
        : `the pulse wave at ${names.suspect} is weaker: ${figure(said.ratio)} of the size ${names.atOther}.`;
    case "later":
      return said.delay === null
        ? `the pulse wave at ${names.suspect} comes later than ${names.atOther}.`
        : `the pulse wave at ${names.suspect} comes ${figure(said.delay)} ms later than ${names.atOther}.`;
    case "both-weak":
      return `weak pulse waves at ${names.suspect} and ${names.atOther}: neither can serve as the sound side.`;
    case "no-difference":
      return `no side difference found ${scope(said)} between ${names.suspect} and ${names.other}. This cannot see ${said.cannotSee.join("; ")}.`;
    case "cannot-tell":
      return `cannot tell: ${said.reasons[0]?.words ?? "nothing to go by"}.`;
  }
}

function scope(said: Spoken): string {
  if (said.amplitudeCompared && said.timingCompared) return "in size and timing";
  if (said.amplitudeCompared) return "in size (timing not compared)";
  return "in rhythm and timing (size not compared)";
}
