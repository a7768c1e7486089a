// Last step of the build: name every file in the service worker, each with the hash of its content.
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";

const here = fileURLToPath(new URL(".", import.meta.url));
const out = process.argv[2] ?? join(here, "..", "..", "src", "fellwright", "server", "static");
const WORKER = "service-worker.js";

function files(folder) {
    return readdirSync(folder)
        .sort()
        .flatMap((name) => {
            const path = join(folder, name);
            return statSync(path).isDirectory() ? files(path) : [path];
        });
}

const digest = (content) => createHash("sha256").update(content).digest("hex");

const kept = files(out)
    .map((path) => ({ path, url: relative(out, path).split("\\").join("/") }))
    .filter(({ url }) => url !== WORKER)
    .map(({ path, url }) => ({ url, revision: digest(readFileSync(path)).slice(0, 20) }));

const { version } = JSON.parse(readFileSync(join(here, "..", "package.json"), "utf8"));
const build = digest(JSON.stringify(kept)).slice(0, 8);
const worker = join(out, WORKER);
const source = readFileSync(worker, "utf8");
for (const place of ["self.__WB_MANIFEST", "__BUILD__"]) {
    if (!source.includes(place)) throw new Error(`${WORKER} has no ${place}`);
}
writeFileSync(
    worker,
    source
        .replace("self.__WB_MANIFEST", () => JSON.stringify(kept))
        .replace("__BUILD__", () => JSON.stringify({ version, build })),
);
console.log(`${kept.length} files kept offline, version ${version}, build ${build}`);
