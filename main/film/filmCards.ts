import type { CardItem, MomentKey } from "../contract/film.ts";
import type { Moment, Reading } from "../contract/reading.ts";
import type { Plan } from "../contract/plan.ts";
import type { Ride } from "../contract/ride.ts";
import { chartPower } from "../maths/chartPower.ts";
import { meanSteps } from "../maths/meanSteps.ts";
import type { Card, ChartMarks, ChartSeries } from "../contract/card.ts";
import type { DebriefPhrases, MomentFacts } from "../../overlay/words/debriefPhrases.ts";
import { textMark } from "../maths/textMark.ts";
import { cardWords } from "./cardWords.ts";
import { planFacts } from "./planFacts.ts";
import type { DebriefStory } from "../../overlay/words/debriefStory.ts";

/** Points of a chart: more are not seen on a picture. */
const CHART_POINTS = 900;
/** Ride shown on either side of a moment that no camera saw, s. */
const CONTEXT_S = 120;
/** Moments that the heart tells; the others are told by power alone, where the ride has it. */
const HEART_KINDS = new Set(["driftOnset", "oddHeart"]);

/**
 * Power (centred 30 s mean; of a short span the 3 s mean) and heart rate over a span of the ride, in steps of whole seconds; at most 900 points.
 * @param percentOfW where given, power is a share of so many watts, in percent
 */
function chartSeries(ride: Ride, fromS: number, toS: number, percentOfW: number | null = null): ChartSeries {
  const startS = Math.max(0, Math.floor(fromS));
  const endS = Math.max(startS + 1, Math.min(ride.grid.seconds, Math.ceil(toS)));
  const stepS = Math.max(1, Math.ceil((endS - startS) / CHART_POINTS));
  const column = (values: Float64Array | null | undefined): Float64Array | null =>
    values === null || values === undefined ? null : meanSteps(values, startS, endS, stepS);
  const power = column(chartPower(ride.grid.power3sW, ride.grid.power30sW, endS - startS));
  const heartRateBpm = column(ride.grid.heartRate?.value);
  if (percentOfW === null) return { power30sW: power, heartRateBpm, startS, stepS };
  return {
    power30sW: power?.map((watts) => (100 * watts) / percentOfW) ?? null,
    heartRateBpm,
    startS,
    stepS,
    powerUnit: "%",
  };
}

/** The band as a chart draws it. */
function chartBand(reading: Reading, percentOfW: number | null): ChartMarks["bandW"] {
  const band = reading.bandW;
  if (band === null || percentOfW === null) return band;
  const share = 100 / percentOfW;
  return { low: band.low * share, high: band.high * share };
}

const NO_MARKS: ChartMarks = { bandW: null, counted: null, first: null, last: null, onset: null, moment: null };

/** The chart of the whole ride: band, main part, first and last reading, where the heart began to climb. */
export function heartCard(
  ride: Ride,
  reading: Reading,
  { facts, hasPower, hasHeart }: DebriefStory,
  words: DebriefPhrases,
  percentOfW: number | null,
): Card | null {
  if (ride.grid.power30sW === null && ride.grid.heartRate === null) return null;
  const { drift, counted } = reading;
  const at = (atS: number | null, bpm: number | null): { atS: number; bpm: number } | null =>
    atS === null || bpm === null ? null : { atS, bpm };
  const began = drift.verdict === "began" || drift.verdict === "start unclear";
  return {
    kind: "chart",
    title: words.film.chartTitle({ hasPower, hasHeart }),
    lines: ride.grid.heartRate === null ? [] : words.film.heartLines(drift, facts.drift),
    series: chartSeries(ride, 0, ride.grid.seconds, percentOfW),
    marks: {
      ...NO_MARKS,
      bandW: chartBand(reading, percentOfW),
      counted: { startS: counted.startS, endS: counted.endS },
      first: at(drift.firstAtS, drift.firstBpm),
      last: at(drift.lastAtS, drift.lastBpm),
      onset:
        began && drift.onsetLowS !== null && drift.onsetHighS !== null
          ? { atS: drift.verdict === "began" ? drift.onsetS : null, lowS: drift.onsetLowS, highS: drift.onsetHighS }
          : null,
    },
  };
}

/** The chart of a moment that no camera saw; a note where the ride has neither power nor heart rate. */
export function momentCard(
  ride: Ride,
  reading: Reading,
  moment: Moment,
  facts: MomentFacts,
  title: string,
  words: DebriefPhrases,
  percentOfW: number | null,
): Card {
  const lines = words.film.caption(facts);
  if (ride.grid.power30sW === null && ride.grid.heartRate === null) return { kind: "note", title, lines };
  const series = chartSeries(ride, moment.startS - CONTEXT_S, moment.endS + CONTEXT_S, percentOfW);
  return {
    kind: "chart",
    title,
    lines,
    series: ride.grid.power30sW === null || HEART_KINDS.has(moment.kind) ? series : { ...series, heartRateBpm: null },
    marks: {
      ...NO_MARKS,
      bandW: chartBand(reading, percentOfW),
      moment: { startS: moment.startS, endS: moment.endS, words: words.film.here },
    },
  };
}

/** Title card: the plan's title with the rider beneath, else the rider, else a plain one; then the lines given. */
export function titleCard(plan: Plan, lines: readonly string[], words: DebriefPhrases): Card {
  return {
    kind: "title",
    title: plan.title ?? plan.rider ?? words.film.titleFallback,
    lines: plan.title !== null && plan.rider !== null ? [plan.rider, ...lines] : lines,
  };
}

/** Plan card, or null where the plan asks for nothing. */
export function planCard(plan: Plan, reading: Reading, story: DebriefStory, words: DebriefPhrases): Card | null {
  const facts = planFacts(plan, reading, story.facts);
  if (facts.targetW === null && facts.heartLowBpm === null && facts.eventS === null) return null;
  return { kind: "plan", title: words.film.planTitle, rows: words.film.planRows(facts) };
}

/** The one thing to change. */
export function changeCard(story: DebriefStory, words: DebriefPhrases): Card {
  return { kind: "note", title: words.film.changeTitle, lines: [words.changeLine(story)] };
}

/** This ride beside the last like it; null where nothing can be told. */
export function compareCard(story: DebriefStory, words: DebriefPhrases): Card | null {
  const line = words.compareLine(story);
  return line === null ? null : { kind: "note", title: words.film.compareTitle, lines: [line] };
}

/** The next ride, with the caution. */
export function closingCard(story: DebriefStory, words: DebriefPhrases): Card {
  return {
    kind: "closing",
    title: words.film.closingTitle,
    lines: [words.nextLine(story)],
    caution: words.film.closingCaution,
  };
}

/** A card as a film item with a cut before it, marked as the program's own words. */
export function cardItem(
  id: string,
  durationS: number,
  card: Card,
  why: string,
  moment: { readonly index: number; readonly key: MomentKey } | null = null,
): CardItem {
  return {
    type: "card",
    id,
    durationS,
    card,
    moment: moment?.index ?? null,
    why,
    commentPath: null,
    crossfadeS: 0,
    ...(moment === null ? {} : { momentKey: moment.key }),
    made: textMark(cardWords(card)),
  };
}
