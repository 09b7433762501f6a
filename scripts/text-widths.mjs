/**
 * `node scripts/text-widths.mjs`: reads the advance widths out of the picture font and writes
 * `src/handover/font-widths.ts`, so that pictures can be laid out without a browser.
 * Tables as in the OpenType specification 1.9 (head, hhea, hmtx, cmap format 4).
 */
import { readFileSync, writeFileSync } from "node:fs";

const folder = new URL("../node_modules/@expo-google-fonts/atkinson-hyperlegible-next/", import.meta.url);
const first = 0x20;
const last = 0xff;

/** Advance of each code point from `first` to `last`, in thousandths of the font size; 0 where the font has none. */
function widths(weight) {
  const bytes = readFileSync(new URL(`${weight}/AtkinsonHyperlegibleNext_${weight}.ttf`, folder));
  const u16 = (at) => bytes.readUInt16BE(at);
  const table = {};
  for (let i = 0; i < u16(4); i++) {
    const at = 12 + 16 * i;
    table[bytes.toString("latin1", at, at + 4)] = bytes.readUInt32BE(at + 8);
  }
  const perEm = u16(table.head + 18);
  const metrics = u16(table.hhea + 34);
  let map = null;
  for (let i = 0; i < u16(table.cmap + 2); i++) {
    const at = table.cmap + bytes.readUInt32BE(table.cmap + 8 + 8 * i);
    if (u16(at) === 4) map = at;
  }
  if (map === null) throw new Error(`${weight}: no cmap of format 4`);
  const segments = u16(map + 6) / 2;
  const glyph = (code) => {
    for (let i = 0; i < segments; i++) {
      if (code > u16(map + 14 + 2 * i)) continue;
      const start = u16(map + 16 + 2 * segments + 2 * i);
      if (code < start) return 0;
      const delta = u16(map + 16 + 4 * segments + 2 * i);
      const offsetAt = map + 16 + 6 * segments + 2 * i;
      if (u16(offsetAt) === 0) return (code + delta) & 0xffff;
      const id = u16(offsetAt + u16(offsetAt) + 2 * (code - start));
      return id === 0 ? 0 : (id + delta) & 0xffff;
    }
    return 0;
  };
  return Array.from({ length: last - first + 1 }, (_, i) => {
    const id = glyph(first + i);
    if (id === 0) return 0;
    return Math.round((u16(table.hmtx + 4 * Math.min(id, metrics - 1)) * 1000) / perEm);
  });
}

const row = (values) => values.join(", ").replace(/(.{1,100})(?: |$)/g, "  $1\n");
writeFileSync(
  new URL("../src/handover/font-widths.ts", import.meta.url),
  `/**
 * Advance widths of Atkinson Hyperlegible Next (SIL Open Font Licence 1.1), thousandths of the font size,
 * for U+0020 to U+00FF; 0 where there is no glyph. Written by \`node scripts/text-widths.mjs\`; not by hand.
 */
export const firstCode = ${first};

// biome-ignore format: written by a script
export const regularWidths: readonly number[] = [
${row(widths("400Regular")).trimEnd()}
];

// biome-ignore format: written by a script
export const boldWidths: readonly number[] = [
${row(widths("700Bold")).trimEnd()}
];
`,
);
