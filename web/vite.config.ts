import { svelte } from "@sveltejs/vite-plugin-svelte";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { words } from "./pack/words.ts";

const place = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export const PACKAGE = place("../src/fellwright");
/** The built app lies in the package, so that the wheel carries it. */
export const OUT = place("../src/fellwright/server/static");

export default defineConfig({
  root: place("."),
  base: "./",
  plugins: [svelte(), words(`${PACKAGE}/words`)],
  build: {
    outDir: OUT,
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: false,
  },
  worker: { format: "es" },
  test: {
    projects: [
      { extends: true, test: { name: "unit", include: ["tests/unit/**/*.test.ts"] } },
      {
        extends: true,
        test: {
          name: "browser",
          include: ["tests/browser/**/*.test.ts"],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
      {
        extends: true,
        test: {
          name: "webkit",
          include: ["tests/webkit/**/*.test.ts"],
          testTimeout: 300_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
