/// The built app in WebKitGTK: the stand-in for iOS, where every browser is WebKit underneath.
/// Its automation keeps nothing when it ends: a restarted browser is tested in Chromium only.
import { execFileSync } from "node:child_process";
import { afterAll, beforeAll, expect, test } from "vitest";
import { DEMO_TREE } from "../../src/trees/demo.ts";
import { askWorker, desktopAnswers, workerAddress } from "../browser/support/asking.ts";
import { program, REPOSITORY, startServing, type Serving } from "../browser/support/serving.ts";
import { startWebKit, type WebKit } from "./driver.ts";

const VERDICT = ".verdict strong";
const HEIGHT = "//label[.='Tree height']/..//input";
const TYPED = "26,5";

let serving: Serving;
let webkit: WebKit;
const screen = (question: string) => `${serving.address}#/tree/${DEMO_TREE}/${question}`;

beforeAll(async () => {
  serving = await startServing();
  webkit = await startWebKit();
  console.log(webkit.version);
});
afterAll(async () => {
  await webkit?.close();
  await serving?.stop();
});

test("the demo opens, and its verdict is the command line's", async () => {
  const asked = ["tip", "examples/harrowlees-11.toml", "--kit", "examples/van-2.toml", "--json"];
  const printed = execFileSync(program("fellwright"), asked, { cwd: REPOSITORY, encoding: "utf8" });
  await webkit.open(`${serving.address}#/demo`);
  expect(await webkit.text(VERDICT)).toBe(JSON.parse(printed).verdict);
});

test("five random trees get the desktop's answers, digit for digit", async () => {
  const lines = desktopAnswers(5, 11);
  expect(lines).toHaveLength(5);
  const questions = lines.map(({ question, request }) => ({ question, request }));
  const texts = await webkit.run(askWorker, { url: workerAddress(), questions });
  for (const [index, line] of lines.entries()) {
    expect(JSON.parse(texts[index] ?? "null"), line.request).toEqual(JSON.parse(line.text));
  }
});

test("a reading is in the database when it was typed, and on the screen after a reload", async () => {
  await webkit.open(screen("measure"));
  await webkit.type(HEIGHT, TYPED);
  await expect.poll(() => webkit.run(typedHeights)).toContain(TYPED);
  await webkit.reload();
  await webkit.text("#measure-tree");
  expect(await webkit.value(HEIGHT)).toBe(TYPED);
});

test("with the server gone it opens again, with its entries and a verdict", async () => {
  await webkit.run(async () => {
    await navigator.serviceWorker.ready;
  });
  await serving.stop();
  await expect(fetch(serving.address)).rejects.toThrow();
  await webkit.open("about:blank");
  await webkit.open(screen("tip"));
  expect(await webkit.text(VERDICT)).not.toBe("");
  await webkit.open(screen("measure"));
  await webkit.reload();
  expect(await webkit.value(HEIGHT)).toBe(TYPED);
});

/** In the page: every height in the journal, as it was typed. */
function typedHeights(): Promise<string[]> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open("fellwright");
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      const reading = opening.result.transaction("entries").objectStore("entries").getAll();
      reading.onerror = () => reject(reading.error);
      reading.onsuccess = () => {
        opening.result.close();
        const bodies = reading.result.map((entry) => entry.body);
        resolve(bodies.filter(({ path }) => path === "tree.height_m").map(({ typed }) => typed));
      };
    };
  });
}
