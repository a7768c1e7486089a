/// Runs the real `fellwright serve` for a test, and ends it.
import { spawn, type ChildProcess } from "node:child_process";
import { existsSync } from "node:fs";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";

export const REPOSITORY = fileURLToPath(new URL("../../../../", import.meta.url));
const BIN = process.env["FELLWRIGHT_BIN"] ?? `${REPOSITORY}.venv/bin`;

/** Path of a program of the project's Python. */
export function program(name: string): string {
  const path = `${BIN}/${name}`;
  if (!existsSync(path)) throw new Error(`${path} is missing: make setup, or set FELLWRIGHT_BIN`);
  return path;
}

export interface Serving {
  /** Address of the app, with a slash at its end. */
  readonly address: string;
  /** End it; resolves when the port is free. */
  stop(): Promise<void>;
}

export async function startServing(port = 0): Promise<Serving> {
  const child = spawn(program("fellwright"), ["serve", "--port", String(port)], {
    cwd: REPOSITORY,
    stdio: ["ignore", "pipe", "inherit"],
  });
  const address = await firstAddress(child);
  await reachable(address);
  return {
    address,
    stop: () =>
      new Promise((resolve) => {
        if (child.exitCode !== null || child.signalCode !== null) return resolve();
        child.once("exit", () => resolve());
        child.kill("SIGKILL");
      }),
  };
}

function firstAddress(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    child.once("exit", (code) => reject(new Error(`serve ended with ${code}`)));
    if (!child.stdout) return reject(new Error("no output"));
    createInterface({ input: child.stdout }).on("line", (line) => {
      const found = /http:\S+/.exec(line);
      if (found) resolve(found[0]);
    });
  });
}

async function reachable(address: string): Promise<void> {
  for (let tries = 0; ; tries += 1) {
    try {
      await fetch(address);
      return;
    } catch (error) {
      if (tries > 100) throw error;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  }
}
