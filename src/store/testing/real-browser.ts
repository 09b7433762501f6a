/** A Chromium of this machine with a profile of its own on the disk, that a test may kill. */
import { type ChildProcess, spawn } from "node:child_process";
import { type Browser, chromium, type Page } from "playwright-core";

export interface RealBrowser {
  readonly browser: Browser;
  readonly page: Page;
  /** Ends the whole browser at once, as a flat battery does. */
  kill(): Promise<void>;
  close(): Promise<void>;
}

export async function startBrowser(path: string, profile: string, url: string): Promise<RealBrowser> {
  const root = process.getuid?.() === 0;
  const child = spawn(
    path,
    [
      "--headless",
      "--disable-gpu",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      ...(root ? ["--no-sandbox"] : []),
      "--remote-debugging-port=0",
      `--user-data-dir=${profile}`,
      "about:blank",
    ],
    { stdio: ["ignore", "ignore", "pipe"], detached: true },
  );
  const gone = new Promise<void>((resolve) => child.once("exit", () => resolve()));
  const browser = await chromium.connectOverCDP(await addressOf(child));
  const page = browser.contexts()[0]!.pages()[0]!;
  await page.goto(url);
  return {
    browser,
    page,
    async kill() {
      // The group: a browser is several processes, and the ones that write must die with it.
      process.kill(-child.pid!, "SIGKILL");
      await gone;
    },
    async close() {
      await browser.close().catch(() => {});
      if (child.exitCode === null && child.signalCode === null) process.kill(-child.pid!, "SIGTERM");
      await gone;
    },
  };
}

/** Where it listens, as it says itself on its way up. */
function addressOf(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = "";
    child.stderr!.on("data", (chunk) => {
      said += chunk;
      const match = /DevTools listening on (ws:\S+)/.exec(said);
      if (match !== null) resolve(match[1] as string);
    });
    child.once("exit", () => reject(new Error(`the browser ended before it listened: ${said.slice(-400)}`)));
  });
}
