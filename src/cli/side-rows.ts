/** The numbers of two sides as they are shown, the same in the terminal and in the picture. */
import type { Cell, SideRow } from "../handover/index.js";
import { figure, type Reading } from "../limb/index.js";

const nothing: Cell = { text: "–" };

/** %; no probe in use resolves less, so smaller limits would only pretend (ours, working default). */
const finest = 0.01;

function rateCell(reading: Reading): Cell {
  return reading.pulseRate === null ? nothing : { text: `${Math.round(reading.pulseRate.value)} /min` };
}

function indexCell(reading: Reading): Cell {
  if (reading.perfusionIndex !== null) return { text: `${figure(reading.perfusionIndex.value)} %` };
  const limit = reading.presence?.upperLimitIndex ?? null;
  if (limit === null) return nothing;
  // A limit rests on the same samples as everything else: not believed where they are not (S2).
  const trusted = reading.capture === "solid" || reading.capture === "none";
  return { text: `below ${figure(Math.max(limit, finest))} %`, struck: !trusted };
}

function saturationCell(reading: Reading): Cell {
  const { saturation } = reading;
  if (saturation === null) return nothing;
  const value = `${Math.round(saturation.value)} %`;
  if (saturation.fault === null) return { text: value };
  const age = saturation.age >= 1 ? `, ${Math.round(saturation.age)} s old` : "";
  return { text: value + age, struck: true };
}

function cuffCell({ declared }: Reading): Cell {
  return declared.cuff === true
    ? { text: "above probe" }
    : declared.cuff === false
      ? { text: "no" }
      : nothing;
}

/** Rows nobody has a number for are left out, except those that always count. */
export function sideRows(sound: Reading, suspect: Reading): SideRow[] {
  const row = (label: string, cell: (reading: Reading) => Cell): SideRow => ({
    label,
    sound: cell(sound),
    suspect: cell(suspect),
  });
  const shown = sound.saturation !== null || suspect.saturation !== null;
  const cuffed = sound.declared.cuff === true || suspect.declared.cuff === true;
  return [
    // Over the values it bears on (S6).
    ...(cuffed ? [row("cuff or tourniquet", cuffCell)] : []),
    row("capture", ({ capture }) => ({ text: capture, grade: capture })),
    row("pulse rate", rateCell),
    row("perfusion index", indexCell),
    ...(shown ? [row("SpO₂ shown", saturationCell)] : []),
  ];
}
