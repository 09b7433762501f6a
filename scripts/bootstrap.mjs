/**
 * `node scripts/bootstrap.mjs start|test|build|bench|accuracy`: installs what is missing, then does it.
 * Uses nothing but Node itself, so that it runs on a fresh clone.
 */
import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { findChromium, howToGetOne } from "./find-chromium.mjs";
import { root, runSteps, tool } from "./steps.mjs";

const node = process.execPath;
const work = {
  start: [["The worked example", node, "scripts/example.mjs"]],
  build: [["Building the command line", node, "scripts/build.mjs"]],
  test: [
    ["Types", tool("tsc"), "-p", "tsconfig.json"],
    ["Types of the pure folders: no clock, no network, no console", tool("tsc"), "-p", "tsconfig.pure.json"],
    ["Types of the browser folders", tool("tsc"), "-p", "tsconfig.browser.json"],
    ["Lint and format", tool("biome"), "check", "--error-on-warnings"],
    ["Building the command line", node, "scripts/build.mjs"],
    ["Tests", tool("vitest"), "run"],
  ],
  accuracy: [["Accuracy", tool("tsx"), "scripts/accuracy/main.ts", ...process.argv.slice(3)]],
  bench: [
    ["Speed", node, "--expose-gc", "--import", "tsx", "scripts/bench/main.ts", ...process.argv.slice(3)],
  ],
};

function stop(lines, code = 1) {
  console.error(`\n${lines.join("\n")}`);
  process.exit(code);
}

function checkNode() {
  const major = Number(process.versions.node.split(".")[0]);
  if (major >= 20) return;
  stop([
    `Limbtide needs Node 20 or newer; this is ${process.versions.node}.`,
    "Install a newer Node, then run the same command again.",
  ]);
}

/** The lock file's fingerprint is kept beside the packages, so a changed lock is noticed. */
async function installPackages() {
  const lock = createHash("sha256")
    .update(readFileSync(`${root}package-lock.json`))
    .digest("hex");
  const mark = `${root}node_modules/.installed-from`;
  if (existsSync(mark) && readFileSync(mark, "utf8") === lock) return;
  console.log("Installing packages (once; needs the network, about half a minute) …");
  const started = performance.now();
  const seconds = () => Math.round((performance.now() - started) / 1000);
  const npm = spawn("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: root,
    shell: process.platform === "win32",
  });
  let said = "";
  npm.stdout.on("data", (chunk) => {
    said += chunk;
  });
  npm.stderr.on("data", (chunk) => {
    said += chunk;
  });
  const tick = setInterval(() => console.log(`  still installing, ${seconds()} s`), 10_000);
  const code = await new Promise((done) => {
    npm.on("error", (error) => {
      said += error.message;
      done(1);
    });
    npm.on("close", done);
  });
  clearInterval(tick);
  if (code !== 0) {
    stop([
      "The packages could not be installed. What npm said:",
      said
        .trim()
        .split("\n")
        .slice(-8)
        .map((line) => `  ${line}`)
        .join("\n"),
      "Check that the network is reachable and the disk has 300 MB free, then run the same command again.",
    ]);
  }
  writeFileSync(mark, lock);
  console.log(`  installed in ${seconds()} s`);
}

/** Some tests need a real browser. As root on Debian it is fetched; elsewhere they say that they were left out. */
function fetchBrowser() {
  if (findChromium() !== null) return;
  const apt = ["-o", "DPkg::Lock::Timeout=300", "-o", "Acquire::Retries=2", "-qq"];
  if (process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    console.log("Installing Chromium for some tests (once; needs the network, about a minute) …");
    const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
    for (const what of [["update"], ["install", "-y", "--no-install-recommends", "chromium"]]) {
      spawnSync("apt-get", [...apt, ...what], {
        env,
        stdio: ["ignore", "ignore", "inherit"],
        timeout: 600_000,
      });
    }
  }
  if (findChromium() === null)
    console.log(`No Chromium: some tests will be left out. To run them, ${howToGetOne}.`);
}

const steps = work[process.argv[2]];
if (steps === undefined) stop([`Say what to do: ${Object.keys(work).join(", ")}.`], 64);
checkNode();
await installPackages();
if (process.argv[2] === "test") fetchBrowser();
process.exit(runSteps(steps));
