import { askedSkills } from "../../overlay/words/skillWords.ts";
import type { CardItem, Film, FilmItem, MomentKey } from "../contract/film.ts";
import type { Moment, Reading } from "../contract/reading.ts";
import type { Plan, PlannedBlock } from "../contract/plan.ts";
import type { Ride } from "../contract/ride.ts";
import { chartPower } from "../maths/chartPower.ts";
import { groundHeights } from "../maths/groundHeights.ts";
import { meanSteps } from "../maths/meanSteps.ts";
import type { Card, ChartMarks, ChartSeries } from "../contract/card.ts";
import { filmRuns, momentsTold } from "../../overlay/instant/filmRuns.ts";
import type { DebriefPhrases, MomentFacts } from "../../overlay/words/debriefPhrases.ts";
import { textMark } from "../maths/textMark.ts";
import { cardWords } from "./cardWords.ts";
import { planFacts } from "./planFacts.ts";
import type { DebriefStory } from "../../overlay/words/debriefStory.ts";

/** Id of the chart of the whole ride. */
const HEART_ID = "heart";
/** Points of a chart: more are not seen on a picture. */
const CHART_POINTS = 900;
/** Ride shown on either side of a moment that no camera saw, s. */
const CONTEXT_S = 120;
/** Moments that the heart tells; the others are told by power alone, where the ride has it. */
const HEART_KINDS = new Set(["driftOnset", "oddHeart"]);

/** What every chart of a film is drawn from. */
export interface ChartSource {
  readonly ride: Ride;
  readonly plan: Plan;
  readonly reading: Reading;
  /** What the plan's blocks ask for. */
  readonly blocks: readonly PlannedBlock[];
  /** Where given, power is a share of so many watts, in percent. */
  readonly percentOfW: number | null;
  /** The road's height may be shown: a road may be known by its heights, so no lesson has them. */
  readonly ground: boolean;
}

/**
 * Power (centred 30 s mean; of a short span the 3 s mean), heart rate and the road's height over a span of the ride, in
 * steps of whole seconds; at most 900 points.
 */
function chartSeries({ ride, plan, percentOfW, ground }: ChartSource, fromS: number, toS: number): ChartSeries {
  const startS = Math.max(0, Math.floor(fromS));
  const endS = Math.max(startS + 1, Math.min(ride.grid.seconds, Math.ceil(toS)));
  const stepS = Math.max(1, Math.ceil((endS - startS) / CHART_POINTS));
  const column = (values: Float64Array | null | undefined): Float64Array | null =>
    values === null || values === undefined ? null : meanSteps(values, startS, endS, stepS);
  const power = column(chartPower(ride.grid.power3sW, ride.grid.power30sW, endS - startS));
  const heartRateBpm = column(ride.grid.heartRate?.value);
  const altitudeUnit = plan.units === "imperial" ? "ft" : "m";
  const road = ground && plan.setting !== "trainer" ? ride.grid.altitude : null;
  const altitude = road === null ? null : groundHeights(road.value, altitudeUnit, startS, endS, stepS);
  return {
    power30sW: (percentOfW === null ? power : power?.map((watts) => (100 * watts) / percentOfW)) ?? null,
    heartRateBpm,
    startS,
    stepS,
    ...(altitude === null ? {} : { altitude, altitudeUnit }),
    ...(percentOfW === null ? {} : { powerUnit: "%" }),
  };
}

/** What was asked for, as a chart draws it: the bands of power and heart rate, and the blocks. */
function chartAsked({ plan, reading, blocks, percentOfW }: ChartSource): ChartMarks {
  const share = percentOfW === null ? 1 : 100 / percentOfW;
  const { bandW } = reading;
  const { heartLowBpm: low, heartHighBpm: high } = plan;
  const shared = (watts: number | null): number | null => (watts === null ? null : watts * share);
  return {
    ...NO_MARKS,
    bandW: bandW === null ? null : { low: bandW.low * share, high: bandW.high * share },
    ...(low === null || high === null ? {} : { heartBand: { low, high } }),
    ...(blocks.length === 0
      ? {}
      : {
          blocks: blocks.map(({ startS, endS, lowW, highW }) => ({
            startS,
            endS,
            low: shared(lowW),
            high: shared(highW),
          })),
        }),
  };
}

const NO_MARKS: ChartMarks = { bandW: null, counted: null, first: null, last: null, onset: null, moment: null };

/** The chart of the whole ride: band, main part, first and last reading, where the heart began to climb. */
export function heartCard(
  source: ChartSource,
  { facts, hasPower, hasHeart }: DebriefStory,
  words: DebriefPhrases,
): Card | null {
  const { ride, reading } = source;
  if (ride.grid.power30sW === null && ride.grid.heartRate === null) return null;
  const { drift, counted } = reading;
  const at = (atS: number | null, bpm: number | null): { atS: number; bpm: number } | null =>
    atS === null || bpm === null ? null : { atS, bpm };
  const began = drift.verdict === "began" || drift.verdict === "start unclear";
  return {
    kind: "chart",
    title: words.film.chartTitle({ hasPower, hasHeart }),
    lines: ride.grid.heartRate === null ? [] : words.film.heartLines(drift, facts.drift),
    series: chartSeries(source, 0, ride.grid.seconds),
    marks: {
      ...chartAsked(source),
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
  source: ChartSource,
  moment: Moment,
  facts: MomentFacts,
  title: string,
  words: DebriefPhrases,
): Card {
  const { ride } = source;
  const lines = words.film.caption(facts);
  if (ride.grid.power30sW === null && ride.grid.heartRate === null) return { kind: "note", title, lines };
  const series = chartSeries(source, moment.startS - CONTEXT_S, moment.endS + CONTEXT_S);
  return {
    kind: "chart",
    title,
    lines,
    series: ride.grid.power30sW === null || HEART_KINDS.has(moment.kind) ? series : { ...series, heartRateBpm: null },
    marks: {
      ...chartAsked(source),
      moment: { startS: moment.startS, endS: moment.endS, words: words.film.here },
    },
  };
}

/** The items with what of the ride they show, and where the moments are that they tell of, on the chart of the whole ride. */
export function withShownOnChart(items: readonly FilmItem[], film: Omit<Film, "items">, reading: Reading): FilmItem[] {
  const runs = filmRuns({ ...film, items });
  const shots = runs.map(({ rideStartS, rideEndS }) => ({ startS: rideStartS, endS: rideEndS }));
  const told = momentsTold({ items }).flatMap((index) => reading.moments[index]?.startS ?? []);
  return items.map((item) => {
    if (item.type !== "card" || item.id !== HEART_ID || item.card.kind !== "chart") return item;
    return { ...item, card: { ...item.card, marks: { ...item.card.marks, shots, told } } };
  });
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
  if (
    facts.targetW === null &&
    facts.heartLowBpm === null &&
    facts.eventS === null &&
    askedSkills(facts.skills).length === 0
  )
    return null;
  return { kind: "plan", title: words.film.planTitle, rows: words.film.planRows(facts) };
}

/** The one thing to change. */
export function changeCard(story: DebriefStory, words: DebriefPhrases): Card {
  return { kind: "note", title: words.film.changeTitle, lines: [words.changeLine(story)] };
}

/** This ride beside the last like it, and beside an earlier one on the same road; null where nothing can be told. */
export function compareCard(story: DebriefStory, words: DebriefPhrases, again: string | null): Card | null {
  const lines = [words.compareLine(story), again].filter((line) => line !== null);
  return lines.length === 0 ? null : { kind: "note", title: words.film.compareTitle, lines };
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
