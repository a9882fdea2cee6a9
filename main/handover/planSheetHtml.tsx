import type { PageFont } from "../contract/pageFont.ts";
import type { Plan } from "../contract/plan.ts";
import { htmlPage } from "../page/htmlPage.tsx";
import { Bullets, NamedRows, Section } from "../page/parts.tsx";
import type { Language } from "../contract/languageAndUnits.ts";
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
  const rows = words.rows(facts).map((row) => [row.label, row.value] as const);
  const title = plan.title ?? words.title;
  const body = (
    <>
      <header>
        <h1>{title}</h1>
        {plan.rider !== null && <p className="quiet">{plan.rider}</p>}
      </header>
      <main>
        {rows.length > 0 && <NamedRows rows={rows} />}
        <Section title={words.doTitle}>
          <Bullets items={words.todo(facts)} />
        </Section>
        {plan.setting !== "trainer" && (
          <Section title={words.filmTitle}>
            <Bullets items={words.film} />
          </Section>
        )}
        <p className="quiet">{words.caution}</p>
      </main>
    </>
  );
  return htmlPage(language, title, body, fonts);
}
