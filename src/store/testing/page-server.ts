/** Serves one page with the store in it from this machine: a browser keeps records only for an origin. */
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { build } from "esbuild";

export interface PageServer {
  readonly url: string;
  close(): Promise<void>;
}

/** @throws {Error} if the page does not bundle */
export async function servePage(): Promise<PageServer> {
  const { outputFiles } = await build({
    entryPoints: [join(import.meta.dirname, "browser-page.ts")],
    bundle: true,
    write: false,
    format: "iife",
    globalName: "page",
    target: "es2022",
    logLevel: "warning",
  });
  const script = outputFiles[0]!.text;
  const server = createServer((request, response) => {
    if (request.url === "/page.js") response.setHeader("content-type", "text/javascript").end(script);
    else
      response.setHeader("content-type", "text/html").end('<!doctype html><script src="/page.js"></script>');
  });
  await new Promise<void>((ready) => {
    server.listen(0, "127.0.0.1", ready);
  });
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    close: () =>
      new Promise((ended) => {
        server.closeAllConnections();
        server.close(() => ended());
      }),
  };
}
