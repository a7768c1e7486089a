// The service worker is one plain script at the top of the app: a build of its own.
import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { words } from "./pack/words.ts";
import { OUT, PACKAGE } from "./vite.config.ts";

export default defineConfig({
  plugins: [words(`${PACKAGE}/words`)],
  define: { "process.env.NODE_ENV": JSON.stringify("production") },
  publicDir: false,
  build: {
    outDir: OUT,
    emptyOutDir: false,
    target: "es2022",
    lib: {
      entry: fileURLToPath(new URL("./src/offline/service-worker.ts", import.meta.url)),
      formats: ["iife"],
      name: "fellwright",
      fileName: () => "service-worker.js",
    },
  },
});
