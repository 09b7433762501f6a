/** Looks for a Chromium for the tests that need a browser. Uses nothing but Node itself. */
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";

const names = ["chromium", "chromium-browser"];
const places = ["/usr/bin", "/usr/local/bin", "/snap/bin", "/opt/homebrew/bin"];
const apps = ["/Applications/Chromium.app/Contents/MacOS/Chromium"];

export const howToGetOne =
  "install Chromium (Debian: apt-get install chromium) or set CHROMIUM_PATH to its program, then run again";

/**
 * @returns path of a program, or null
 * @throws {Error} when CHROMIUM_PATH names nothing
 */
export function findChromium() {
  const named = process.env.CHROMIUM_PATH;
  if (named) {
    if (existsSync(named)) return named;
    throw new Error(`CHROMIUM_PATH is ${named}, and no file is there: ${howToGetOne}`);
  }
  const folders = [...(process.env.PATH ?? "").split(delimiter), ...places];
  const all = [...folders.flatMap((folder) => names.map((name) => join(folder, name))), ...apps];
  return all.find((path) => existsSync(path)) ?? null;
}
