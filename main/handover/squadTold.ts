import { createElement } from "react";
import type { SquadLook, SquadPicture, SquadTold } from "../contract/squad.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { base64 } from "./base64.ts";
import { type HandoverData, handoverTitle, momentTitle, shownMoments } from "./handoverData.ts";
import { handoverWords, threeLines } from "./handoverLines.ts";
import { markup } from "../page/htmlPage.tsx";
import { drawingStyle } from "../page/pageStyle.ts";
import { CHART_WIDTH } from "../page/parts.tsx";
import { message } from "./message.ts";
import { pageFacts } from "./pageFacts.ts";
import { CONTEXT_S, rideChart, wholeRideChart } from "./rideChart.ts";
import { RideChartSvg, type RideChart, chartHeight } from "./rideChartSvg.tsx";

/** A ride under so many seconds is most often a file cut off; common practice, no source. */
const SHORT_S = 600;

/** The moment to see first of those in the film: the one of lowest rank; null where the film shows none. */
export function firstMoment(data: Pick<HandoverData, "film" | "reading">): number | null {
  const { moments } = data.reading;
  return shownMoments(data).reduce<number | null>(
    (best, index) => (best === null || moments[index]!.rank < moments[best]!.rank ? index : best),
    null,
  );
}

function chartPicture(chart: RideChart): SquadPicture {
  const drawing = markup(createElement(RideChartSvg, { chart }));
  const height = chartHeight(chart);
  const whole = drawing
    .replace("<svg", `<svg width="${CHART_WIDTH}" height="${height}"`)
    .replace(">", `><style>${drawingStyle}</style>`);
  return {
    type: "image/svg+xml",
    base64: base64(new TextEncoder().encode(whole)),
    widthPx: CHART_WIDTH,
    heightPx: height,
    alt: chart.alt,
  };
}

/** The ride, and the moment to see first: its still where it was filmed, else its stretch of the ride. */
function pictures(data: HandoverData): SquadPicture[] {
  const words = handoverWords(data);
  const facts = pageFacts(data);
  const ride = wholeRideChart(data, words, facts);
  const index = firstMoment(data);
  const first = index === null ? null : { index, ...data.reading.moments[index]! };
  const name = first === null ? "" : `${momentTitle(data, words, first.index)}, ${clockText(first.startS)}`;
  const still = first && data.stills.find(({ moment }) => moment === first.index);
  const stretch =
    first === null || still
      ? null
      : rideChart(data, words, facts, {
          id: "moment",
          fromS: first.startS - CONTEXT_S,
          toS: first.endS + CONTEXT_S,
          title: name,
          moment: first,
          heart: false,
        });
  return [
    ...(ride === null ? [] : [chartPicture(ride)]),
    ...(still
      ? [
          {
            type: still.jpeg === null ? ("image/png" as const) : ("image/jpeg" as const),
            base64: base64(still.jpeg ?? still.png),
            widthPx: still.widthPx,
            heightPx: still.heightPx,
            alt: name,
          },
        ]
      : []),
    ...(stretch === null ? [] : [{ ...chartPicture(stretch), alt: name }]),
  ];
}

/**
 * What the squad's page tells of a ride.
 * @param more what to look at that the hand-over does not know: clips without a sure place, choices that are asked about
 */
export function squadTold(data: HandoverData, revision: number, more: readonly SquadLook[]): SquadTold {
  const words = handoverWords(data);
  const { reading, plan } = data;
  const odd = reading.moments.find(({ kind }) => kind === "oddHeart");
  const looks: SquadLook[] = [
    ...(data.story.facts.hold !== null ? [{ what: "note" } as const] : []),
    ...(odd === undefined ? [] : [{ what: "heart", startS: odd.startS } as const]),
    ...more,
    ...(data.ride.elapsedS < SHORT_S ? [{ what: "short", elapsedS: data.ride.elapsedS } as const] : []),
    ...(data.story.doubt === null ? [] : [{ what: "target" } as const]),
    ...(reading.pressure.judgedBy === null && plan.targetW === null ? [{ what: "no target" } as const] : []),
  ];
  const title = handoverTitle(data, words);
  return {
    revision,
    language: data.language,
    rider: plan.rider,
    title: title === words.film.titleFallback ? null : title,
    dateText: data.dateText,
    elapsedS: data.ride.elapsedS,
    lines: threeLines(data, words),
    looks,
    message: message(data),
    pictures: pictures(data),
  };
}
