/// The engine in a worker of its own: Python, byte-compiled, with no way to the network but its own folder.
import type { PyodideInterface } from "pyodide";

/** What the page says first: where the Python files lie. */
export interface Start {
  kind: "start";
  base: string;
}
export interface Question {
  kind: "question";
  id: number;
  question: string;
  request: string;
}
export type ToWorker = Start | Question;

export interface Ready {
  kind: "ready";
}
export interface Failed {
  kind: "failed";
  message: string;
}
export interface Answered {
  kind: "answered";
  id: number;
  text: string;
}
export interface Broken {
  kind: "broken";
  id: number;
  message: string;
}
export type FromWorker = Ready | Failed | Answered | Broken;

type Answer = (question: string, request: string) => string;

const ENGINE = "/engine";
let answer: Promise<Answer> | undefined;

async function fetched(url: string): Promise<ArrayBuffer> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`${url}: ${response.status}`);
  return response.arrayBuffer();
}

async function start(base: string): Promise<Answer> {
  const [{ loadPyodide }, lock, engine] = await Promise.all([
    import(/* @vite-ignore */ `${base}pyodide.mjs`) as Promise<typeof import("pyodide")>,
    fetched(`${base}lock.json`),
    fetched(`${base}engine.zip`),
  ]);
  const python: PyodideInterface = await loadPyodide({
    indexURL: base,
    lockFileContents: new TextDecoder().decode(lock),
    stdLibURL: `${base}stdlib.zip`,
    env: { HOME: "/", PYTHONHASHSEED: "0", PYTHONDONTWRITEBYTECODE: "1" },
  });
  python.FS.writeFile(`${ENGINE}.zip`, new Uint8Array(engine));
  python.runPython(`import sys; sys.path.insert(0, "${ENGINE}.zip")`);
  python.pyimport("made_methods").use();
  return python.pyimport("fellwright.api.text_door").answer_text as Answer;
}

function post(message: FromWorker): void {
  self.postMessage(message);
}

self.onmessage = async (event: MessageEvent<ToWorker>) => {
  const message = event.data;
  if (message.kind === "start") {
    answer = start(message.base);
    try {
      await answer;
      post({ kind: "ready" });
    } catch (error) {
      post({ kind: "failed", message: String(error) });
    }
    return;
  }
  try {
    if (!answer) throw new Error("asked before it was started");
    const text = (await answer)(message.question, message.request);
    post({ kind: "answered", id: message.id, text });
  } catch (error) {
    post({ kind: "broken", id: message.id, message: String(error) });
  }
};
