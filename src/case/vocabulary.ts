/**
 * The closed word lists of the record. A record outlives the program that wrote it, so these words are its own:
 * a test holds them equal to those of the engine and the rules, and a new word needs a new version of its event.
 */

/** What the wave must do for this limb now. */
export const aims = ["stay", "stay-gone", "rise", "match"] as const;
export type Aim = (typeof aims)[number];

/** `own`: no sound side, the limb is held against its own first reading. */
export const roles = ["sound", "suspect", "own", "extra"] as const;
export type Role = (typeof roles)[number];

export const mechanismCodes = [
  "fracture",
  "dislocation",
  "crush",
  "burn",
  "bite",
  "reperfusion",
  "tight-wrap",
  "penetrating",
  "frostbite",
  "blocked-artery",
  "line-or-device",
  "practice",
] as const;
export type MechanismCode = (typeof mechanismCodes)[number];

export const sourceKinds = [
  "recorded-file",
  "bluetooth-oximeter",
  "serial-sensor",
  "camera",
  "pulse-tone",
  "typed-numbers",
  "taps",
  "practice-limb",
] as const;
export type SourceKind = (typeof sourceKinds)[number];

export const answerVerdicts = [
  "absent",
  "weaker",
  "later",
  "no-difference",
  "both-weak",
  "cannot-tell",
] as const;
export type AnswerVerdict = (typeof answerVerdicts)[number];

export const confidences = ["high", "moderate", "low"] as const;

export const presenceAnswers = ["found", "likely", "not-found", "cannot-tell"] as const;

export const saturationFaults = ["held-over-dead-trace", "capture-not-solid", "stale"] as const;

export const acts = [
  "splint",
  "straighten",
  "wrap",
  "move",
  "band-on",
  "band-off",
  "cast-split",
  "other",
] as const;
export type Act = (typeof acts)[number];

/** Where on the patient: a probe has a digit, a band or a felt pulse a limb. */
export const limbs = ["arm", "leg"] as const;
export type LimbPart = (typeof limbs)[number];

export const pulseNames = [
  "radial",
  "ulnar",
  "brachial",
  "femoral",
  "popliteal",
  "posterior tibial",
  "dorsalis pedis",
] as const;

/** Nerves of the chart; `median, AIN` is the anterior interosseous branch, tested by the OK sign. */
export const nerveNames = [
  "radial",
  "median",
  "median, AIN",
  "ulnar",
  "deep peroneal",
  "superficial peroneal",
  "tibial",
] as const;

/** Moments the clocks on the screen run from. */
export const moments = ["injury", "onset", "trapped", "freed", "bite", "burn", "part-cold", "thaw"] as const;
export type Moment = (typeof moments)[number];

export const heights = ["at heart", "above", "below"] as const;
