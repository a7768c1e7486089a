/// Opens the journal, then the app; with no storage it says so and goes on in memory.
import { mount } from "svelte";
import { openJournal } from "./journal/store.ts";
import { offline } from "./offline/update.svelte.ts";
import App from "./shell/App.svelte";
import "./shell/app.css";
import { app } from "./shell/app.svelte.ts";
import { deviceLanguage, speakIn } from "./words/speak.svelte.ts";

speakIn(deviceLanguage(navigator.languages));
app.start(await openJournal());
const target = document.getElementById("app");
if (!target) throw new Error("the page has no place for the app");
mount(App, { target });
void offline.start();
