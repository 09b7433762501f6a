/** Everything a medic can declare about two sides, answered with no doubt left, as words of the command line. */

export const bothSites = ["--sound-site", "right middle finger", "--suspect-site", "left middle finger"];

/** Nothing disturbs either side. */
export const calm = ["--cuff", "neither", "--cold", "neither", "--block", "neither", "--covered", "neither"];

/** All but where the probes sat. */
export const stated = [
  ...calm,
  ...["--pump", "no", "--same-height", "yes", "--sound-hurt", "no", "--same-probe", "yes"],
];

/** One limb at two times. */
export const oneToe = ["--sound-site", "left great toe", "--suspect-site", "left great toe"];
