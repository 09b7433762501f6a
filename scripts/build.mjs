/**
 * `node scripts/build.mjs`: bundles the command line into `dist/limbtide.mjs`, with the picture font and
 * the PNG renderer beside it. Each file is swapped in whole, so that builds may run side by side.
 */
import { copyFileSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { build } from "esbuild";
import { root } from "./steps.mjs";

const dist = `${root}dist/`;
const packages = `${root}node_modules/`;
const font = "@expo-google-fonts/atkinson-hyperlegible-next/";

const beside = [
  ["resvg.wasm", "@resvg/resvg-wasm/index_bg.wasm"],
  ["AtkinsonHyperlegibleNext_400Regular.ttf", `${font}400Regular/AtkinsonHyperlegibleNext_400Regular.ttf`],
  ["AtkinsonHyperlegibleNext_700Bold.ttf", `${font}700Bold/AtkinsonHyperlegibleNext_700Bold.ttf`],
  ["AtkinsonHyperlegibleNext-OFL.txt", `${font}LICENSE_FONT`],
];

const { version } = JSON.parse(readFileSync(`${root}package.json`, "utf8"));
const { outputFiles } = await build({
  entryPoints: [`${root}src/cli/entry.ts`],
  outfile: `${dist}limbtide.mjs`,
  bundle: true,
  write: false,
  platform: "node",
  target: "node20",
  format: "esm",
  // CommonJS packages inside an ES module still ask for Node's own modules by require.
  banner: {
    js: 'import { createRequire as limbtideRequire } from "node:module";\nconst require = limbtideRequire(import.meta.url);',
  },
  define: { LIMBTIDE_VERSION: JSON.stringify(version) },
  legalComments: "eof",
  logLevel: "warning",
});

mkdirSync(dist, { recursive: true });

/** Writes under another name first; a reader sees the old file or the new one, never half of it. */
function swapIn(name, write) {
  const draft = `${dist}.${name}.${process.pid}`;
  write(draft);
  renameSync(draft, dist + name);
}

for (const [name, from] of beside) swapIn(name, (draft) => copyFileSync(packages + from, draft));
swapIn("limbtide.mjs", (draft) => writeFileSync(draft, outputFiles[0].contents));
