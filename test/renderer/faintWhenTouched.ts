import AxeBuilder from "@axe-core/playwright";
import type { CDPSession, Page } from "playwright-core";

/** What a person touches. */
const CONTROLS = "button, summary, input, select, textarea, a[href]";

/**
 * Controls whose words are too faint (axe: 4.5:1, WCAG 2.2, 1.4.3) while they are hovered, pressed or armed. A pointer is
 * on one at a time; here all are put into the state at once.
 */
export async function faintWhenTouched(page: Page): Promise<readonly string[]> {
  const session = await page.context().newCDPSession(page);
  try {
    await session.send("DOM.enable");
    await session.send("CSS.enable");
    const faults: string[] = [];
    for (const [state, classes, armed] of [
      ["hovered", ["hover"], false],
      ["pressed", ["hover", "active"], false],
      ["armed", [], true],
      ["armed and hovered", ["hover"], true],
    ] as const) {
      // Where nothing can be armed there is nothing to be looked at.
      if (armed && (await page.locator("[aria-pressed]").count()) === 0) continue;
      const before = await setArmed(page, armed);
      const touched = await force(session, classes);
      faults.push(...(await faint(page)).map((one) => `${state}: ${one}`));
      await force(session, [], touched);
      await page.evaluate(takeBack, before);
    }
    return faults;
  } finally {
    await session.detach();
  }
}

/** Puts every control into these states; gives the nodes. */
async function force(session: CDPSession, states: readonly string[], known?: readonly number[]): Promise<number[]> {
  const { root } = await session.send("DOM.getDocument", { depth: 0 });
  const nodeIds =
    known ?? (await session.send("DOM.querySelectorAll", { nodeId: root.nodeId, selector: CONTROLS })).nodeIds;
  for (const nodeId of nodeIds)
    await session.send("CSS.forcePseudoState", { nodeId, forcedPseudoClasses: [...states] }).catch(() => undefined);
  return [...nodeIds];
}

/** Arms every control that can be: gives which were not. */
async function setArmed(page: Page, armed: boolean): Promise<readonly number[]> {
  if (!armed) return [];
  return page.evaluate(() =>
    [...document.querySelectorAll("[aria-pressed]")].flatMap((one, index) => {
      if (one.getAttribute("aria-pressed") === "true") return [];
      one.setAttribute("aria-pressed", "true");
      return [index];
    }),
  );
}

/** In the page: what was armed is so no more. */
function takeBack(indices: readonly number[]): void {
  const all = document.querySelectorAll("[aria-pressed]");
  for (const index of indices) all[index]?.setAttribute("aria-pressed", "false");
}

async function faint(page: Page): Promise<readonly string[]> {
  // What fades from one colour to the next has arrived.
  await page.evaluate(async () => {
    await new Promise((resolve) => requestAnimationFrame(resolve));
    for (const one of document.getAnimations()) if (one instanceof CSSTransition) one.finish();
    await new Promise((resolve) => requestAnimationFrame(resolve));
  });
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode(true)
    .include(CONTROLS)
    .withRules(["color-contrast"])
    .analyze();
  return violations.flatMap(({ nodes }) =>
    nodes.map(
      ({ html, failureSummary }) =>
        `${html.slice(0, 120)} (${(failureSummary ?? "").replace(/\s+/g, " ").slice(0, 160)})`,
    ),
  );
}
