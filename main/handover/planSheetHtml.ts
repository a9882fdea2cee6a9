import type { Plan } from "../contract/plan.ts";
import { escapeHtml as safe } from "../../overlay/page/escapeHtml.ts";
import { type PageFont, htmlPage } from "../../overlay/page/htmlPage.ts";
import type { Language } from "../../overlay/words/phrases.ts";
import { planSheetWords } from "../../overlay/words/planSheetWords.ts";

/**
 * Half a page for the athlete before the ride: what is asked, how to ride it, how to film it.
 * @param band from the reading's `planBand`, on the meter's own scale: a meter that reads low is asked for less
 */
export function planSheetHtml(
  plan: Plan,
  band: { readonly lowW: number; readonly highW: number } | null,
  language: Language,
  fonts: readonly PageFont[],
): string {
  const words = planSheetWords(language);
  const facts = { ...plan, lowW: band?.lowW ?? null, highW: band?.highW ?? null };
  const rows = words
    .rows(facts)
    .map((row) => `<tr><th scope="row">${safe(row.label)}</th><td>${safe(row.value)}</td></tr>`);
  const list = (items: readonly string[]): string =>
    `<ul>\n${items.map((item) => `<li>${safe(item)}</li>`).join("\n")}\n</ul>`;
  const title = plan.title ?? words.title;
  const body = [
    `<header>\n<h1>${safe(title)}</h1>${plan.rider === null ? "" : `\n<p class="quiet">${safe(plan.rider)}</p>`}\n</header>\n<main>`,
    rows.length === 0 ? "" : `<table><tbody>\n${rows.join("\n")}\n</tbody></table>`,
    `<section>\n<h2>${safe(words.doTitle)}</h2>\n${list(words.todo(facts))}\n</section>`,
    plan.setting === "trainer" ? "" : `<section>\n<h2>${safe(words.filmTitle)}</h2>\n${list(words.film)}\n</section>`,
    `<p class="quiet">${safe(words.caution)}</p>\n</main>`,
  ];
  return htmlPage(language, title, body.filter((part) => part !== "").join("\n"), fonts);
}
