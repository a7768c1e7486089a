/// What the page knows of its copy on this phone: whether it is kept, and whether a newer one waits.
import type { Language } from "../words/speak.svelte.ts";

export interface Version {
  readonly version: string;
  readonly build: string;
  readonly brings: Readonly<Record<Language, string>>;
}

export type Kept =
  /** Not known yet. */
  | "looking"
  /** All of it lies on this phone. */
  | "yes"
  /** This address cannot keep it: no HTTPS, or the browser refuses. */
  | "no";

class Offline {
  kept = $state<Kept>("looking");
  waiting = $state.raw<Version | null>(null);
  current = $state.raw<Version | null>(null);
  /** The version that runs here, where another one ran when the app was opened last. */
  changed = $state.raw<Version | null>(null);
  private registration: ServiceWorkerRegistration | null = null;
  private wasControlled = false;

  async start(): Promise<void> {
    if (!("serviceWorker" in navigator)) {
      this.kept = "no";
      return;
    }
    const { serviceWorker } = navigator;
    this.wasControlled = serviceWorker.controller !== null;
    serviceWorker.addEventListener("controllerchange", () => this.taken());
    try {
      this.registration = await serviceWorker.register("service-worker.js", {
        updateViaCache: "none",
      });
    } catch {
      this.kept = serviceWorker.controller ? "yes" : "no";
      return;
    }
    this.registration.addEventListener("updatefound", () => this.watch());
    this.watch();
    await serviceWorker.ready;
    this.kept = "yes";
    this.current = await ask(this.registration.active);
    // A browser changes over by itself once every page of the old version is closed.
    if (this.current && (await isChanged(this.current.build))) this.changed = this.current;
  }

  /** Look for a newer version; without a network there is none. */
  async look(): Promise<void> {
    await this.registration?.update().catch(() => undefined);
  }

  /** Change over to the version that waits. The journal is no part of it and stays. */
  take(): void {
    this.registration?.waiting?.postMessage("take over");
  }

  private watch(): void {
    const registration = this.registration;
    if (!registration) return;
    const tell = async () => {
      if (registration.waiting && registration.active) {
        this.waiting = await ask(registration.waiting);
      }
    };
    registration.installing?.addEventListener("statechange", () => void tell());
    void tell();
  }

  private taken(): void {
    // The first worker takes over a page that came from the network: that is no change of version.
    if (this.wasControlled) location.reload();
    this.wasControlled = true;
  }
}

const SHELF = "fellwright build";

/** Whether another build ran here before this one; from now on this one did. */
async function isChanged(build: string): Promise<boolean> {
  try {
    const shelf = await caches.open(SHELF);
    const before = await (await shelf.match("build"))?.text();
    await shelf.put("build", new Response(build));
    return before !== undefined && before !== build;
  } catch {
    return false;
  }
}

function ask(worker: ServiceWorker | null): Promise<Version | null> {
  if (!worker) return Promise.resolve(null);
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => resolve(data as Version);
    worker.postMessage("who are you", [port2]);
  });
}

export const offline = new Offline();
