/** A source as typed: `FILE#CHANNEL@FROM-TO`, where file names may hold # and @ themselves. */
import { parseSpan } from "./clock-time.js";
import { type Span, wholeSpan } from "./engine.js";
import { inputStop } from "./stop.js";

export interface SourceName {
  readonly file: string;
  /** As typed; `null` when left out. */
  readonly channel: string | null;
  readonly span: Span;
}

/** What stands at a path; `other` is anything that is not a file with a known length. */
export type Standing = "file" | "folder" | "other" | "nothing";

/** Channel and span after the file's name; `null` if the rest has not that form. */
function parseRest(rest: string): Omit<SourceName, "file"> | null {
  if (rest === "") return { channel: null, span: wholeSpan };
  if (rest.startsWith("@")) {
    const span = parseSpan(rest.slice(1));
    return span === null ? null : { channel: null, span };
  }
  const at = rest.lastIndexOf("@");
  const span = at > 0 ? parseSpan(rest.slice(at + 1)) : null;
  const channel = span === null ? rest.slice(1) : rest.slice(1, at);
  if (channel === "") return null;
  return { channel, span: span ?? wholeSpan };
}

/** Places where the file's name may end, latest first. */
function cuts(text: string): number[] {
  const marks = [...text.matchAll(/[#@]/g)].map((match) => match.index).filter((at) => at > 0);
  return [text.length, ...marks.reverse()];
}

/**
 * Reads a source name. The longest path that exists as a file is the file.
 *
 * @param stand tells what is at a path
 * @throws {Stop} bad input, when no part of the text is a file, or what follows it is not understood
 */
export async function parseSourceName(
  text: string,
  stand: (path: string) => Promise<Standing>,
): Promise<SourceName> {
  let seen: { file: string; standing: Standing } | null = null;
  for (const at of cuts(text)) {
    const file = text.slice(0, at);
    const standing = await stand(file);
    if (standing === "nothing") continue;
    if (standing !== "file") {
      seen ??= { file, standing };
      continue;
    }
    const rest = parseRest(text.slice(at));
    if (rest !== null) return { file, ...rest };
    if (/@(\d[\d:.]*)?-\d[\d:.]*$/.test(text)) {
      throw inputStop(`${file}: "${text.slice(text.lastIndexOf("@"))}" ends before or where it begins`);
    }
    throw inputStop(
      `${file}: "${text.slice(at)}" is not #CHANNEL, @FROM-TO or both, e.g. ${file}#PLETH@0:30-1:30`,
    );
  }
  if (seen?.standing === "folder") throw inputStop(`${seen.file}: is a folder; name a file in it`);
  if (seen !== null) throw inputStop(`${seen.file}: is not a regular file; save it as a file first`);
  // Nothing of that name: the first # or @ most likely ended the name.
  throw inputStop(`${text.replace(/(?<=.)[#@].*$/s, "")}: no such file`);
}
