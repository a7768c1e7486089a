/// What can be found wrong with the screen that is shown: by axe-core, by a gloved thumb, at large text.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface Rule {
  readonly id: string;
  readonly nodes: { readonly html: string; readonly failureSummary?: string }[];
}
interface Axe {
  run(
    context: Document,
    options: object,
  ): Promise<{ readonly violations: Rule[]; readonly incomplete: Rule[] }>;
}

/**
 * Violations of the rules up to AA that axe-core knows, best practices included. What stays in sight
 * while one scrolls is let go of before: what lies beneath it just now is in the open after a push.
 */
export async function violations(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(AXE);
  return page.evaluate(async () => {
    const stuck = [...document.querySelectorAll<HTMLElement>("body *")].filter(
      (element) => getComputedStyle(element).position === "sticky",
    );
    for (const element of stuck) element.style.position = "static";
    const { axe } = globalThis as unknown as { axe: Axe };
    const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const found = await axe.run(document, { runOnly: rules });
    for (const element of stuck) element.style.position = "";
    const told = ({ id, nodes }: Rule) =>
      nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary}`);
    // Where axe-core cannot tell the contrast, nobody has looked at it; but for a sign alone, which
    // has the colours of every other button.
    const untold = found.incomplete.filter(({ id }) => id === "color-contrast").flatMap(told);
    return [
      ...found.violations.flatMap(told),
      ...untold.filter((line) => !line.includes("only non-text characters")),
    ];
  });
}

/** Twelve millimetres, less what rounding to whole pixels may take. */
const LEAST_PX = (12 * 96) / 25.4 - 0.5;

/** What is tapped and smaller than twelve millimetres in one direction; links within a text are none. */
export function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate((least) => {
    const wanted =
      "button, a, input:not([type=file]), select, summary, label.button, [role=option]";
    const found: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>(wanted)) {
      const { width, height } = element.getBoundingClientRect();
      if (width === 0 || !element.checkVisibility({ visibilityProperty: true })) continue;
      // The way past the head of the page is for keys alone.
      if (element.classList.contains("skip")) continue;
      if (element.tagName === "A" && getComputedStyle(element).display === "inline") continue;
      if (width >= least && height >= least) continue;
      found.push(`${width.toFixed(1)} x ${height.toFixed(1)}: ${element.outerHTML.slice(0, 120)}`);
    }
    return found;
  }, LEAST_PX);
}

/** At twice the size of text: what makes the page scroll sideways, and text that runs out of sight. */
export function lostAtLargeText(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const root = document.documentElement;
    // The app's own size is 112.5 % of what the person has set.
    root.style.fontSize = "225%";
    await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
    const found: string[] = [];
    const wide = root.clientWidth;
    if (root.scrollWidth > wide) found.push(`the page is ${root.scrollWidth} wide of ${wide}`);
    const holders = (from: Element | null): Element[] =>
      from ? [from, ...holders(from.parentElement)] : [];
    const nodes = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (nodes.nextNode()) {
      const node = nodes.currentNode;
      const parent = node.parentElement;
      if (!node.textContent?.trim() || !parent?.checkVisibility({ visibilityProperty: true }))
        continue;
      if (parent.closest(".hidden-text, .skip, option")) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) {
        if (box.width === 0) continue;
        for (const holder of holders(parent)) {
          const { overflowX, overflowY } = getComputedStyle(holder);
          const edge = holder === root ? { left: 0, right: wide } : holder.getBoundingClientRect();
          if (holder !== root && overflowX === "visible" && overflowY === "visible") continue;
          if (["auto", "scroll"].includes(overflowX) && holder !== root) break;
          if (box.left < edge.left - 1 || box.right > edge.right + 1) {
            found.push(
              `"${node.textContent.trim().slice(0, 60)}" from ${box.left.toFixed(0)} to ${box.right.toFixed(0)} in <${holder.tagName} class="${holder.className}">`,
            );
          }
        }
      }
    }
    root.style.fontSize = "";
    await new Promise((resolve) => requestAnimationFrame(resolve));
    return [...new Set(found)];
  });
}
