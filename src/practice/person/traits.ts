/** Draws the person behind a seed: how large the pulse is, how fast it travels, how the two sides differ. */
import { exp } from "../numbers/exponential.js";
import { createRandom, type Random } from "../numbers/random.js";
import { usualPerson, type VesselPerson } from "../vessels/index.js";

/** Streams of the seed that traits are drawn from, one a site. */
const firstStream = 300;

/**
 * Log-sd between people: set so that nine of ten perfusion indexes lie within 0.3 to 10 % once tones differ too
 * (memory: Lima 2002).
 */
const gainBetweenPeople = 0.45;
/** Log-sd between the two sides of one person: working default, no left and right limits are published. */
const gainBetweenSides = 0.12;
/** Log-sd of travel time between people and between sides: working default. */
const delayBetweenPeople = 0.08;
const delayBetweenSides = 0.015;

/** Beyond two standard deviations nobody is drawn: extremes are for settings, not for chance. */
function held(random: Random): number {
  return Math.min(2, Math.max(-2, random.normal()));
}

/** Traits of each site of one person, as factors on the usual ones. */
export function drawTraits(seed: number, sites: number): Pick<VesselPerson, "gain" | "delay">[] {
  const person = createRandom(seed, firstStream);
  const gain = exp(gainBetweenPeople * held(person));
  const delay = exp(delayBetweenPeople * held(person));
  return Array.from({ length: sites }, (_, site) => {
    const side = createRandom(seed, firstStream + 1 + site);
    return {
      gain: usualPerson.gain * gain * exp(gainBetweenSides * held(side)),
      delay: usualPerson.delay * delay * exp(delayBetweenSides * held(side)),
    };
  });
}
