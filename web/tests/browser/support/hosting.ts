/// A plain static host as anybody may rent one: it serves a folder, and a test may change it under way.
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { extname, join, normalize } from "node:path";
import { OUT } from "../../../vite.config.ts";

const TYPES: Readonly<Record<string, string>> = {
  ".css": "text/css",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".json": "application/json",
  ".mjs": "text/javascript",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
  ".zip": "application/zip",
};

export interface Hosting {
  readonly address: string;
  /** The folder that is served; a test may change what is in it. */
  readonly folder: string;
  /** Every path that was asked for, in order. */
  readonly asked: string[];
  /** Paths that are answered with 404. */
  readonly missing: Set<string>;
  stop(): Promise<void>;
}

/** A copy of the built app, to be changed. */
export function copyOfApp(): string {
  if (!existsSync(join(OUT, "index.html"))) throw new Error("the app is not built");
  const folder = mkdtempSync(join(tmpdir(), "fellwright-host-"));
  cpSync(OUT, folder, { recursive: true });
  return folder;
}

export async function startHosting(folder = copyOfApp()): Promise<Hosting> {
  const asked: string[] = [];
  const missing = new Set<string>();
  const server = createServer((request, response) => {
    const path = normalize(new URL(request.url ?? "/", "http://host").pathname).replace(
      /\/$/,
      "/index.html",
    );
    asked.push(path.slice(1));
    const file = join(folder, path);
    if (missing.has(path.slice(1)) || !existsSync(file)) {
      response.writeHead(404).end();
      return;
    }
    const type = TYPES[extname(file)] ?? "application/octet-stream";
    response.writeHead(200, { "Content-Type": type, "Cache-Control": "no-cache" });
    response.end(readFileSync(file));
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://127.0.0.1:${port}/`,
    folder,
    asked,
    missing,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => {
          rmSync(folder, { recursive: true, force: true });
          resolve();
        });
        server.closeAllConnections();
      }),
  };
}
