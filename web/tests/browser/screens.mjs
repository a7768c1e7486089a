// Pictures of every screen of the built app, to be looked at: npm run screens -- FOLDER
import { fileURLToPath } from "node:url";
import { runnerImport } from "vite";

const folder = process.argv[2];
if (!folder) {
    console.error("say where the pictures go: npm run screens -- FOLDER");
    process.exit(2);
}
const { module } = await runnerImport(fileURLToPath(new URL("support/shots.ts", import.meta.url)));
console.log(`${await module.takeShots(folder)} screens in ${folder}`);
