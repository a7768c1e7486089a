/// The same questions for both sides: this machine's Python, and a fresh worker of the built app.
import { execFileSync } from "node:child_process";
import { readdirSync } from "node:fs";
import { OUT } from "../../../vite.config.ts";
import { program, REPOSITORY } from "./serving.ts";

export interface Line {
  readonly question: string;
  readonly request: string;
  /** What Python on this machine answers. */
  readonly text: string;
}

/** Random trees and vans with this machine's answers. */
export function desktopAnswers(count: number, seed: number): Line[] {
  const lines = execFileSync(
    program("python"),
    ["-m", "tests.api.random_requests", "--count", String(count), "--seed", String(seed)],
    { cwd: REPOSITORY, maxBuffer: 1 << 28, encoding: "utf8" },
  );
  return lines
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as Line);
}

/** Address of the app's worker, from the app's folder. */
export function workerAddress(): string {
  const name = readdirSync(`${OUT}/assets`).find((file) => /^worker-.*\.js$/.test(file));
  if (!name) throw new Error("the app is not built");
  return `assets/${name}`;
}

export interface Asked {
  readonly url: string;
  readonly questions: readonly { readonly question: string; readonly request: string }[];
}

/** Runs in the page, so it knows nothing of this file: ask a fresh worker one after the other. */
export async function askWorker({ url, questions }: Asked): Promise<string[]> {
  const port = new Worker(new URL(url, document.baseURI), { type: "module" });
  const reply = () =>
    new Promise<{ text?: string; message?: string }>((resolve) => {
      port.onmessage = ({ data }) => resolve(data);
    });
  port.postMessage({ kind: "start", base: new URL("py/", document.baseURI).href });
  await reply();
  const texts: string[] = [];
  for (const [id, one] of questions.entries()) {
    const answered = reply();
    port.postMessage({ kind: "question", id, ...one });
    const { text, message } = await answered;
    texts.push(text ?? `broken: ${message}`);
  }
  port.terminate();
  return texts;
}
