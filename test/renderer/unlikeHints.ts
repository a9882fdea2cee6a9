import type { Page } from "playwright-core";

/**
 * Hints that do not look like hints: as dark, as large or as heavy as what is said or typed, not tied to their field for
 * a screen reader, or written where a value stands.
 */
export async function unlikeHints(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const room = document.querySelector("dialog:modal") ?? document;
    const look = (element: Element) => {
      const { color, fontSize, fontWeight } = getComputedStyle(element);
      return { color, sizePx: Number.parseFloat(fontSize), weight: Number(fontWeight) };
    };
    const faults = [...room.querySelectorAll(".field .hint")].flatMap((hint) => {
      if (!hint.checkVisibility()) return [];
      const field = hint.closest(".field")!;
      const control = field.querySelector("input, select, textarea");
      const [own, value] = [look(hint), look(control ?? field)];
      const tied = (control?.getAttribute("aria-describedby") ?? "")
        .split(" ")
        .some((id) => id !== "" && document.getElementById(id)?.contains(hint) === true);
      return [
        own.color === value.color ? "as dark as a value" : null,
        own.sizePx >= value.sizePx ? `as large as a value (${own.sizePx} px)` : null,
        own.weight >= 600 ? "as heavy as a label" : null,
        tied ? null : "not tied to its field",
      ].flatMap((fault) => (fault === null ? [] : [`hint "${hint.textContent.slice(0, 40)}": ${fault}`]));
    });
    const inPlace = [...room.querySelectorAll<HTMLInputElement>("input[placeholder], textarea[placeholder]")]
      .filter(
        (one) => one.checkVisibility() && one.placeholder !== "" && one.closest(".stage, .build-picture") === null,
      )
      .map((one) => `hint where a value stands: "${one.placeholder}"`);
    return [...faults, ...inPlace];
  });
}
