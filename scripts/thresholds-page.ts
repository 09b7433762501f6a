/**
 * Writes `docs/thresholds.md` from the rows in `src/rules`, so that the page a clinician
 * reads is the table the program uses. Run: `npx tsx scripts/thresholds-page.ts`.
 */
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { type MechanismRow, mechanisms, type Rule, rules } from "../src/rules/index.js";

export const thresholdsPagePath = fileURLToPath(new URL("../docs/thresholds.md", import.meta.url));

const titles: Readonly<Record<string, string>> = {
  capture: "Capture: when a trace is not to be believed",
  reading: "Readings",
  presence: "Presence: is there a wave at the heart's beat",
  absent: "Absence",
  pi: "Perfusion index (PI)",
  "pi-ratio": "PI of one site over another",
  "pi-fall": "PI before and after an act",
  delay: "Delay between sides",
  "rise-time": "Rise time",
  rate: "Rates",
  spo2: "SpO2",
};

function table(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
  return [line(head), line(head.map(() => "---")), ...rows.map(line)];
}

const threshold = (rule: Rule) =>
  `${rule.comparator} ${rule.value}${rule.unit === "1" ? "" : ` ${rule.unit.replace(/[{}]/g, "")}`}`;

/** The whole page as text, ending in a newline. */
export function thresholdsPage(all: readonly Rule[], ways: readonly MechanismRow[]): string {
  const families = [...new Set(all.map((rule) => rule.id.split(".")[0] ?? ""))];
  const lines = [
    "# Thresholds",
    "",
    "Made by `scripts/thresholds-page.ts` from the rows in `src/rules`; change the rows, not this page.",
    "",
    "A row's finding holds when its measure passes the threshold exactly as written: at `< 0.90` a value of",
    "0.90 does not pass. *Published*: the number was read in the source named. *Common practice*: used in the field,",
    "no one source. *Working default*: ours, or a published number known only from memory; to be confirmed by a",
    "clinician before anyone leans on it. The tool informs; local protocol, medical direction and licensed judgement decide.",
  ];
  for (const family of families) {
    lines.push("", `## ${titles[family] ?? family}`, "");
    lines.push(
      ...table(
        ["id", "holds when", "means", "support", "source", "note", "checked"],
        all
          .filter((rule) => rule.id.split(".")[0] === family)
          .map((rule) => [
            `\`${rule.id}\``,
            `${rule.measure} ${threshold(rule)}`,
            rule.text,
            rule.support,
            rule.source,
            rule.note ?? "",
            rule.date,
          ]),
      ),
    );
  }
  lines.push("", "## Ways a limb is hurt, and whether that can swell it", "");
  lines.push(
    "Where it can swell, and where the way is not stated: a pulse wave does not exclude a compartment syndrome.",
    "",
    ...table(
      ["id", "way", "can swell", "support", "source"],
      ways.map((way) => [`\`${way.id}\``, way.text, way.swells ? "yes" : "no", way.support, way.source]),
    ),
    "",
  );
  return lines.join("\n");
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(thresholdsPagePath, thresholdsPage(rules, mechanisms));
}
