import type { PageFont } from "../contract/pageFont.ts";
import type { Plan, PlannedBlock } from "../contract/plan.ts";
import { htmlPage } from "../page/htmlPage.tsx";
import { Bullets, CHART_WIDTH, NamedRows, Section } from "../page/parts.tsx";
import type { Language } from "../contract/languageAndUnits.ts";
import { type PlanSheetPhrases, planSheetWords } from "../../overlay/words/planSheetWords.ts";
import { type RideChart, RideChartSvg } from "./rideChartSvg.tsx";

/** How long the ride is: as said, else to the end of its last block and the cool-down after it; null: not known. */
function plannedLengthS({ lengthS, blocks, coolDownS }: Plan): number | null {
  if (lengthS !== undefined) return lengthS;
  return blocks.length === 0 ? null : Math.max(...blocks.map(({ endS }) => endS)) + (coolDownS ?? 0);
}

/** The power asked for over the ride's time, as the debrief's chart will show it; null where there is nothing to draw. */
function plannedChart(
  plan: Plan,
  band: { readonly lowW: number; readonly highW: number } | null,
  blocks: readonly PlannedBlock[],
  lengthS: number | null,
  words: PlanSheetPhrases,
): RideChart | null {
  if (lengthS === null || (band === null && blocks.every(({ lowW }) => lowW === null))) return null;
  const stepS = Math.max(1, Math.ceil(lengthS / CHART_WIDTH));
  const main = {
    startS: Math.min(plan.warmUpS ?? 0, lengthS),
    endS: Math.max(plan.warmUpS ?? 0, lengthS - (plan.coolDownS ?? 0)),
  };
  // Warming up and rolling out ask for no power.
  const easy = [
    { startS: 0, endS: main.startS, low: null, high: null },
    { startS: main.endS, endS: lengthS, low: null, high: null },
  ];
  const said = words.rows({ ...plan, lengthS, lowW: band?.lowW ?? null, highW: band?.highW ?? null });
  return {
    id: "plan",
    title: words.drawingTitle,
    alt: said.map(({ label, value }) => `${label}: ${value}.`).join(" "),
    timeAxis: words.timeAxis,
    startS: 0,
    stepS,
    panels: [
      {
        axis: words.powerAxis,
        values: new Float64Array(Math.ceil(lengthS / stepS)).fill(Number.NaN),
        kind: "power",
        band: band === null ? null : { low: band.lowW, high: band.highW, key: words.bandKey },
        blocks: [...easy, ...blocks.map(({ startS, endS, lowW, highW }) => ({ startS, endS, low: lowW, high: highW }))],
        points: [],
        interval: null,
      },
    ],
    main: { ...main, key: words.mainPart },
  };
}

/**
 * Half a page for the athlete before the ride: what is asked, how to ride it, how to film it.
 * @param blocks from the reading's `plannedBlocks`
 * @param band from the reading's `planBand`, on the meter's own scale: a meter that reads low is asked for less
 */
export function planSheetHtml(
  plan: Plan,
  band: { readonly lowW: number; readonly highW: number } | null,
  language: Language,
  fonts: readonly PageFont[],
  blocks: readonly PlannedBlock[] = [],
): string {
  const words = planSheetWords(language);
  const lengthS = plannedLengthS(plan);
  const chart = plannedChart(plan, band, blocks, lengthS, words);
  const facts = { ...plan, lengthS, lowW: band?.lowW ?? null, highW: band?.highW ?? null };
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
        {chart !== null && (
          <figure>
            <RideChartSvg chart={chart} />
          </figure>
        )}
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
