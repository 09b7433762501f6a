/** Pictures to files: SVG as it is, PNG for what cannot show SVG. */
import { writeFile } from "node:fs/promises";
import { extname } from "node:path";
import { fileFault } from "./file-source.js";
import { renderPng } from "./png.js";
import { inputStop, usageStop } from "./stop.js";

export type PictureForm = "svg" | "png";

/** @throws {Stop} usage, unless the name ends in .svg or .png */
export function pictureForm(path: string): PictureForm {
  const end = extname(path).toLowerCase();
  if (end === ".svg") return "svg";
  if (end === ".png") return "png";
  throw usageStop(`--picture ${path}: end the name in .svg or .png`);
}

/** @throws {Stop} bad input, when it cannot be written */
export async function writePicture(path: string, svg: string): Promise<void> {
  const bytes = pictureForm(path) === "png" ? await renderPng(svg) : svg;
  try {
    await writeFile(path, bytes);
  } catch (error) {
    throw inputStop(fileFault(path, error));
  }
}
