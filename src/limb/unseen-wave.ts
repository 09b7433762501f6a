/**
 * The suspect side when its beats cannot be seen or trusted: what the presence test says then.
 * Loss of signal is not loss of pulse (S5), so every way out but one is not `absent`.
 */
import { holds, ruleOf } from "../rules/index.js";
import { cannotTell, type Judgement, reason } from "./judgement.js";
import { sizesComparable } from "./pi-ratio.js";
import type { Reading } from "./reading.js";
import { figure, type Names } from "./words.js";

/** For a solid sound side and a suspect side that is not solid. `likePlaces`: sizes of the two places may be compared. */
export function judgeUnseen(sound: Reading, suspect: Reading, names: Names, likePlaces: boolean): Judgement {
  const at = names.suspect;
  switch (suspect.capture) {
    case "off":
      return cannotTell(reason("probe-off", `the probe at ${at} is off or faulty`));
    case "unreadable":
      return cannotTell(
        reason("too-much-movement", `movement or noise at ${at} hides whatever wave is there`),
      );
    case "shaky":
    case "none":
      return judgeByPresence(sound, suspect, names, likePlaces);
    case "solid":
      throw new Error("invariant: a solid suspect side is compared beat by beat");
  }
}

function judgeByPresence(sound: Reading, suspect: Reading, names: Names, likePlaces: boolean): Judgement {
  const at = names.suspect;
  const presence = suspect.presence;
  const shaky = suspect.capture === "shaky";
  if (shaky && suspect.reasons.some((one) => one.code === "pulse-lost")) {
    return cannotTell(
      reason("wave-came-or-went", `the pulse wave at ${at} came or went within these seconds`),
    );
  }
  if (presence === null || !presence.reference) {
    return cannotTell(
      shaky
        ? reason("suspect-shaky", `the capture at ${at} is not to be trusted`)
        : reason(
            "no-wave-no-reference",
            `no pulse wave seen at ${at} under a working probe, but without a reference (the other side at the same time, an ECG, taps) a weak one cannot be excluded`,
          ),
    );
  }
  const p = { value: presence.p, unit: "1" };
  switch (presence.answer) {
    case "found":
      return judgeSmallWave(sound, suspect, names, likePlaces);
    case "likely":
      return cannotTell(
        reason("wave-uncertain", `a pulse wave at ${at} is likely, not certain`, {
          ...p,
          rule: ruleOf("presence.likely"),
        }),
      );
    case "cannot-tell":
      return cannotTell(
        reason(
          "wave-uncertain",
          `whether there is a pulse wave at ${at} cannot be decided from this stretch`,
        ),
      );
    case "not-found":
      if (shaky) {
        return cannotTell(
          reason(
            "wave-at-other-beat",
            `no wave at ${at} follows the beat of the heart; something else moves the trace, so the capture is not to be trusted`,
            {
              ...p,
              rule: ruleOf("presence.found"),
            },
          ),
        );
      }
      return judgeAbsence(sound, suspect, names);
  }
}

/** Working probe, a reference, and no wave at its beat: absent only if no wave that matters could have hidden. */
function judgeAbsence(sound: Reading, suspect: Reading, names: Names): Judgement {
  const presence = suspect.presence!;
  const found = reason(
    "no-wave-working-probe",
    `no pulse wave at ${names.suspect} under a working probe at the beat of the heart`,
    {
      value: presence.p,
      unit: "1",
      rule: ruleOf("presence.found"),
    },
  );
  const hidden = presence.upperLimitIndex;
  const size = sound.perfusionIndex;
  if (!sizesComparable(sound, suspect) || hidden === null || size === null) {
    // A display trace: presence holds (S3), but what could hide has no size, so this is thin.
    return {
      verdict: "absent",
      reasons: [
        found,
        reason(
          "hidden-size-unknown",
          "how large a wave could have hidden is not known, since the gain of the trace is not",
        ),
      ],
      thin: true,
    };
  }
  const rule = ruleOf("absent.hidden-share");
  const share = size.low > 0 ? hidden / size.low : Number.POSITIVE_INFINITY;
  if (!holds(rule, share)) {
    return {
      verdict: "absent",
      reasons: [
        found,
        reason(
          "no-wave-working-probe",
          `no pulse wave above a PI of ${figure(hidden)} %, ${figure(share)} of the size ${names.atOther}`,
          {
            value: share,
            unit: "1",
            rule,
          },
        ),
      ],
      // Some window looked like pulses until the reference denied them.
      thin: suspect.reasons.some((one) => one.code === "reference-disagrees"),
    };
  }
  return cannotTell(
    reason(
      "wave-may-hide",
      `no pulse wave seen at ${names.suspect}, but the noise could hide one of up to ${figure(share)} of the size ${names.atOther}`,
      { value: share, unit: "1", rule },
    ),
    found,
  );
}

/** The test found a wave where no trustworthy beats are: weaker if its size is known and small. */
function judgeSmallWave(sound: Reading, suspect: Reading, names: Names, likePlaces: boolean): Judgement {
  const size = sound.perfusionIndex;
  const found = suspect.foundIndex;
  if (!likePlaces || !sizesComparable(sound, suspect) || size === null || found === null || !(size.low > 0)) {
    return cannotTell(
      reason(
        "wave-found-size-unknown",
        `a pulse wave is detected at ${names.suspect} at the beat of the heart, but its beats cannot be trusted and its size cannot be compared`,
      ),
    );
  }
  const rule = ruleOf("pi-ratio.weaker");
  const share = found.high / size.low;
  if (holds(rule, share)) {
    return {
      verdict: "weaker",
      reasons: [
        reason(
          "small-wave-found",
          `a pulse wave is detected at ${names.suspect} only by the beat of the heart, at most ${figure(share)} of the size ${names.atOther}`,
          { value: share, unit: "1", rule },
        ),
      ],
      thin: true,
    };
  }
  return cannotTell(
    reason("suspect-shaky", `a pulse wave is detected at ${names.suspect}, but its beats cannot be trusted`),
  );
}
