/**
 * What would make a verdict wrong, as rows: the same table feeds the list shown beside the
 * verdict, the confidence, and the rule that a mild verdict is not given under a known disturbance.
 */
import type { Verdict } from "./comparison.js";
import type { SideContext } from "./declared.js";
import { type PlaceRelation, relatePlaces, sameHeight } from "./place.js";
import type { Reading } from "./reading.js";

export interface Doubt {
  readonly code: string;
  /** `true` known to be so, `null` not stated. */
  readonly known: true | null;
  readonly words: string;
  readonly disturbs: readonly Verdict[];
}

interface DoubtRow {
  readonly code: string;
  readonly ask: (sound: Reading, suspect: Reading, context: SideContext) => boolean | null;
  /** Clauses for a list headed "could be wrong". */
  readonly known: string;
  readonly unknown: string;
  readonly disturbs: readonly Verdict[];
}

const not = (answer: boolean | null) => (answer === null ? null : !answer);

/** Places whose pulses may be held against each other without a caveat on the digit. */
const alike: ReadonlySet<PlaceRelation> = new Set(["same-digit", "own-first"]);

const doubtRows: readonly DoubtRow[] = [
  {
    code: "cuff-suspect",
    ask: (_, suspect) => suspect.declared.cuff,
    known: "a cuff or tourniquet sits above the suspect probe",
    unknown: "whether a cuff or tourniquet sits above the suspect probe is not stated",
    disturbs: ["absent", "weaker", "later", "no-difference", "both-weak"],
  },
  {
    code: "cuff-sound",
    ask: (sound) => sound.declared.cuff,
    known: "a cuff or tourniquet sits above the sound probe",
    unknown: "whether a cuff or tourniquet sits above the sound probe is not stated",
    disturbs: ["weaker", "later", "no-difference", "both-weak"],
  },
  {
    code: "cold-suspect",
    ask: (_, suspect) => suspect.declared.cold,
    known: "the suspect side is cold, which alone can take the wave away",
    unknown: "whether the suspect side is cold is not stated; cold alone can take the wave away",
    disturbs: ["absent", "weaker", "later"],
  },
  {
    code: "cold-sound",
    ask: (sound) => sound.declared.cold,
    known: "the sound side is cold, so its wave is smaller than it could be",
    unknown: "whether the sound side is cold is not stated",
    disturbs: ["no-difference", "both-weak"],
  },
  {
    code: "block-suspect",
    ask: (_, suspect) => suspect.declared.block,
    known: "a nerve block on the suspect side makes its wave larger and can hide poor inflow",
    unknown: "whether the suspect side has a nerve block is not stated; a block can hide poor inflow",
    disturbs: ["no-difference"],
  },
  {
    code: "block-sound",
    ask: (sound) => sound.declared.block,
    known: "a nerve block on the sound side makes its wave larger",
    unknown: "whether the sound side has a nerve block is not stated",
    disturbs: ["weaker"],
  },
  {
    code: "covered-suspect",
    ask: (_, suspect) => suspect.declared.covered,
    known: "varnish, dirt or a dressing lies under the suspect probe",
    unknown: "whether varnish, dirt or a dressing lies under the suspect probe is not stated",
    disturbs: ["absent", "weaker"],
  },
  {
    code: "height",
    ask: (sound, suspect, context) => not(sameHeight(sound, suspect, context)),
    known: "the two sites are not at the same height",
    unknown: "whether both sites are at the same height is not stated; height changes size and timing",
    disturbs: ["weaker", "later", "no-difference", "both-weak"],
  },
  {
    code: "digit",
    ask: (sound, suspect, context) => {
      const relation = relatePlaces(sound, suspect, context);
      return relation === "unknown" ? null : !alike.has(relation);
    },
    known: "the two probes do not sit on the same digit of each side; digits of one hand differ",
    unknown:
      "whether both probes sit on the same digit of each side is not stated; digits of one hand differ",
    disturbs: ["weaker", "later", "no-difference"],
  },
  {
    code: "own-first",
    ask: (sound, suspect, context) => relatePlaces(sound, suspect, context) === "own-first",
    known:
      "there is no sound side: the reference is the limb's own first reading, which the injury may have changed already",
    unknown: "",
    disturbs: ["no-difference"],
  },
  {
    code: "probe",
    ask: (_sound, _suspect, context) => not(context.sameProbe),
    known: "the two probes are of different kinds",
    unknown: "whether both probes are of one kind is not stated",
    disturbs: ["weaker", "no-difference"],
  },
  {
    code: "both-hurt",
    ask: (_sound, _suspect, context) => context.soundHurt,
    known: "the side taken as sound is hurt as well",
    unknown: "whether the side taken as sound is hurt as well is not stated",
    disturbs: ["weaker", "later", "no-difference"],
  },
  {
    code: "gone-elsewhere",
    ask: (_sound, _suspect, context) => context.waveGoneElsewhere === true,
    known:
      "elsewhere in this recording the suspect side's pulse wave went away; name a stretch to read that one alone",
    unknown: "",
    disturbs: ["no-difference", "both-weak"],
  },
  {
    code: "not-together",
    ask: (_sound, _suspect, context) => !context.oneClock,
    known: "the two sides were not recorded together, and a pulse changes within minutes",
    unknown: "",
    disturbs: ["weaker", "later"],
  },
];

/** Every doubt that applies or cannot be excluded, the known ones first. */
export function doubtsOf(sound: Reading, suspect: Reading, context: SideContext): Doubt[] {
  const doubts = doubtRows.flatMap((row): Doubt[] => {
    const answer = row.ask(sound, suspect, context);
    if (answer === false) return [];
    const known = answer === true ? true : null;
    return [{ code: row.code, known, words: known ? row.known : row.unknown, disturbs: row.disturbs }];
  });
  return [...doubts.filter((doubt) => doubt.known), ...doubts.filter((doubt) => !doubt.known)];
}

/** Doubts that bear on this verdict. */
export function doubtsAbout(verdict: Verdict, doubts: readonly Doubt[]): Doubt[] {
  return doubts.filter((doubt) => verdict === "cannot-tell" || doubt.disturbs.includes(verdict));
}
