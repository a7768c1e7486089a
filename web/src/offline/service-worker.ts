/// Keeps the whole app on the phone. Everything is fetched once, whole or not at all; afterwards nothing
/// is asked of any network. A new version waits until a person takes it.
import {
  cleanupOutdatedCaches,
  createHandlerBoundToURL,
  precacheAndRoute,
} from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import de from "virtual:words/de";
import en from "virtual:words/en";

interface Kept {
  readonly url: string;
  readonly revision: string;
}
interface Scope extends ServiceWorkerGlobalScope {
  /** Written in when the app is built. */
  readonly __WB_MANIFEST: Kept[];
}
declare const self: Scope;
/** Written in when the app is built: its version and the hash of all its files. */
declare const __BUILD__: { version: string; build: string };

precacheAndRoute(self.__WB_MANIFEST);
cleanupOutdatedCaches();
registerRoute(new NavigationRoute(createHandlerBoundToURL("index.html")));

self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("message", (event: ExtendableMessageEvent) => {
  if (event.data === "take over") event.waitUntil(self.skipWaiting());
  if (event.data === "who are you") {
    const brings = { en: en["screen.version_brings"], de: de["screen.version_brings"] };
    event.ports[0]?.postMessage({ ...__BUILD__, brings });
  }
});
