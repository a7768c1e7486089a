// What a phone waits for, measured in Chromium and written as JSON; bench/bench_app.py runs this.
// Standard input: { app, serve, question, request, steps, repeats, quality }: folder of the built
// app, the command that serves it, what is asked, and the same with other hinges.
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { brotliCompressSync, constants } from "node:zlib";
import { askSteps, engineHere, slide, watchVerdict } from "./in_page.mjs";
import { firstLoad, openBrowser, startServing } from "./phone.mjs";

const THROTTLE = 4;

/** Bytes of every file, packed as a host sends it. */
function packedBytes(folder, quality) {
    const params = { [constants.BROTLI_PARAM_QUALITY]: quality };
    return readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => readFileSync(join(entry.parentPath ?? entry.path, entry.name)))
        .reduce((sum, content) => sum + brotliCompressSync(content, { params }).length, 0);
}

/** From asking for the page to the verdict on the screen [ms]. */
async function startToVerdict(context, tip) {
    const page = await context.newPage();
    await page.addInitScript(watchVerdict);
    await page.goto(tip);
    await page.waitForFunction(() => globalThis.verdictAt !== undefined);
    const at = await page.evaluate(() => globalThis.verdictAt);
    await page.close();
    return at;
}

/** The app's own worker script on the main thread of a bare page that may be slowed down. */
async function engineOnMainThread(context, address, asked, rate) {
    const page = await context.newPage();
    await page.goto(`${address}py/lock.json`);
    const session = await context.newCDPSession(page);
    await session.send("Emulation.setCPUThrottlingRate", { rate });
    const told = await page.evaluate(engineHere, asked);
    await page.close();
    return told;
}

/** Steps of the hinge slider in the app itself, one after the other [ms]. */
async function sliderSteps(context, tip, count) {
    const page = await context.newPage();
    await page.goto(tip);
    // Helps and assumed figures come last: then the engine is idle.
    await page.waitForSelector("main dl dt", { state: "attached" });
    const times = await page.evaluate(slide, count);
    await page.close();
    return times;
}

/** Other hinges with all draws, asked of a worker that has answered before [ms]. */
async function warmAnswers(context, address, asked) {
    const page = await context.newPage();
    await page.goto(`${address}py/lock.json`);
    const times = await page.evaluate(askSteps, asked);
    await page.close();
    return times;
}

async function repeated(count, once) {
    const found = [];
    for (let turn = 0; turn < count; turn += 1) found.push(await once());
    return found;
}

async function measure({ app, serve, question, request, steps, repeats, quality }) {
    const name = readdirSync(`${app}/assets`).find((file) => /^worker-.*\.js$/.test(file));
    const asked = { worker: `../assets/${name}`, question, request, steps };
    const profile = mkdtempSync(join(tmpdir(), "fellwright-bench-"));
    const bytes = packedBytes(app, quality);
    const serving = await startServing(serve);
    const { address } = serving;
    try {
        const loading = await openBrowser(profile);
        const tip = await firstLoad(loading, address);
        await loading.close();
        await serving.stop();
        // From here on there is no server: everything comes from the phone.
        const first_ms = await repeated(repeats, async () => {
            const fresh = await openBrowser(profile);
            const at = await startToVerdict(fresh, tip);
            await fresh.close();
            return at;
        });
        const context = await openBrowser(profile);
        const told = {
            bytes,
            browser: context.browser()?.version(),
            first_ms,
            start_ms: await repeated(repeats, () => startToVerdict(context, tip)),
            main: await repeated(repeats, () => engineOnMainThread(context, address, asked, 1)),
            slow: await repeated(repeats, () =>
                engineOnMainThread(context, address, asked, THROTTLE),
            ),
            slider_ms: await sliderSteps(context, tip, steps.length),
            answer_ms: await warmAnswers(context, address, asked),
            load: loadavg()[0],
        };
        await context.close();
        return told;
    } finally {
        await serving.stop();
        rmSync(profile, { recursive: true, force: true });
    }
}

console.log(JSON.stringify(await measure(JSON.parse(readFileSync(0, "utf8")))));
