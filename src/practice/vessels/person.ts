/** What differs between people and limbs, and is fixed while the model runs. */
import { PracticeError } from "../errors.js";
import { constants as c } from "./constants.js";

/** A palmar arch that opens once a wrist artery is shut. */
export interface Recruitment {
  /** Resistance it falls to, mmHg s/ml. */
  readonly resistance: number;
  /** Time constant of the fall, s. */
  readonly time: number;
}

export interface VesselPerson {
  /** Arterial path in light per unit of digit volume, cm. */
  readonly gain: number;
  /** Lowest transmural pressure at the cuffed segment's lower end, mmHg: the unsettled constant. */
  readonly chokePressure: number;
  /** Travel time over the usual. */
  readonly delay: number;
  /** Compliance of the limb's arteries over the usual. */
  readonly compliance: number;
  /** Compliance of the digit times its resistance, s. */
  readonly digitTime: number;
  /** Closing pressure of the digit's vessels, mmHg. */
  readonly closing: number;
  /** `null`: the arch stays as it is. */
  readonly recruitment: Recruitment | null;
}

export const usualPerson: VesselPerson = {
  gain: c.gain.value,
  chokePressure: c.chokePressure.value,
  delay: 1,
  compliance: 1,
  digitTime: c.digitTime.value,
  closing: c.closing.value,
  recruitment: null,
};

const ranges = {
  gain: c.gain,
  chokePressure: c.chokePressure,
  delay: { low: 0.6, high: 1.4 },
  compliance: { low: 0.5, high: 2 },
  digitTime: c.digitTime,
  closing: c.closing,
} as const;

/**
 * Fills in the usual values and holds each against its range.
 * @throws {PracticeError} `out-of-range`
 */
export function vesselPerson(given: Partial<VesselPerson> = {}): VesselPerson {
  const person = { ...usualPerson, ...given };
  for (const name of Object.keys(ranges) as (keyof typeof ranges)[]) hold(name, person[name], ranges[name]);
  if (person.recruitment !== null) {
    hold("recruitment.resistance", person.recruitment.resistance, { low: 2, high: 1e6 });
    hold("recruitment.time", person.recruitment.time, { low: 1, high: 600 });
  }
  return person;
}

function hold(name: string, value: number, range: { readonly low: number; readonly high: number }): void {
  if (!(value >= range.low && value <= range.high)) {
    throw new PracticeError("out-of-range", `${name} ${value} is not within ${range.low} to ${range.high}`);
  }
}
