/// WebKitGTK driven by the W3C WebDriver protocol over fetch, on a screen that nobody sees.
import { spawn, type ChildProcess } from "node:child_process";
import { createServer } from "node:net";

const PATIENCE_MS = 60_000;
const ELEMENT = "element-6066-11e4-a52e-4f735466cecf";
const SCREEN = "-displayfd 1 -screen 0 820x1180x24 -nolisten tcp".split(" ");
/** Keys by their numbers in the protocol. */
const [TO_END, BACK, ENTER] = ["\uE010", "\uE003", "\uE007"];
const LONGEST_ENTRY = 12;
const MOST_TRIES = 200;

export interface WebKit {
  readonly version: string;
  open(address: string): Promise<void>;
  reload(): Promise<void>;
  /** Run a function in the page and wait for what it promises. It knows nothing of its file. */
  run<A extends readonly unknown[], T>(work: (...given: A) => T, ...given: A): Promise<Awaited<T>>;
  /** Wait for the first element under a CSS selector, or an XPath that begins with //. */
  text(selector: string): Promise<string>;
  /** What a field holds. */
  value(selector: string): Promise<string>;
  /** Replace what a field holds, key by key, and strike Enter. */
  type(selector: string, keys: string): Promise<void>;
  close(): Promise<void>;
}

/** How a function in the page ended. */
interface Done {
  readonly kept: never;
  readonly failed?: string;
}
type Call = <T = null>(method: string, path: string, body?: object) => Promise<T>;

/** Start screen, driver and browser. */
export async function startWebKit(): Promise<WebKit> {
  const screen = start("Xvfb", SCREEN);
  const running = [screen];
  const end = () => running.reverse().forEach((child) => child.kill());
  try {
    const display = `:${await firstLine(screen)}`;
    const port = await freePort();
    const env = { DISPLAY: display, LANGUAGE: "en" };
    running.push(start("WebKitWebDriver", [`--port=${port}`], env));
    const call = caller(`http://127.0.0.1:${port}`);
    await listening(call);
    return await newSession(call, end);
  } catch (error) {
    end();
    throw error;
  }
}

function start(name: string, given: string[], more: NodeJS.ProcessEnv = {}): ChildProcess {
  const child = spawn(name, given, {
    stdio: ["ignore", "pipe", "ignore"],
    env: { ...process.env, ...more },
  });
  child.on("error", () => undefined);
  return child;
}

function firstLine(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    child.once("error", reject);
    child.once("exit", (code) => reject(new Error(`${child.spawnfile} ended with ${code}`)));
    child.stdout?.once("data", (data) => resolve(String(data).trim()));
  });
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, "127.0.0.1", () => {
      const taken = server.address();
      server.close(() => resolve(typeof taken === "object" && taken ? taken.port : 0));
    });
  });
}

function caller(base: string): Call {
  return async <T>(method: string, path: string, body?: object) => {
    const sent = body && { body: JSON.stringify(body) };
    const response = await fetch(`${base}${path}`, { method, ...sent });
    const { value } = (await response.json()) as { value: T & Record<string, string> };
    if (!response.ok) throw new Error(`${path}: ${value["error"]}: ${value["message"]}`);
    return value;
  };
}

async function listening(call: Call): Promise<void> {
  for (let tries = 0; ; tries += 1) {
    try {
      await call("GET", "/status");
      return;
    } catch (error) {
      if (tries > MOST_TRIES) throw error;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  }
}

async function newSession(call: Call, end: () => void): Promise<WebKit> {
  const asked = { capabilities: { alwaysMatch: {} } };
  const { sessionId, capabilities } = await call<{
    sessionId: string;
    capabilities: { browserName: string; browserVersion: string };
  }>("POST", "/session", asked);
  const at = `/session/${sessionId}`;
  await call("POST", `${at}/timeouts`, { implicit: PATIENCE_MS, script: 5 * PATIENCE_MS });
  const found = async (selector: string) => {
    const using = selector.startsWith("//") ? "xpath" : "css selector";
    const body = { using, value: selector };
    const element = await call<Record<string, string>>("POST", `${at}/element`, body);
    return `${at}/element/${element[ELEMENT]}`;
  };
  return {
    version: `${capabilities.browserName} ${capabilities.browserVersion}`,
    open: (url) => call("POST", `${at}/url`, { url }),
    reload: () => call("POST", `${at}/refresh`, {}),
    run: async (work, ...given) => {
      const script = `const done = arguments[arguments.length - 1];
        const given = [...arguments].slice(0, -1);
        (async () => (${work})(...given))().then((kept) => done({ kept }),
          (error) => done({ failed: String(error) }));`;
      const body = { script, args: given };
      const done = await call<Done>("POST", `${at}/execute/async`, body);
      if (done.failed !== undefined) throw new Error(done.failed);
      return done.kept;
    },
    text: async (selector) => call("GET", `${await found(selector)}/text`),
    value: async (selector) => call("GET", `${await found(selector)}/property/value`),
    type: async (selector, text) => {
      const field = await found(selector);
      await call("POST", `${field}/value`, {
        text: `${TO_END}${BACK.repeat(LONGEST_ENTRY)}${text}${ENTER}`,
      });
    },
    close: async () => {
      await call("DELETE", at).finally(end);
    },
  };
}
