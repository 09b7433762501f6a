/** SVG to PNG without a browser; the same bytes on every machine, since font and renderer come along. */
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { initWasm, Resvg } from "@resvg/resvg-wasm";

/** Pixels of the PNG for one px of the page: sharp on a phone and on paper. */
const scale = 3;

const family = "Atkinson Hyperlegible Next";
const parts = {
  renderer: ["resvg.wasm", "@resvg/resvg-wasm/index_bg.wasm"],
  regular: [
    "AtkinsonHyperlegibleNext_400Regular.ttf",
    "@expo-google-fonts/atkinson-hyperlegible-next/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf",
  ],
  bold: [
    "AtkinsonHyperlegibleNext_700Bold.ttf",
    "@expo-google-fonts/atkinson-hyperlegible-next/700Bold/AtkinsonHyperlegibleNext_700Bold.ttf",
  ],
} as const;

/** Beside the built program, or among the packages when run from source. */
function load([built, packaged]: readonly [string, string]): Promise<Uint8Array> {
  const beside = new URL(built, import.meta.url);
  return readFile(existsSync(beside) ? beside : new URL(`../../node_modules/${packaged}`, import.meta.url));
}

let ready: Promise<readonly Uint8Array[]> | null = null;

async function prepare(): Promise<readonly Uint8Array[]> {
  const [renderer, regular, bold] = await Promise.all([
    load(parts.renderer),
    load(parts.regular),
    load(parts.bold),
  ]);
  await initWasm(renderer);
  return [regular, bold];
}

export async function renderPng(svg: string): Promise<Uint8Array> {
  ready ??= prepare();
  const fontBuffers = [...(await ready)];
  const drawing = new Resvg(svg, {
    font: { fontBuffers, defaultFontFamily: family, sansSerifFamily: family },
    fitTo: { mode: "zoom", value: scale },
  });
  return drawing.render().asPng();
}
