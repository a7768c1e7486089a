/// A newer version of the app: a copy of the built one, changed and finished as a build is.
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { sentences } from "./words.ts";

const FINISH = fileURLToPath(new URL("../../../pack/finish.mjs", import.meta.url));
const WORKER = "service-worker.js";
const MANIFEST = /\[\{"url":.*?\}\]/;
const BUILD = /\{"version":"[^"]*","build":"[^"]*"\}/;

/** What the changed copy says where the built one says that a demo tree is there. */
export const NEWER_WORDS = "Newer words on the first screen.";

function replaced(text: string, old: string | RegExp, by: string): string {
  const now = text.replace(old, () => by);
  if (now === text) throw new Error(`nothing to replace by ${by}`);
  return now;
}

function change(file: string, how: (text: string) => string): void {
  writeFileSync(file, how(readFileSync(file, "utf8")));
}

/** Change the app in a folder into a newer one; returns the path of a file that only the newer one has. */
export function makeNewer(folder: string, version: string, brings: string): string {
  const assets = join(folder, "assets");
  const script = readdirSync(assets).find((name) => /^index-.*\.js$/.test(name));
  if (!script) throw new Error("the app is not built");
  const newer = `index-${version}.js`;
  change(join(assets, script), (text) =>
    replaced(text, sentences("en")["screen_trees.demo_what"] ?? "", NEWER_WORDS),
  );
  renameSync(join(assets, script), join(assets, newer));
  change(join(folder, "index.html"), (text) => replaced(text, script, newer));
  const worker = join(folder, WORKER);
  // The places that a build fills in, empty again.
  change(worker, (text) =>
    replaced(replaced(text, MANIFEST, "self.__WB_MANIFEST"), BUILD, "__BUILD__"),
  );
  change(worker, (text) => replaced(text, sentences("en")["screen.version_brings"] ?? "", brings));
  execFileSync(process.execPath, [FINISH, folder]);
  change(worker, (text) => replaced(text, /"version":"[^"]*"/, `"version":"${version}"`));
  return `assets/${newer}`;
}
