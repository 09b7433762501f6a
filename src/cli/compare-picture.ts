/** The waterline of one comparison. */
import { clockText, type SideRow, type WaterlineSide, waterlinePicture } from "../handover/index.js";
import { figure, type Reading, rolesOf } from "../limb/index.js";
import { hasLevel, type Site, siteName, type Window } from "../model/index.js";
import { collectTraces, type Stretch } from "./collect-traces.js";
import { doubtLines } from "./compare-text.js";
import type { SideComparison } from "./engine.js";
import type { OpenedSource } from "./open-source.js";
import { plainText } from "./plain-text.js";
import { capital } from "./read-picture.js";
import { sideRows } from "./side-rows.js";

/** Seconds on the picture: five to ten beats, each wide enough to see. */
const shownSeconds = 8;
const bins = 640;

/** The earliest eight seconds whose windows all carry the reading's own grade, else its start. */
export function typicalStretch(reading: Reading, windows: readonly Window[]): Stretch {
  let run: number | null = null;
  for (const window of windows) {
    const from = Math.max(window.from, reading.from);
    const to = Math.min(window.to, reading.to);
    if (to <= from) continue;
    if (window.capture !== reading.capture) run = null;
    else {
      run ??= from;
      if (to - run >= shownSeconds) return { from: run, to: run + shownSeconds };
    }
  }
  return { from: reading.from, to: reading.from + shownSeconds };
}

function headOf(site: Site | null, role: string): string {
  return site === null ? role : `${site.side}, ${role}`;
}

async function sideOf(
  source: OpenedSource,
  reading: Reading,
  stretch: Stretch,
  role: string,
  comparable: boolean,
): Promise<WaterlineSide> {
  const [part] = await collectTraces(source.recording, source.at, [stretch], bins);
  const feet = reading.beats.flatMap((beat) => beat.foot ?? []);
  const mean = part!.mean;
  return {
    name: reading.site === null ? "" : capital(siteName(reading.site)),
    head: headOf(reading.site, role),
    role,
    capture: reading.capture,
    trace: part!.trace,
    // Beats of a stretch that isn't believable are not drawn as beats (S2).
    feet: reading.capture === "solid" ? feet : [],
    lightLevel: comparable && hasLevel(source.channel) && mean !== null && mean > 0 ? mean : null,
  };
}

function delayText(delay: number): string {
  const size = Math.round(Math.abs(delay));
  return size === 0 ? "0 ms" : `${size} ms ${delay < 0 ? "earlier" : "later"}`;
}

/** What differs, in the suspect side's column. */
function differenceRows({ comparison }: SideComparison): SideRow[] {
  const roles = rolesOf(comparison.sound, comparison.suspect);
  const row = (label: string, text: string): SideRow => ({ label, sound: { text: "" }, suspect: { text } });
  const { piRatio, delay } = comparison;
  return [
    ...(piRatio === null
      ? []
      : [row(`size, ${roles.suspect} over ${roles.sound}`, `× ${figure(piRatio.value)}`)]),
    ...(delay === null ? [] : [row("delay", delayText(delay.value))]),
  ];
}

export async function comparePicture(
  sound: OpenedSource,
  suspect: OpenedSource,
  result: SideComparison,
  oneClock: boolean,
): Promise<string> {
  const { comparison } = result;
  const roles = rolesOf(comparison.sound, comparison.suspect);
  const soundStretch = typicalStretch(result.sound, result.soundWindows);
  const overlap = soundStretch.from >= result.suspect.from && soundStretch.to <= result.suspect.to;
  const together = oneClock && overlap;
  const suspectStretch = together ? soundStretch : typicalStretch(result.suspect, result.suspectWindows);
  // Red beside infrared has another perfusion index; sizes then may not share a scale.
  const comparable = sound.channel.colour === suspect.channel.colour;
  const name = (source: OpenedSource) => plainText(source.file.replace(/^.*[/\\]/s, ""));
  const from = (stretch: Stretch) => clockText(stretch.from);
  const context =
    name(sound) === name(suspect)
      ? `${name(sound)}, from ${from(soundStretch)}`
      : `${name(sound)} from ${from(soundStretch)}, ${name(suspect)} from ${from(suspectStretch)}`;
  return waterlinePicture({
    // What it can't see stands under the picture in full.
    sentence: comparison.sentence.split(" This cannot see ")[0]!,
    context,
    sound: await sideOf(sound, result.sound, soundStretch, roles.sound, comparable),
    suspect: await sideOf(suspect, result.suspect, suspectStretch, roles.suspect, comparable),
    together,
    rows: [...sideRows(result.sound, result.suspect), ...differenceRows(result)],
    cannotSee: comparison.cannotSee,
    couldBeWrong: doubtLines(comparison),
  });
}
