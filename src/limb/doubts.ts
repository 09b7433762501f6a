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
  /** What was asked, in a word or two; the same for both sides. */
  readonly topic: string;
  readonly disturbs: readonly Verdict[];
}

interface DoubtRow {
  readonly code: string;
  readonly ask: (sound: Reading, suspect: Reading, context: SideContext) => boolean | null;
  /** Clauses for a list headed "could be wrong". */
  readonly known: string;
  readonly unknown: string;
  readonly topic: string;
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
    topic: "cuff or tourniquet",
    disturbs: ["absent", "weaker", "later", "no-difference", "both-weak"],
  },
  {
    code: "cuff-sound",
    ask: (sound) => sound.declared.cuff,
    known: "a cuff or tourniquet sits above the sound probe",
    unknown: "whether a cuff or tourniquet sits above the sound probe is not stated",
    topic: "cuff or tourniquet",
    disturbs: ["weaker", "later", "no-difference", "both-weak"],
  },
  {
    code: "cold-suspect",
    ask: (_, suspect) => suspect.declared.cold,
    known: "the suspect side is cold, which alone can take the wave away",
    unknown: "whether the suspect side is cold is not stated; cold alone can take the wave away",
    topic: "cold",
    disturbs: ["absent", "weaker", "later"],
  },
  {
    code: "cold-sound",
    ask: (sound) => sound.declared.cold,
    known: "the sound side is cold, so its wave is smaller than it could be",
    unknown: "whether the sound side is cold is not stated",
    topic: "cold",
    disturbs: ["no-difference", "both-weak"],
  },
  {
    code: "block-suspect",
    ask: (_, suspect) => suspect.declared.block,
    known: "a nerve block on the suspect side makes its wave larger and can hide poor inflow",
    unknown: "whether the suspect side has a nerve block is not stated; a block can hide poor inflow",
    topic: "nerve block",
    disturbs: ["no-difference"],
  },
  {
    code: "block-sound",
    ask: (sound) => sound.declared.block,
    known: "a nerve block on the sound side makes its wave larger",
    unknown: "whether the sound side has a nerve block is not stated",
    topic: "nerve block",
    disturbs: ["weaker"],
  },
  {
    code: "covered-suspect",
    ask: (_, suspect) => suspect.declared.covered,
    known: "varnish, dirt or a dressing lies under the suspect probe",
    unknown: "whether varnish, dirt or a dressing lies under the suspect probe is not stated",
    topic: "varnish, dirt or dressing",
    disturbs: ["absent", "weaker"],
  },
  {
    code: "height",
    ask: (sound, suspect, context) => not(sameHeight(sound, suspect, context)),
    known: "the two sites are not at the same height",
    unknown: "whether both sites are at the same height is not stated; height changes size and timing",
    topic: "height of both sites",
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
    topic: "same digit",
    disturbs: ["weaker", "later", "no-difference"],
  },
  {
    code: "own-first",
    ask: (sound, suspect, context) => relatePlaces(sound, suspect, context) === "own-first",
    known:
      "there is no sound side: the reference is the limb's own first reading, which the injury may have changed already",
    unknown: "",
    topic: "",
    disturbs: ["no-difference"],
  },
  {
    code: "probe",
    ask: (_sound, _suspect, context) => not(context.sameProbe),
    known: "the two probes are of different kinds",
    unknown: "whether both probes are of one kind is not stated",
    topic: "same kind of probe",
    disturbs: ["weaker", "no-difference"],
  },
  {
    code: "both-hurt",
    ask: (_sound, _suspect, context) => context.soundHurt,
    known: "the side taken as sound is hurt as well",
    unknown: "whether the side taken as sound is hurt as well is not stated",
    topic: "harm to the sound side",
    disturbs: ["weaker", "later", "no-difference"],
  },
  {
    code: "one-probe",
    // Whoever names two sites has said that there are two probes.
    ask: (sound, suspect, { oneClock }) =>
      oneClock &&
      (sound.site === null || suspect.site === null) &&
      (sound.channel.kind !== suspect.channel.kind || sound.channel.colour !== suspect.channel.colour),
    known:
      "the two channels are of unlike kinds in one recording, so both may come from one and the same probe",
    unknown: "",
    topic: "",
    disturbs: ["no-difference"],
  },
  {
    code: "gone-elsewhere",
    ask: (_sound, _suspect, context) => context.waveGoneElsewhere === true,
    known:
      "elsewhere in this recording the suspect side's pulse wave went away; name a stretch to read that one alone",
    unknown: "",
    topic: "",
    disturbs: ["no-difference", "both-weak"],
  },
  {
    code: "not-together",
    ask: (_sound, _suspect, context) => !context.oneClock,
    known: "the two sides were not recorded together, and a pulse changes within minutes",
    unknown: "",
    topic: "",
    disturbs: ["weaker", "later"],
  },
];

/** Every doubt that applies or cannot be excluded, the known ones first. */
export function doubtsOf(sound: Reading, suspect: Reading, context: SideContext): Doubt[] {
  const doubts = doubtRows.flatMap((row): Doubt[] => {
    const answer = row.ask(sound, suspect, context);
    if (answer === false) return [];
    const { code, topic, disturbs } = row;
    const known = answer === true ? true : null;
    return [{ code, known, words: known ? row.known : row.unknown, topic, disturbs }];
  });
  return [...doubts.filter((doubt) => doubt.known), ...doubts.filter((doubt) => !doubt.known)];
}

/** Doubts that bear on this verdict. */
export function doubtsAbout(verdict: Verdict, doubts: readonly Doubt[]): Doubt[] {
  return doubts.filter((doubt) => verdict === "cannot-tell" || doubt.disturbs.includes(verdict));
}

/** What was left unsaid, short enough for one line: a topic once, with its side where the other side's was stated. */
export function unstatedTopics(doubts: readonly Doubt[]): string[] {
  const open = doubts.filter((doubt) => !doubt.known);
  const topics = [...new Set(open.map(({ topic }) => topic))];
  return topics.map((topic) => {
    const sides = open.flatMap((doubt) =>
      doubt.topic === topic ? [/-(sound|suspect)$/.exec(doubt.code)?.[1]] : [],
    );
    return sides.length === 1 && sides[0] !== undefined ? `${topic} (${sides[0]} side)` : topic;
  });
}
