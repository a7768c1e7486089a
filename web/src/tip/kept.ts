/// A verdict kept in the journal: the request, the answer and the engine that gave it.
import type { Sheet } from "../engine/answers.ts";
import type { Body, Entry, Json } from "../journal/event.ts";

export function planBody(request: Body, sheet: Sheet): Body {
  return {
    request,
    verdict: sheet.tip.verdict,
    engine: sheet.engine,
    answer: sheet.tip as unknown as Json,
  };
}

/** Whether the newest verdict kept is the answer to this very request. */
export function isKept(kept: Entry | undefined, request: Body, sheet: Sheet): boolean {
  return (
    kept !== undefined &&
    kept.body["engine"] === sheet.engine &&
    kept.body["verdict"] === sheet.tip.verdict &&
    JSON.stringify(kept.body["request"]) === JSON.stringify(request)
  );
}

/** Day and time of an entry as they are written in a language. */
export function writtenTime(at: string, language: string): string {
  const shape = { dateStyle: "medium", timeStyle: "short" } as const;
  return new Intl.DateTimeFormat(language === "en" ? "en-GB" : language, shape).format(
    new Date(at),
  );
}
