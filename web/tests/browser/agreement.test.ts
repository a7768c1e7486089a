/// The engine in the browser says what the engine on the desktop says, to the last shown digit.
import { execFileSync } from "node:child_process";
import { afterAll, beforeAll, expect, test } from "vitest";
import { askWorker, desktopAnswers, workerAddress, type Line } from "./support/asking.ts";
import { forget, openPhone, type Phone } from "./support/phone.ts";
import { program, REPOSITORY, startServing, type Serving } from "./support/serving.ts";

const TREES = 200;
let serving: Serving;
let phone: Phone;

beforeAll(async () => {
  serving = await startServing();
  phone = await openPhone(serving.address);
});
afterAll(async () => {
  await phone.close();
  forget(phone.profile);
  await serving.stop();
});

/** Ask a fresh worker of the app all of it, one after the other. */
function browserAnswers(lines: readonly Line[]): Promise<string[]> {
  const questions = lines.map(({ question, request }) => ({ question, request }));
  return phone.page.evaluate(askWorker, { url: workerAddress(), questions });
}

test(`${TREES} random trees get the same answer, digit for digit, on desktop and phone`, async () => {
  const lines = desktopAnswers(TREES, 7);
  expect(lines).toHaveLength(TREES);
  const texts = await browserAnswers(lines);
  const verdicts = new Set<string>();
  for (const [index, line] of lines.entries()) {
    const here = JSON.parse(texts[index] ?? "null");
    expect(here, line.request).toEqual(JSON.parse(line.text));
    if (here.answer) verdicts.add(here.answer.tip.verdict);
  }
  // The draw would prove little if it met one verdict only.
  expect([...verdicts].sort()).toEqual(["ADDS UP", "LEAVE", "LINE", "MEASURE", "TIGHT"]);
}, 600_000);

test("the commands print the digits that the phone shows", async () => {
  const kit = "examples/van-2.toml";
  for (const tree of ["harrowlees-11", "pikeless-moss-33", "quernholt-17"]) {
    const file = `examples/${tree}.toml`;
    const tables = (path: string): object =>
      JSON.parse(
        execFileSync(
          program("python"),
          [
            "-c",
            "import json,sys,tomllib; print(json.dumps(tomllib.load(open(sys.argv[1],'rb'))))",
            path,
          ],
          { cwd: REPOSITORY, encoding: "utf8" },
        ),
      );
    const request = JSON.stringify({ tree: tables(file), kit: tables(kit) });
    const [text] = await browserAnswers([{ question: "sheet", request, text: "" }]);
    const { answer } = JSON.parse(text ?? "null");
    const asked = ["tip", file, "--kit", kit];
    const run = (...more: string[]): string =>
      execFileSync(program("fellwright"), [...asked, ...more], {
        cwd: REPOSITORY,
        encoding: "utf8",
      });
    expect(answer.tip).toEqual(JSON.parse(run("--json")));
    const printed = run();
    for (const row of answer.shown.need) {
      expect(printed).toMatch(
        new RegExp(`${row.name}\\s+${[row.p10, row.p50, row.p90].join("\\s+")}\\s`),
      );
    }
  }
}, 120_000);
