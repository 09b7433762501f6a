/** What can be turned at one site (limb, vessels, cuff, light, probe) while the model runs. */
import type { ControlRow } from "./control-row.js";

export const contacts = ["on", "off", "unplugged"] as const;
/** `off`: lying beside the digit, sees the room only; `unplugged`: a flat zero. */
export type Contact = (typeof contacts)[number];

/** A collateral or arch this stiff carries nothing that could be seen. */
export const noPath = 1e6;

export const siteRows = [
  {
    name: "tone",
    unit: "1",
    min: -1.5,
    max: 2.5,
    rest: 0,
    what: "vessel tone: −1.5 blocked or hot, +1 cold, +2 shock",
  },
  { name: "height", unit: "cm", min: -100, max: 100, rest: 0, what: "site above the heart" },
  {
    name: "narrowing",
    unit: "1",
    min: 0,
    max: 1,
    rest: 0,
    what: "share of the main artery's area lost; 1 is shut",
  },
  {
    name: "collateral",
    unit: "mm[Hg].s/mL",
    min: 40,
    max: noPath,
    rest: 400,
    what: "resistance of the way round the narrowing",
  },
  {
    name: "radialPress",
    unit: "1",
    min: 0,
    max: 1,
    rest: 0,
    what: "finger on the radial artery; 1 shuts it (two-artery hand)",
  },
  {
    name: "ulnarPress",
    unit: "1",
    min: 0,
    max: 1,
    rest: 0,
    what: "finger on the ulnar artery; 1 shuts it (two-artery hand)",
  },
  {
    name: "arch",
    unit: "mm[Hg].s/mL",
    min: 2,
    max: noPath,
    rest: 8,
    what: "resistance of the palmar arch (two-artery hand)",
  },
  {
    name: "cuff",
    unit: "mm[Hg]",
    min: 0,
    max: 400,
    rest: 0,
    what: "cuff or tourniquet round the limb, above the probe",
  },
  { name: "band", unit: "mm[Hg]", min: 0, max: 200, rest: 0, what: "band that closes veins only" },
  { name: "tissue", unit: "mm[Hg]", min: 0, max: 200, rest: 5, what: "tissue pressure in the compartment" },
  {
    name: "varnish",
    unit: "1",
    min: 0,
    max: 0.99,
    rest: 0,
    what: "share of light that nail varnish takes, red most",
  },
  {
    name: "ambient",
    unit: "1",
    min: 0,
    max: 1,
    rest: 0.02,
    what: "room light, as a share of the light through the digit at rest",
  },
  { name: "mains", unit: "%", min: 0, max: 1, rest: 0.01, what: "ripple of lamps on the mains" },
  {
    name: "photocurrent",
    unit: "nA",
    min: 0.2,
    max: 500,
    rest: 50,
    what: "light current at rest: sets the photon noise",
  },
  {
    name: "shift",
    unit: "1",
    min: 0,
    max: 1,
    rest: 0,
    what: "share of light that passes beside the digit: 0 well placed, 0.5 half on",
  },
  {
    name: "slip",
    unit: "1",
    min: -0.5,
    max: 0.5,
    rest: 0,
    what: "jump of the light level when the probe slips",
  },
  { name: "drift", unit: "%", min: 0, max: 20, rest: 0.1, what: "slow movement, 0.05 to 0.3 Hz" },
  { name: "tremor", unit: "%", min: 0, max: 5, rest: 0, what: "shaking at 4 to 12 Hz" },
  { name: "knocks", unit: "%", min: 0, max: 60, rest: 0, what: "size of single knocks" },
  { name: "knocksPerMinute", unit: "/min", min: 0, max: 120, rest: 12, what: "how often a knock comes" },
  { name: "rubbing", unit: "%", min: 0, max: 20, rest: 0, what: "rubbing to and fro" },
  {
    name: "rubbingRate",
    unit: "/min",
    min: 20,
    max: 200,
    rest: 70,
    what: "how often the rubbing goes to and fro",
  },
  { name: "transport", unit: "%", min: 0, max: 10, rest: 0, what: "shaking of a vehicle, 3 to 15 Hz" },
  {
    name: "heartShake",
    unit: "%",
    min: 0,
    max: 1,
    rest: 0,
    what: "shaking of the body in step with the heart",
  },
  {
    name: "slosh",
    unit: "mm[Hg]",
    min: 0,
    max: 30,
    rest: 0,
    what: "venous blood moved to and fro by movement",
  },
] as const satisfies readonly ControlRow[];

export type SiteControlName = (typeof siteRows)[number]["name"];

/** The values in force now, plain numbers in the row's unit; the model reads them each step. */
export type SiteControls = { [name in SiteControlName]: number } & { contact: Contact };
