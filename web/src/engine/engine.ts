/// The page's side of the engine: ask a question, get an answer or the faults of the request.
import type { FromWorker, ToWorker } from "./worker.ts";

export interface Fault {
  file: string;
  row: number | null;
  field: string;
  value: string;
  rule: string;
  remedy: string;
  code: string;
  text: string;
}

export type Outcome<T> =
  | { readonly kind: "answer"; readonly answer: T }
  | { readonly kind: "faults"; readonly faults: readonly Fault[] }
  | { readonly kind: "superseded" };

interface Waiting {
  resolve: (text: string | null) => void;
  reject: (error: Error) => void;
}

interface Queued {
  id: number;
  question: string;
  request: string;
  lane: string | undefined;
}

/** What the engine needs of a worker; a test brings its own. */
export interface Port {
  postMessage(message: ToWorker): void;
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

export class Engine {
  readonly ready: Promise<void>;
  private readonly waiting = new Map<number, Waiting>();
  private queue: Queued[] = [];
  private busy = false;
  private next = 1;

  constructor(
    private readonly port: Port,
    base: string,
  ) {
    this.ready = new Promise((resolve, reject) => {
      port.onmessage = ({ data }) => {
        if (data.kind === "ready") resolve();
        else if (data.kind === "failed") reject(new Error(data.message));
        else this.settle(data);
      };
      port.onerror = (event) => reject(new Error(event.message || "worker"));
    });
    port.postMessage({ kind: "start", base });
  }

  /**
   * Ask one question. Of questions in the same lane only the newest is worth an answer: an older
   * one that has not been started yet is given up.
   */
  async ask<T>(question: string, request: object, lane?: string): Promise<Outcome<T>> {
    const text = await this.asText(question, JSON.stringify(request), lane);
    if (text === null) return { kind: "superseded" };
    const whole = JSON.parse(text) as { answer?: T; faults?: Fault[] };
    return whole.faults
      ? { kind: "faults", faults: whole.faults }
      : { kind: "answer", answer: whole.answer as T };
  }

  /** Ask with the request as it goes to Python; the answer as it came. Null: superseded. */
  asText(question: string, request: string, lane?: string): Promise<string | null> {
    const id = this.next++;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject });
      if (lane !== undefined) this.giveUp(lane);
      this.queue.push({ id, question, request, lane });
      void this.ready.then(() => this.send(), reject);
    });
  }

  private giveUp(lane: string): void {
    for (const old of this.queue.filter((queued) => queued.lane === lane)) {
      this.waiting.get(old.id)?.resolve(null);
      this.waiting.delete(old.id);
    }
    this.queue = this.queue.filter((queued) => queued.lane !== lane);
  }

  private send(): void {
    const first = this.busy ? undefined : this.queue.shift();
    if (!first) return;
    this.busy = true;
    const { id, question, request } = first;
    this.port.postMessage({ kind: "question", id, question, request });
  }

  private settle(data: Extract<FromWorker, { id: number }>): void {
    const waiting = this.waiting.get(data.id);
    this.waiting.delete(data.id);
    this.busy = false;
    if (data.kind === "answered") waiting?.resolve(data.text);
    else waiting?.reject(new Error(data.message));
    this.send();
  }
}

/** Start the engine in a worker. */
export function startEngine(): Engine {
  const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
  return new Engine(worker, new URL("py/", document.baseURI).href);
}
