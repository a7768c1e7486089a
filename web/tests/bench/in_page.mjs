// What runs inside the page. Each function is sent there by its source, so it knows only what it is given.

/** Before the page's own scripts: note when the verdict is there to be painted. */
export function watchVerdict() {
    new MutationObserver((_, observer) => {
        if (!document.querySelector(".verdict strong")?.textContent) return;
        observer.disconnect();
        requestAnimationFrame(() => (globalThis.verdictAt = performance.now()));
    }).observe(document, { childList: true, subtree: true, characterData: true });
}

/** Start the app's worker script on this very thread, ask it once, and tell the times [ms]. */
export async function engineHere({ worker, question, request }) {
    let heard;
    self.postMessage = (message) => heard(message);
    const say = (data) =>
        new Promise((resolve) => {
            heard = resolve;
            void self.onmessage({ data });
        });
    const begin = performance.now();
    await import(new URL(worker, location.href).href);
    const ready = await say({ kind: "start", base: new URL(".", location.href).href });
    const started = performance.now();
    const answered = await say({ kind: "question", id: 1, question, request });
    const end = performance.now();
    if (ready.kind !== "ready" || answered.kind !== "answered") {
        throw new Error(ready.message ?? answered.message);
    }
    return { text: answered.text, start_ms: started - begin, whole_ms: end - begin };
}

/** Ask a worker every step in turn, the request itself first; tells the times of the steps [ms]. */
export async function askSteps({ worker, question, request, steps }) {
    const port = new Worker(new URL(worker, location.href), { type: "module" });
    const say = (message) =>
        new Promise((resolve) => {
            port.onmessage = ({ data }) => resolve(data);
            port.postMessage(message);
        });
    await say({ kind: "start", base: new URL(".", location.href).href });
    await say({ kind: "question", id: 0, question, request });
    const times = [];
    for (const [id, step] of steps.entries()) {
        const begin = performance.now();
        const { kind, message } = await say({ kind: "question", id, question, request: step });
        if (kind !== "answered") throw new Error(message);
        times.push(performance.now() - begin);
    }
    port.terminate();
    return times;
}

/** Move the first slider to one new place after the other; tells how long each redraw took [ms]. */
export async function slide(count) {
    const section = document.querySelector("section[aria-labelledby='sliders']");
    const input = section.querySelector("input[type='range']");
    const planned = Number(input.value);
    const places = Array.from({ length: Number(input.max) + 1 }, (_, place) => place);
    const isDrawn = () => {
        const heading = section.querySelector("thead th:last-child")?.textContent ?? "";
        return heading.startsWith(section.querySelector("label strong").textContent);
    };
    const drawn = () =>
        new Promise((resolve) => {
            const look = () => {
                if (!isDrawn()) return;
                observer.disconnect();
                requestAnimationFrame(resolve);
            };
            const observer = new MutationObserver(look);
            observer.observe(section, { childList: true, subtree: true, characterData: true });
        });
    const times = [];
    for (const place of places.filter((one) => one !== planned).slice(0, count)) {
        const begin = performance.now();
        const redraw = drawn();
        input.value = String(place);
        input.dispatchEvent(new Event("input", { bubbles: true }));
        await redraw;
        times.push(performance.now() - begin);
    }
    return times;
}
