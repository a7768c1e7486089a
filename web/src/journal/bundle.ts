/// All entries as one file to hand on, and such a file read in. The engine judges what comes in.
import { version } from "../../package.json";
import type { Answer } from "../engine/answers.ts";
import type { Fault, Outcome } from "../engine/engine.ts";
import { isEntry, type Entry } from "./event.ts";
import type { Journal, Merged } from "./journal.ts";
import { localTime } from "./stamp.ts";

const SCHEMA = "fellwright/bundle/1";
/** What the engine reads at most; a larger file is not even loaded into a phone's memory. */
const MOST_BYTES = 64 * 2 ** 20;

export type Ask = (
  question: "bundle",
  request: { bundle: string },
) => Promise<Outcome<Answer<"bundle">>>;

/** The text of a bundle: the same entries give the same text. */
export function bundleText(entries: readonly Entry[], device: string, now: number): string {
  const heading = { schema: SCHEMA, engine: version, exported_at: localTime(now), device };
  return `${JSON.stringify({ ...heading, events: entries })}\n`;
}

/** File name with the date and time of this place: fellwright-2026-03-02-0740. */
export function bundleName(now: number): string {
  const [date, time] = localTime(now).split("T") as [string, string];
  return `fellwright-${date}-${time.slice(0, 5).replace(":", "")}`;
}

/** Save a text as a file of this device. */
export function save(text: string, name: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const link = document.createElement("a");
  link.href = url;
  link.download = `${name}.json`;
  document.body.append(link);
  link.click();
  link.remove();
  // The browser takes the file after the click; a minute is ample, and a page that goes frees it too.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** Browsers pass on only files whose ending they know: `.txt` goes everywhere, `.json` does not. */
function shared(text: string, name: string): ShareData {
  return { files: [new File([text], `${name}.txt`, { type: "text/plain" })] };
}

export function canShare(): boolean {
  return typeof navigator.canShare === "function" && navigator.canShare(shared("", "fellwright"));
}

export type Handed = "shared" | "saved" | "given up";

/** Hand a text to another app of this device; where the browser will not, save it. */
export async function share(text: string, name: string): Promise<Handed> {
  try {
    await navigator.share(shared(text, name));
    return "shared";
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") return "given up";
    save(text, name);
    return "saved";
  }
}

export type FileRead =
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "unread"; readonly why: "too_large" | "not_text" | "gone" };

/** The text of a file a person chose. Text that is not UTF-8 is refused, never guessed at. */
export async function readText(file: Blob): Promise<FileRead> {
  if (file.size > MOST_BYTES) return { kind: "unread", why: "too_large" };
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch {
    return { kind: "unread", why: "gone" };
  }
  try {
    return { kind: "text", text: new TextDecoder("utf-8", { fatal: true }).decode(bytes) };
  } catch {
    return { kind: "unread", why: "not_text" };
  }
}

export type TakenIn =
  | (Merged & {
      readonly kind: "taken";
      /** Entries of a kind that this version does not know: kept as they are. */
      readonly unknown: number;
    })
  | { readonly kind: "refused"; readonly faults: readonly Fault[] };

/**
 * Take in a bundle: all of it, or nothing where the engine finds a fault. Throws `NotKept`; then
 * nothing is taken in either.
 */
export async function takeIn(text: string, journal: Journal, ask: Ask): Promise<TakenIn> {
  const outcome = await ask("bundle", { bundle: text });
  if (outcome.kind === "superseded") return { kind: "refused", faults: [] };
  if (outcome.kind === "faults") return { kind: "refused", faults: outcome.faults };
  const { events, unknown_kinds: unknown } = outcome.answer;
  if (!events.every((event) => isEntry(event))) {
    throw new Error("the engine passed what the journal cannot keep");
  }
  return { kind: "taken", ...(await journal.merge(events as unknown as Entry[])), unknown };
}
