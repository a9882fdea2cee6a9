import type { Page } from "playwright-core";

/** Least contrast of words with what lies behind them (WCAG 2.2, 1.4.3). */
const LEAST = 4.5;

/**
 * Controls whose words are too faint while they are disabled. Axe leaves disabled controls out, since the standard asks
 * nothing of them; here all are disabled at once and measured: relative luminance after WCAG 2.2.
 */
export async function faintDisabled(page: Page): Promise<readonly string[]> {
  return page.evaluate(async (least) => {
    const pen = Object.assign(document.createElement("canvas"), { width: 1, height: 1 }).getContext("2d", {
      willReadFrequently: true,
    })!;
    /** Red, green, blue, 0 to 1, and how opaque. */
    const partsOf = (colour: string): number[] => {
      pen.clearRect(0, 0, 1, 1);
      pen.fillStyle = colour;
      pen.fillRect(0, 0, 1, 1);
      return [...pen.getImageData(0, 0, 1, 1).data].map((part) => part / 255);
    };
    const over = (top: number[], share: number, below: number[]): number[] =>
      below.map((part, k) => (k === 3 ? 1 : top[k]! * share + part * (1 - share)));
    const light = (colour: number[]): number => {
      const [r, g, b] = colour.map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
      return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
    };
    const ground = (element: Element | null): number[] => {
      if (element === null) return partsOf(getComputedStyle(document.documentElement).backgroundColor);
      const own = partsOf(getComputedStyle(element).backgroundColor);
      return own[3] === 1 ? own : over(own, own[3]!, ground(element.parentElement));
    };
    const opacity = (element: Element | null): number =>
      element === null ? 1 : Number(getComputedStyle(element).opacity) * opacity(element.parentElement);
    const room = document.querySelector("dialog:modal") ?? document;
    const all = [...room.querySelectorAll<HTMLButtonElement | HTMLInputElement>("button, input, select, textarea")]
      // Rows that are half out of sight are not shown at all; what vanishes only as it is disabled is looked at.
      .filter((one) => one.checkVisibility({ opacityProperty: true }));
    const enabled = all.filter((one) => !one.disabled);
    for (const one of enabled) one.disabled = true;
    await new Promise((resolve) => requestAnimationFrame(resolve));
    for (const one of document.getAnimations()) if (one instanceof CSSTransition) one.finish();
    const faults = all.flatMap((control) => {
      // Words over a picture stand on its own ground; what is drawn there no style tells.
      if (control.closest(".player, .stage") !== null) return [];
      const words = [control, ...control.querySelectorAll("*")].filter(
        (one) =>
          one.checkVisibility() &&
          (one.matches("input, select, textarea")
            ? ["text", "search", "number", "textarea", "select-one", ""].includes(
                String((one as HTMLInputElement).type),
              )
            : [...one.childNodes].some((node) => node.nodeType === 3 && node.nodeValue!.trim() !== "")),
      );
      return words.flatMap((one) => {
        const below = ground(one);
        const colour = partsOf(getComputedStyle(one).color);
        const shown = over(colour, colour[3]! * opacity(one), below);
        const [more, less] = [light(shown), light(below)].sort((a, b) => b - a);
        const ratio = (more! + 0.05) / (less! + 0.05);
        return ratio < least ? [`disabled: ${one.outerHTML.slice(0, 120)} (${ratio.toFixed(2)})`] : [];
      });
    });
    for (const one of enabled) one.disabled = false;
    return [...new Set(faults)];
  }, LEAST);
}
