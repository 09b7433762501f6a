/**
 * Writes `docs/practice-limb.md` from the rows in `src/practice`: constants with their support, controls, scenarios,
 * and what the model cannot do. Run: `npx tsx scripts/practice-page.ts`.
 */
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { ConstantRow } from "../src/practice/constant-row.js";
import { displayConstants } from "../src/practice/display/constants.js";
import { heartConstants } from "../src/practice/heart/index.js";
import { heartRows, scenarios, siteRows } from "../src/practice/index.js";
import { lightConstants } from "../src/practice/light/index.js";
import { constants as vesselConstants } from "../src/practice/vessels/index.js";

export const practicePagePath = fileURLToPath(new URL("../docs/practice-limb.md", import.meta.url));

function table(head: readonly string[], rows: readonly (readonly (string | number)[])[]): string[] {
  const line = (cells: readonly (string | number)[]) =>
    `| ${cells.map((cell) => String(cell).replaceAll("|", "\\|")).join(" | ")} |`;
  return [line(head), line(head.map(() => "---")), ...rows.map(line), ""];
}

function constantTable(title: string, rows: Readonly<Record<string, ConstantRow>>): string[] {
  return [
    `### ${title}`,
    "",
    ...table(
      ["what", "value", "range", "support", "source"],
      Object.values(rows).map(({ what, value, unit, low, high, support, source }) => [
        what,
        unit === "1" ? value : `${value} ${unit}`,
        `${low} to ${high}`,
        support,
        source,
      ]),
    ),
  ];
}

const cannotDo = [
  "Wave shape with age and reflections: two lumped sections, no distributed tree.",
  "An amplitude under a half-closed cuff: the pressure at which a collapsing artery chokes is unsettled. It stays a parameter (−2 mmHg, or −12 with `--choke-pressure`), what depends on it is scored at both, and no such amplitude is a fact.",
  "Amplitude beyond a half-closed cuff reaches 2.66 times its rest at a choke pressure of −2 mmHg and 1.76 times at −12 (75 /min): more than anything read shows.",
  "Check 18, the return within −8 to +2 mmHg of the true systolic: at −2 mmHg it holds (−3.5 to −6.8 from 50 to 140 /min), at −12 mmHg it is −9.8 at 110 and −11.7 at 140 /min.",
  "Check 12, loss under a slowly inflated cuff at 58.2 ± 16.8 mmHg: 61.9, 49.9, 44.5 at 2, 2.5, 3 mmHg/s, but 82, 107, 111 at 1.5, 1, 0.8 and 38, 30 at 4 and 8.",
  "Check 14, the flow at which a signal is lost and comes back, is known from memory only and is no test. Check 21, the pulse after central volume loss, has none yet.",
  "Check 17: under a bandage the perfusion index falls to 0.55 times at 50 to 70 mmHg, so that the pulse is kept holds for a compartment only; saturation falls by 1.4, 2.0, 3.4 points at 60, 70, 80 mmHg.",
  "Tops of pulses come early (340, 379, 467 ms after R at ear, thumb, toe; published 397, 436, 515, within 60).",
  "Hysteresis of artery opening, creep of the vessel wall, cold-induced dilatation, venous pulses of the right heart, skin pigment.",
  "Stiff, calcified arteries of a leg under a cuff.",
  "A return pressure at high rates that is known to be right: its bias grows with rate, and may be the lumping.",
];

/** The whole page as text, ending in a newline. */
export function practicePage(): string {
  return `${[
    "# The practice limb",
    "",
    "Made by `scripts/practice-page.ts` from the rows in `src/practice`; change the rows, not this page.",
    "",
    "A simulated heart, limb, probe and display that know what is true. It trains eyes and tests detectors, and proves nothing about limbs.",
    "Each published figure it is held against has a test of its own in `src/practice/checks/`, whose title says whether the figure was predicted,",
    "fitted, or known from memory only. A fitted figure guards against change; it is no evidence.",
    "",
    "## Cannot do",
    "",
    "Figures from the vessels' own measuring code, usual person, 120/75.",
    "",
    ...cannotDo.map((line) => `- ${line}`),
    "",
    "## What can be turned",
    "",
    ...table(
      ["control", "what", "range", "at rest"],
      [...heartRows, ...siteRows].map(({ name, what, min, max, rest, unit }) => [
        `\`${name}\``,
        what,
        `${min} to ${max}${unit === "1" ? "" : ` ${unit}`}`,
        rest,
      ]),
    ),
    "## Scenarios",
    "",
    ...table(
      ["name", "seconds", "teaches"],
      scenarios.map(({ name, seconds, teaches }) => [`\`${name}\``, seconds, teaches]),
    ),
    "## Constants",
    "",
    "Support: `published` was read in the source; `memory` is known in the trade without a source read; `fitted` was set so that a figure is met; `calculated` follows from others.",
    "",
    ...constantTable("Heart", heartConstants),
    ...constantTable("Vessels", vesselConstants),
    ...constantTable("Light and probe", lightConstants),
    ...constantTable("Display", displayConstants),
  ].join("\n")}`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(practicePagePath, practicePage());
