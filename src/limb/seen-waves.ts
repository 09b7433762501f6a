/**
 * Two solid sides: rhythm first, then size, then timing. A grave finding may rest on one of them;
 * `no-difference` needs every one that could be compared to agree, with room to spare.
 */
import { holds, type Rule, type RuleId, ruleOf } from "../rules/index.js";
import type { ComparisonReason } from "./comparison.js";
import { cannotTell, type Judgement, reason } from "./judgement.js";
import type { Extremity, PlaceRelation } from "./place.js";
import type { Reading } from "./reading.js";
import type { SideNumbers } from "./side-numbers.js";
import { figure, latenessWords, type Names } from "./words.js";

/** Beats a minute; a smaller difference of two rates is rounding, and is not spelled out. */
const finestRate = 0.1;

/** What one aspect says: `grave` speaks for a difference, `doubtful` against saying there is none. */
interface Aspect {
  readonly leaning: "grave" | "doubtful" | "mild" | "not-compared";
  readonly reasons: readonly ComparisonReason[];
}

export function judgeSeen(
  sound: Reading,
  suspect: Reading,
  numbers: SideNumbers,
  relation: PlaceRelation,
  extremity: Extremity | null,
  names: Names,
): Judgement {
  const rhythm = judgeRhythm(sound, numbers);
  if (rhythm.leaning === "doubtful") return cannotTell(...rhythm.reasons);
  if (relation === "other-place") {
    return cannotTell(
      reason(
        "other-place",
        `${names.suspect} and ${names.other} are different places, whose sizes and timing differ anyway; a pulse wave is detected at both`,
      ),
      ...rhythm.reasons,
    );
  }
  const size = judgeSize(numbers, names);
  const timing = judgeTiming(numbers, extremity, names);
  const reasons = [...size.reasons, ...timing.reasons, ...rhythm.reasons];

  // Digits that are not stated are taken as the same, which every verdict then says and pays for.
  const unplaced = relation === "unknown";
  if (size.leaning === "grave") return { verdict: "weaker", reasons, thin: unplaced };
  if (bothLow(sound, suspect)) {
    const larger = Math.max(sound.perfusionIndex!.value, suspect.perfusionIndex!.value);
    const low = reason("both-low", `PI is at most ${figure(larger)} % on both sides`, {
      value: larger,
      unit: "%",
      rule: ruleOf("pi.both-weak"),
    });
    return { verdict: "both-weak", reasons: [low, ...reasons], thin: false };
  }
  if (timing.leaning === "grave") {
    const shapes = timing.reasons.some((one) => one.code === "shapes-disagree");
    return {
      verdict: "later",
      reasons: [...timing.reasons, ...size.reasons, ...rhythm.reasons],
      thin: shapes || unplaced,
    };
  }
  const doubtful = [size, timing].filter((aspect) => aspect.leaning === "doubtful");
  if (doubtful.length > 0) {
    return cannotTell(
      ...doubtful.flatMap((aspect) => aspect.reasons),
      ...reasons.filter((one) => !doubtful.some((aspect) => aspect.reasons.includes(one))),
    );
  }
  if (size.leaning !== "mild" && timing.leaning !== "mild") return cannotTell(...reasons);
  const thin = size.leaning !== "mild" || timing.leaning !== "mild" || unplaced;
  const taken = reason("place-unknown", "taken as the same digit of each side, which was not stated");
  return { verdict: "no-difference", reasons: unplaced ? [...reasons, taken] : reasons, thin };
}

function judgeRhythm(sound: Reading, numbers: SideNumbers): Aspect {
  const rate = sound.pulseRate?.value ?? null;
  if (rate === null || numbers.rateDifference === null) {
    return {
      leaning: "doubtful",
      reasons: [reason("rate-unknown", "the pulse rate of one side is not known")],
    };
  }
  const apart = Math.abs(numbers.rateDifference);
  const share = (100 * apart) / rate;
  const rule = ruleOf("rate.differs");
  const value = { value: apart, unit: "/min", rule };
  if (holds(rule, apart) && holds(ruleOf("rate.differs-share"), share)) {
    return {
      leaning: "doubtful",
      reasons: [
        reason(
          "rates-differ",
          `the pulse rates of the two sides differ by ${figure(apart)} a minute, so one of them may not be the heart's`,
          value,
        ),
      ],
    };
  }
  if (numbers.unmatched !== null && holds(ruleOf("rate.unmatched"), numbers.unmatched)) {
    return {
      leaning: "doubtful",
      reasons: [
        reason(
          "beats-unmatched",
          `${figure(numbers.unmatched)} % of the beats have no partner on the other side`,
          { value: numbers.unmatched, unit: "%", rule: ruleOf("rate.unmatched") },
        ),
      ],
    };
  }
  return {
    leaning: "mild",
    reasons: [
      reason(
        "rates-agree",
        `pulse rates agree within ${figure(Math.max(finestRate, apart))} a minute`,
        value,
      ),
    ],
  };
}

function judgeSize(numbers: SideNumbers, names: Names): Aspect {
  if (numbers.ratio === null) {
    return {
      leaning: "not-compared",
      reasons: [numbers.ratioMissing ?? reason("amplitude-not-compared", "size not compared")],
    };
  }
  const { value, low, high } = numbers.ratio.measured;
  const against = (id: RuleId) => ({ value, unit: "1", rule: ruleOf(id) });
  const size = `${figure(value)} (beats ${figure(low)} to ${figure(high)}) of the size ${names.atOther}`;
  // The whole interval must lie below to count as weaker, and wholly inside to count as alike.
  if (holds(ruleOf("pi-ratio.weaker"), high)) {
    return {
      leaning: "grave",
      reasons: [reason("ratio-below", `pulses at ${names.suspect} are ${size}`, against("pi-ratio.weaker"))],
    };
  }
  if (holds(ruleOf("pi-ratio.unlike-low"), low)) {
    return {
      leaning: "doubtful",
      reasons: [
        reason(
          "ratio-doubtful",
          `pulses at ${names.suspect} are ${size}, which two fingers of one healthy hand can show as well`,
          against("pi-ratio.unlike-low"),
        ),
      ],
    };
  }
  if (holds(ruleOf("pi-ratio.stronger"), value)) {
    return {
      leaning: "doubtful",
      reasons: [
        reason(
          "ratio-above",
          `pulses at ${names.suspect} are ${size}: check which side is which, blocks and warmth`,
          against("pi-ratio.stronger"),
        ),
      ],
    };
  }
  if (holds(ruleOf("pi-ratio.unlike-high"), high)) {
    return {
      leaning: "doubtful",
      reasons: [
        reason(
          "ratio-above",
          `pulses at ${names.suspect} are ${size}, as after a block, warming or a release`,
          against("pi-ratio.unlike-high"),
        ),
      ],
    };
  }
  return {
    leaning: "mild",
    reasons: [
      reason(
        "ratio-within",
        `pulses at ${names.suspect} are ${size}, no further apart than two fingers of one hand can be`,
        against("pi-ratio.unlike-low"),
      ),
    ],
  };
}

/** Where the extremity is not known, the later limit that is harder to pass and the mild one that is harder to keep. */
function delayRules(extremity: Extremity | null): { readonly late: Rule; readonly mild: Rule } {
  const finger = ruleOf("delay.finger");
  if (extremity === "hand") return { late: finger, mild: finger };
  return { late: ruleOf("delay.leg-certain"), mild: ruleOf("delay.leg-grey") };
}

function judgeTiming(numbers: SideNumbers, extremity: Extremity | null, names: Names): Aspect {
  const { delay, delayByShape } = numbers;
  if (delay === null) {
    return {
      leaning: "not-compared",
      reasons: [numbers.delayMissing ?? reason("timing-not-compared", "timing not compared")],
    };
  }
  const { late, mild } = delayRules(extremity);
  const { value, low, high } = delay;
  const against = (rule: Rule) => ({ value, unit: "ms", rule });
  const words = `the pulse at ${names.suspect} comes ${latenessWords(delay)} that ${names.atOther}`;
  const apart = delayByShape === null ? null : Math.abs(value - delayByShape);
  const unlike =
    apart !== null && holds(ruleOf("delay.shapes-disagree"), apart)
      ? [
          reason(
            "shapes-disagree",
            `delay by foot and by shape differ by ${figure(apart)} ms, so the two waves differ in shape`,
            { value: apart, unit: "ms", rule: ruleOf("delay.shapes-disagree") },
          ),
        ]
      : [];
  if (holds(late, low))
    return { leaning: "grave", reasons: [reason("delay-beyond", words, against(late)), ...unlike] };
  if (holds(mild, high))
    return { leaning: "doubtful", reasons: [reason("delay-doubtful", words, against(mild)), ...unlike] };
  if (holds(mild, -low)) {
    return {
      leaning: "doubtful",
      reasons: [
        reason("delay-negative", `${words}: the side taken as sound may be the later one`, against(mild)),
        ...unlike,
      ],
    };
  }
  if (unlike.length > 0)
    return { leaning: "doubtful", reasons: [...unlike, reason("delay-within", words, against(mild))] };
  return { leaning: "mild", reasons: [reason("delay-within", words, against(mild))] };
}

function bothLow(sound: Reading, suspect: Reading): boolean {
  if (sound.perfusionIndex === null || suspect.perfusionIndex === null) return false;
  return holds(ruleOf("pi.both-weak"), Math.max(sound.perfusionIndex.value, suspect.perfusionIndex.value));
}
