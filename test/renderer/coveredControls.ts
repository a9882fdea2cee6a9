import type { Page } from "playwright-core";

/** Controls on the screen whose middle a click would not reach, since something else lies over it; each with what does. */
export async function coveredControls(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const open = document.querySelector("dialog:modal") ?? document;
    /** A middle that is scrolled out of a list, or out of the window, is not covered: it is not there yet. */
    const inSight = (element: Element, x: number, y: number): boolean => {
      if (x < 0 || y < 0 || x >= window.innerWidth || y >= window.innerHeight) return false;
      for (let around = element.parentElement; around !== null; around = around.parentElement) {
        const box = around.getBoundingClientRect();
        if (
          getComputedStyle(around).overflow !== "visible" &&
          (x < box.left || x > box.right || y < box.top || y > box.bottom)
        )
          return false;
      }
      return true;
    };
    /** What stays at an edge while the rest scrolls beneath it. */
    const sticks = (element: Element): boolean => {
      for (let around: Element | null = element; around !== null; around = around.parentElement)
        if (getComputedStyle(around).position === "sticky") return true;
      return false;
    };
    return [...open.querySelectorAll<HTMLElement>("button, input, select, textarea, summary, a[href]")].flatMap(
      (control) => {
        const box = control.getBoundingClientRect();
        const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
        if (!control.checkVisibility() || box.width < 2 || box.height < 2 || !inSight(control, x, y)) return [];
        const over = document.elementFromPoint(x, y);
        if (
          over === null ||
          sticks(over) ||
          control.contains(over) ||
          over.contains(control) ||
          over.closest("label")?.contains(control) === true
        )
          return [];
        return [
          `covered: ${control.tagName.toLowerCase()} "` +
            `${(control.textContent || control.getAttribute("aria-label") || control.id).slice(0, 40)}" by ` +
            `${over.outerHTML.slice(0, 80)}`,
        ];
      },
    );
  });
}
