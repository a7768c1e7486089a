// The server, the browser and the first load of a measurement.
import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { chromium } from "playwright-core";
import { chromiumPath } from "../browser/chromium.mjs";

const ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--no-first-run"];
const PATIENCE_MS = 120_000;
const PHONE = { width: 360, height: 740 };

/** The real server, on a free port. */
export async function startServing([program, ...given]) {
    const child = spawn(program, given, { stdio: ["ignore", "pipe", "inherit"] });
    const ended = new Promise((resolve) => child.once("exit", resolve));
    const address = await new Promise((resolve, reject) => {
        child.once("error", reject);
        child.once("exit", (code) => reject(new Error(`serve ended with ${code}`)));
        createInterface({ input: child.stdout }).on("line", (line) => {
            const found = /http:\S+/.exec(line);
            if (found) resolve(found[0]);
        });
    });
    const stop = () => {
        child.kill("SIGKILL");
        return ended;
    };
    return { address, stop };
}

export async function openBrowser(profile) {
    const context = await chromium.launchPersistentContext(profile, {
        executablePath: chromiumPath(),
        args: ARGUMENTS,
        viewport: PHONE,
    });
    context.setDefaultTimeout(PATIENCE_MS);
    return context;
}

/** Load everything once, the example tree too; gives the address of its verdict. */
export async function firstLoad(context, address) {
    const page = await context.newPage();
    for (let tries = 0; !(await page.goto(`${address}#/demo`).catch(() => null)); tries += 1) {
        if (tries > 100) throw new Error(`${address} does not answer`);
        await page.waitForTimeout(50);
    }
    await page.waitForSelector(".verdict strong");
    await page.waitForFunction(async () => {
        const registration = await navigator.serviceWorker.ready;
        return registration.active?.state === "activated";
    });
    const tip = page.url();
    await page.close();
    return tip;
}
