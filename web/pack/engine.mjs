// Packs Python, byte-compiled by the very interpreter that will run it: the standard library and the engine.
import { mkdirSync, copyFileSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { loadPyodide } from "pyodide";

const here = dirname(fileURLToPath(import.meta.url));
const repository = join(here, "..", "..");
const out = join(repository, "src", "fellwright", "server", "static", "py");
const pyodide = dirname(createRequire(import.meta.url).resolve("pyodide"));

/** No package is ever fetched: the lock holds none. */
const { info } = JSON.parse(readFileSync(join(pyodide, "pyodide-lock.json"), "utf8"));
export const LOCK = JSON.stringify({ info, packages: {} });

mkdirSync(out, { recursive: true });
const py = await loadPyodide({ lockFileContents: LOCK });
py.FS.mkdirTree("/package");
py.FS.mount(py.FS.filesystems.NODEFS, { root: join(repository, "src") }, "/package");
py.FS.writeFile("/stdlib.zip", readFileSync(join(pyodide, "python_stdlib.zip")));
py.FS.writeFile("/made_methods.py", readFileSync(join(here, "made_methods.py")));
py.runPython(readFileSync(join(here, "pack.py"), "utf8"));
for (const name of ["stdlib.zip", "engine.zip"]) {
    writeFileSync(join(out, name), py.FS.readFile(`/packed/${name}`));
}
for (const name of ["pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm"]) {
    copyFileSync(join(pyodide, name), join(out, name));
}
writeFileSync(join(out, "lock.json"), LOCK);
