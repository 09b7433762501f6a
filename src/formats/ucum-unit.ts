/** Units as recorders write them, in UCUM where the meaning is certain. */

/** Written form in lower case, micro sign folded to `u` -> UCUM. */
const written: Readonly<Record<string, string>> = {
  uv: "uV",
  mmhg: "mm[Hg]",
  "mm hg": "mm[Hg]",
  "mm[hg]": "mm[Hg]",
  bpm: "/min",
  "1/min": "/min",
  "/min": "/min",
  "beats/min": "/min",
  "{beats}/min": "/min",
  degc: "Cel",
  "deg c": "Cel",
  "°c": "Cel",
  percent: "%",
  cmh2o: "cm[H2O]",
  sec: "s",
  msec: "ms",
};

/**
 * Case counts in UCUM (`mV` is not `MV`), so only forms without a second reading are changed;
 * all else comes back trimmed, as written.
 *
 * @see "The Unified Code for Units of Measure", tables 1 to 4 and section "Clinical units"
 */
export function ucumUnit(asWritten: string): string {
  const trimmed = asWritten.trim().replace(/^[\u00b5\u03bc]/, "u");
  const known = written[trimmed.toLowerCase()];
  // "UV" could be ultraviolet; "Uv" is nobody's microvolt.
  if (known === "uV" && !trimmed.startsWith("u")) return trimmed;
  return known ?? trimmed;
}
