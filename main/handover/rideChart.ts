import type { Span } from "../contract/ride.ts";
import { chartPower } from "../maths/chartPower.ts";
import { groundHeights } from "../maths/groundHeights.ts";
import { meanSteps } from "../maths/meanSteps.ts";
import type { DebriefPhrases, PageFacts } from "../../overlay/words/debriefPhrases.ts";
import { wholeText } from "../../overlay/words/numbers.ts";
import { chartWords } from "../../overlay/words/chartWords.ts";
import { filmRuns } from "../../overlay/instant/filmRuns.ts";
import { type HandoverData, shownMoments } from "./handoverData.ts";
import type { ChartPanel, RideChart } from "./rideChartSvg.tsx";

/** Ride shown on either side of a moment without a picture, s. */
export const CONTEXT_S = 180;

/** Points across the page: one a CSS pixel of a phone. */
const POINTS = 360;

/**
 * The road's height under the other panels; null on a trainer, where the file does not know it, and in a lesson: a road
 * may be known by its heights.
 */
function groundPanel(data: HandoverData, startS: number, endS: number, stepS: number): ChartPanel | null {
  const { altitude } = data.ride.grid;
  if (altitude === null || data.plan.setting === "trainer" || data.forWhom === "lesson") return null;
  const values = groundHeights(altitude.value, data.units === "imperial" ? "ft" : "m", startS, endS, stepS);
  if (values === null) return null;
  const axis = chartWords(data.language).altitudeAxis(data.units);
  return { axis, values, kind: "ground", band: null, points: [], interval: null };
}

/** The heart rate asked for, where the plan asks for one. */
function heartBand({ plan, language }: HandoverData): ChartPanel["band"] {
  const { heartLowBpm: low, heartHighBpm: high } = plan;
  return low === null || high === null ? null : { low, high, key: chartWords(language).heartBandKey };
}

/** What of the ride the film shows, and where the page tells of it; nothing where neither. */
function toldRows(data: HandoverData, numbered: boolean): Pick<RideChart, "told"> {
  const words = chartWords(data.language);
  const shots = filmRuns(data.film).map(({ rideStartS, rideEndS }) => ({ startS: rideStartS, endS: rideEndS }));
  const moments = numbered ? shownMoments(data).map((index) => data.reading.moments[index]!.startS) : [];
  if (shots.length + moments.length === 0) return {};
  return { told: { shots, shotsKey: words.filmed, moments, momentsKey: words.moments } };
}

/** The chart of the whole ride; null as `rideChart`. */
export function wholeRideChart(
  data: HandoverData,
  words: DebriefPhrases,
  facts: PageFacts,
  numbered = false,
): RideChart | null {
  const title = words.film.chartTitle(data.story);
  const all = { id: "ride", fromS: 0, toS: data.ride.grid.seconds, title };
  return rideChart(data, words, facts, { ...all, moment: null, heart: true, numbered });
}

/**
 * The chart of a span of the ride, or null where the ride has neither power nor heart rate. Without a moment it carries
 * the marks of the whole ride; with one, its span is shaded and, where power tells it, the heart is left out.
 */
export function rideChart(
  data: HandoverData,
  words: DebriefPhrases,
  facts: PageFacts,
  which: {
    readonly id: string;
    readonly fromS: number;
    readonly toS: number;
    readonly title: string;
    readonly moment: Span | null;
    readonly heart: boolean;
    /** The page tells of its moments by number: they stand under the whole ride. Missing: it does not. */
    readonly numbered?: boolean;
  },
): RideChart | null {
  const { ride, reading } = data;
  const startS = Math.max(0, Math.floor(which.fromS));
  const endS = Math.max(startS + 1, Math.min(ride.grid.seconds, Math.ceil(which.toS)));
  const stepS = Math.max(1, Math.ceil((endS - startS) / POINTS));
  const panels: ChartPanel[] = [];
  const band = reading.bandW;
  const shaded = which.moment === null ? null : { lowS: which.moment.startS, highS: which.moment.endS, key: "" };
  const scale = data.asPercent && band !== null ? 100 / band.target : 1;
  const power = chartPower(ride.grid.power3sW, ride.grid.power30sW, endS - startS);
  if (power !== null)
    panels.push({
      axis: words.page.powerAxis(scale !== 1),
      values: meanSteps(power, startS, endS, stepS).map((value) => value * scale),
      kind: "power",
      band: band === null ? null : { low: band.low * scale, high: band.high * scale, key: words.page.bandKey },
      points: [],
      interval: shaded,
      blocks: data.blocks.map(({ startS: from, endS: to, lowW, highW }) => ({
        startS: from,
        endS: to,
        low: lowW === null ? null : lowW * scale,
        high: highW === null ? null : highW * scale,
      })),
    });
  if (ride.grid.heartRate !== null && (which.moment === null || which.heart || panels.length === 0)) {
    const { drift } = reading;
    const point = (atS: number | null, bpm: number | null, key: string): ChartPanel["points"] =>
      which.moment === null && atS !== null && bpm !== null
        ? [{ atS, value: bpm, text: `${key} ${wholeText(bpm)}` }]
        : [];
    const began = drift.verdict === "began" || drift.verdict === "start unclear";
    panels.push({
      axis: words.page.heartAxis,
      values: meanSteps(ride.grid.heartRate.value, startS, endS, stepS),
      kind: "heart",
      band: heartBand(data),
      points: [
        ...point(drift.firstAtS, drift.firstBpm, words.page.firstKey),
        ...point(drift.lastAtS, drift.lastBpm, words.page.lastKey),
      ],
      interval:
        which.moment === null && began && drift.onsetLowS !== null && drift.onsetHighS !== null
          ? { lowS: drift.onsetLowS, highS: drift.onsetHighS, key: words.page.onsetKey }
          : shaded,
    });
  }
  if (panels.length === 0) return null;
  const ground = groundPanel(data, startS, endS, stepS);
  if (ground !== null) panels.push(ground);
  return {
    id: which.id,
    title: which.title,
    alt: words.page.chartAlt(reading.drift, facts),
    timeAxis: words.page.timeAxis,
    startS,
    stepS,
    panels,
    ...(which.moment === null ? toldRows(data, which.numbered === true) : {}),
    main:
      which.moment === null
        ? { startS: reading.counted.startS, endS: reading.counted.endS, key: words.page.mainPartKey }
        : null,
  };
}
