/// What lies in the database of a phone, read past the app.
import type { Page } from "playwright-core";
import type { Entry } from "../../../src/journal/event.ts";

/** Every row of the journal, oldest first. */
export function entriesOf(page: Page): Promise<Entry[]> {
  return page.evaluate(
    () =>
      new Promise<Entry[]>((resolve, reject) => {
        const opening = indexedDB.open("fellwright");
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const db = opening.result;
          const asked = db.transaction("entries").objectStore("entries").getAll();
          asked.onerror = () => reject(asked.error);
          asked.onsuccess = () => {
            db.close();
            resolve(asked.result as Entry[]);
          };
        };
      }),
  );
}

/** Newest reading of a tree under a path; undefined where there is none. */
export function readingAt(entries: readonly Entry[], path: string): Entry | undefined {
  return entries.filter(({ kind, body }) => kind === "reading" && body["path"] === path).at(-1);
}
