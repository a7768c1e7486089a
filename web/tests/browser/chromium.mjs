// Which Chromium the browser tests drive: named by FELLWRIGHT_CHROMIUM, on the path, or playwright's own.
import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const NAMES = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

function runs(path) {
    try {
        accessSync(path, constants.X_OK);
        return true;
    } catch {
        return false;
    }
}

/** Path of the browser; throws with what to do where there is none. */
export function chromiumPath() {
    const named = process.env["FELLWRIGHT_CHROMIUM"];
    if (named) return named;
    const folders = (process.env["PATH"] ?? "").split(delimiter);
    const onPath = NAMES.flatMap((name) => folders.map((folder) => join(folder, name)));
    const found = [...onPath, chromium.executablePath()].find(runs);
    if (found) return found;
    throw new Error("no Chromium found: install it, or name one in FELLWRIGHT_CHROMIUM");
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) console.log(chromiumPath());
