/**
 * Compares the suspect side with the sound side. Order: can these two be compared at all, is the
 * sound side a reference, is there a wave on the suspect side, then size and timing.
 * Whatever is doubtful ends as `cannot-tell`; doubt lowers a grave verdict and forbids the mild one.
 */
import { holds, ruleOf } from "../rules/index.js";
import { cannotSee } from "./cannot-see.js";
import type { Comparison } from "./comparison.js";
import { confidenceOf } from "./confidence.js";
import type { SideContext } from "./declared.js";
import { type Doubt, doubtsAbout, doubtsOf, unstatedTopics } from "./doubts.js";
import { cannotTell, type Judgement, reason } from "./judgement.js";
import { commonExtremity, relatePlaces } from "./place.js";
import type { Reading } from "./reading.js";
import { sameBeats } from "./same-beats.js";
import { saturationDifference } from "./saturation-difference.js";
import { judgeSeen } from "./seen-waves.js";
import { measureSides } from "./side-numbers.js";
import { shapeDistance } from "./side-timing.js";
import { judgeUnseen } from "./unseen-wave.js";
import { namesOf, sentenceOf } from "./words.js";

/**
 * @param sound   the limb taken as reference; the caller says which, it is never inferred (S4)
 * @param suspect the limb in question
 * @param context what is known of the two together; `nothingKnown` when nothing is
 */
export function compareSides(sound: Reading, suspect: Reading, context: SideContext): Comparison {
  const names = namesOf(sound.site, suspect.site);
  const relation = relatePlaces(sound, suspect, context);
  const numbers = measureSides(sound, suspect, context);
  const doubts = doubtsOf(sound, suspect, context);
  const judged = forbidMild(judge(), doubts);
  const saturation = saturationDifference(sound, suspect);
  const reasons = [...judged.reasons, ...saturation.reasons];
  const verdict = judged.verdict === "no-difference" && saturation.forbids ? "cannot-tell" : judged.verdict;
  const ordered = verdict === judged.verdict ? reasons : [...saturation.reasons, ...judged.reasons];
  const unseen = cannotSee(context.mechanism);
  const marks = marksOf(sound, suspect);
  const about = doubtsAbout(verdict, doubts);
  return {
    verdict,
    confidence: confidenceOf(verdict, doubts, judged.thin),
    sentence: sentenceOf(verdict, {
      sound: sound.site,
      suspect: suspect.site,
      reasons: ordered,
      ratio: numbers.ratio?.measured.value ?? null,
      delay: numbers.delay?.value ?? null,
      amplitudeCompared: numbers.ratio !== null,
      timingCompared: numbers.delay !== null,
      cannotSee: unseen,
      marks,
    }),
    sound: sound.site,
    suspect: suspect.site,
    reasons: ordered,
    piRatio: numbers.ratio?.widened ?? null,
    delay: numbers.delay,
    delayByShape: numbers.delayByShape,
    shapeDistance:
      sound.shape !== null && suspect.shape !== null ? shapeDistance(sound.shape, suspect.shape) : null,
    rateDifference: numbers.rateDifference,
    saturationDifference: saturation.value,
    marks,
    couldBeWrong: about.map((doubt) => doubt.words),
    disturbedBy: about.filter((doubt) => doubt.known).map((doubt) => doubt.words),
    notStated: unstatedTopics(about),
    cannotSee: unseen,
  };

  function judge(): Judgement {
    if (sameBeats(sound, suspect)) {
      return cannotTell(
        reason("same-beats", "both sides hold the very same beats: one recording was named twice"),
      );
    }
    if (relation === "same-site")
      return cannotTell(reason("same-site", "both readings come from one and the same digit"));
    if (sound.declared.pump === true || suspect.declared.pump === true) {
      return cannotTell(
        reason(
          "pump",
          "the patient is on a pump or without pulsatile flow, so a wave or its absence means nothing",
        ),
      );
    }
    if (sound.capture !== "solid") return judgeWithoutSound();
    if (suspect.capture !== "solid") {
      return judgeUnseen(sound, suspect, names, relation !== "other-place");
    }
    return judgeSeen(sound, suspect, numbers, relation, commonExtremity(sound.site, suspect.site), names);
  }

  function judgeWithoutSound(): Judgement {
    const rule = ruleOf("pi.both-weak");
    if (
      sound.capture === "shaky" &&
      suspect.capture !== "off" &&
      sound.foundIndex !== null &&
      suspect.foundIndex !== null
    ) {
      const larger = Math.max(sound.foundIndex.high, suspect.foundIndex.high);
      if (holds(rule, larger)) {
        const words = `pulse waves are detected on both sides, but none above a PI of ${rule.value} %`;
        return {
          verdict: "both-weak",
          reasons: [reason("both-low", words, { value: larger, unit: "%", rule })],
          thin: true,
        };
      }
    }
    const what = {
      shaky: "is not to be trusted",
      none: "shows no pulse wave",
      off: "has its probe off or faulty",
      unreadable: "is hidden by movement or noise",
      solid: "",
    }[sound.capture];
    return cannotTell(
      reason("sound-not-solid", `${names.sound} ${what}, so there is nothing to compare with`),
    );
  }
}

/** A known disturbance of a mild verdict turns it into `cannot-tell`, with the disturbance as first reason. */
function forbidMild(judged: Judgement, doubts: readonly Doubt[]): Judgement {
  if (judged.verdict !== "no-difference") return judged;
  const known = doubtsAbout("no-difference", doubts).filter((doubt) => doubt.known);
  if (known.length === 0) return judged;
  return cannotTell(...known.map((doubt) => reason("disturbed", doubt.words)), ...judged.reasons);
}

/** S6: said beside every value. */
function marksOf(sound: Reading, suspect: Reading): string[] {
  return [
    ...(suspect.declared.cuff === true ? ["under a cuff or tourniquet on the suspect side"] : []),
    ...(sound.declared.cuff === true ? ["under a cuff or tourniquet on the sound side"] : []),
  ];
}
