import type { CardItem } from "../contract/film.ts";
import type { Rational } from "../contract/footage.ts";
import type { UnitSystem } from "../contract/languageAndUnits.ts";
import type { RideClock } from "../contract/lineup.ts";
import type { FollowWay, PairOrigin, PairPace, PairSeries, PairSide, PairSpots } from "../contract/pair.ts";
import type { Span } from "../contract/ride.ts";
import type { RideColumns } from "../contract/rideColumns.ts";
import { panelValuesAt } from "../../overlay/instant/panelValuesAt.ts";
import { paceAt } from "../../overlay/pair/pairAt.ts";

/** A clip on a side's ride. */
export interface SideClip {
  readonly clipId: string;
  readonly clock: RideClock;
  /** Ride time that it shows. */
  readonly span: Span;
}

/** One of the two rides. */
export interface PairRide {
  readonly name: string;
  /** What it shows over a span of its own time. */
  readonly series: (fromS: number, toS: number) => PairSeries;
  readonly clips: readonly SideClip[];
}

export interface PairWish {
  readonly title: string;
  readonly follow: FollowWay;
  readonly units: UnitSystem;
  readonly rides: readonly [PairRide, PairRide];
  readonly pace: PairPace;
  readonly spots: PairSpots;
  readonly frameRate: Rational;
  /** Ids begin so. */
  readonly id?: string;
  readonly of?: PairOrigin;
  /** As of a `PairCard`. */
  readonly oneRider?: boolean;
  readonly why: string;
}

/** Shorter than this, a piece of footage is not worth a cut, s. */
const LEAST_PIECE_S = 1;

/** Two rides side by side over one stretch: a card for every run in which neither side's footage begins or ends. */
export function pairItems(wish: PairWish): CardItem[] {
  const { pace, rides, spots } = wish;
  const lengthS = pace.filmS.at(-1)!;
  const series = rides.map(({ series: over }, side) => {
    const times = side === 0 ? [pace.firstS, spots.firstS] : [pace.secondS, spots.secondS];
    return over(Math.min(...times.map((one) => one[0]!)), Math.max(...times.map((one) => one.at(-1)!)));
  });
  const edges = footageEdges(wish, lengthS);
  return edges.slice(1).map((endS, k): CardItem => {
    const startS = edges[k]!;
    const side = (which: 0 | 1): PairSide => ({
      name: rides[which].name,
      footage: footageOver(wish, which, startS, endS),
      series: series[which]!,
    });
    return {
      type: "card",
      id: `${wish.id ?? "pair"}${k + 1}`,
      durationS: endS - startS,
      card: {
        kind: "pair",
        title: wish.title,
        follow: wish.follow,
        units: wish.units,
        sides: [side(0), side(1)],
        pace: paceBetween(pace, startS, endS),
        spots,
        ...(wish.oneRider === undefined ? {} : { oneRider: wish.oneRider }),
        ...(wish.of === undefined ? {} : { of: wish.of }),
      },
      moment: null,
      why: wish.why,
      commentPath: null,
      crossfadeS: 0,
    };
  });
}

/** Film times at which a side's footage begins or ends, on whole frames, both ends of the film among them. */
function footageEdges({ pace, rides, frameRate }: PairWish, lengthS: number): number[] {
  const onFrame = (filmS: number): number =>
    (Math.round((filmS * frameRate.num) / frameRate.den) * frameRate.den) / frameRate.num;
  const found = rides.flatMap(({ clips }, which) =>
    clips.flatMap(({ span }) => [span.startS, span.endS].map((rideS) => filmTimeOf(pace, which as 0 | 1, rideS))),
  );
  const inside = [...new Set(found.map(onFrame))]
    .filter((filmS) => filmS >= LEAST_PIECE_S && filmS <= lengthS - LEAST_PIECE_S)
    .sort((a, b) => a - b)
    .filter((filmS, k, all) => k === 0 || filmS - all[k - 1]! >= LEAST_PIECE_S);
  return [0, ...inside, lengthS];
}

/** When a side comes to a ride time, s of film; past either end, that end. */
function filmTimeOf({ filmS, firstS, secondS }: PairPace, which: 0 | 1, rideS: number): number {
  const times = which === 0 ? firstS : secondS;
  const next = times.findIndex((one) => one >= rideS);
  if (next < 0) return filmS.at(-1)!;
  if (next === 0) return filmS[0]!;
  const share = (rideS - times[next - 1]!) / (times[next]! - times[next - 1]!);
  return filmS[next - 1]! + share * (filmS[next]! - filmS[next - 1]!);
}

/** The clip that shows a side over a run of film; null where none shows nearly all of it. */
function footageOver({ pace, rides }: PairWish, which: 0 | 1, startS: number, endS: number): PairSide["footage"] {
  const reach = Math.min(LEAST_PIECE_S, (endS - startS) / 4);
  const at = (filmS: number): number => paceAt(pace, filmS)[which === 0 ? "firstS" : "secondS"];
  const [from, to] = [at(startS + reach), at(endS - reach)];
  const clip = rides[which].clips.find(({ span }) => span.startS <= from && span.endS >= to);
  return clip === undefined ? null : { clipId: clip.clipId, clock: clip.clock };
}

function paceBetween(pace: PairPace, startS: number, endS: number): PairPace {
  const inside = pace.filmS.flatMap((filmS, k) => (filmS > startS && filmS < endS ? [k] : []));
  const [from, to] = [paceAt(pace, startS), justBefore(pace, endS)];
  const rounded = (value: number): number => Math.round(value * 1000) / 1000;
  return {
    filmS: [0, ...inside.map((k) => rounded(pace.filmS[k]! - startS)), rounded(endS - startS)],
    firstS: [from.firstS, ...inside.map((k) => pace.firstS[k]!), to.firstS].map(rounded),
    secondS: [from.secondS, ...inside.map((k) => pace.secondS[k]!), to.secondS].map(rounded),
  };
}

/** Where both are as a film time is reached: before what is stepped over there. */
function justBefore({ filmS, firstS, secondS }: PairPace, atS: number): { firstS: number; secondS: number } {
  const until = Math.max(
    1,
    filmS.findIndex((one) => one >= atS),
  );
  const [low, high] = [until - 1, until];
  const width = filmS[high]! - filmS[low]!;
  const share = width > 0 ? Math.min(1, (atS - filmS[low]!) / width) : 1;
  const mix = (times: readonly number[]): number => times[low]! + share * (times[high]! - times[low]!);
  return { firstS: mix(firstS), secondS: mix(secondS) };
}

/** What a side shows over a span of its ride, second by second, as the panels of a film would. */
export function pairSeries(columns: RideColumns, fromS: number, toS: number): PairSeries {
  const startS = Math.max(0, Math.floor(fromS) - 1);
  const cells = Array.from({ length: Math.max(1, Math.ceil(toS) + 2 - startS) }, (_, k) => startS + k);
  const late = (cell: number): number => columns.lateS?.[cell] ?? 0;
  const shown = cells.map((cell) => panelValuesAt(columns, cell + late(cell) + 1e-6));
  const altitude = columns.setting === "trainer" ? null : columns.altitudeM;
  return {
    startS,
    lateS: columns.lateS === null ? null : cells.map(late),
    variable: columns.mode === "variable",
    powerW: shown.map(({ powerW }) => powerW),
    heartRateBpm: shown.map(({ heartRateBpm }) => heartRateBpm),
    speedMps: shown.map(({ speedMps }) => speedMps),
    cadenceRpm: shown.map(({ cadenceRpm }) => cadenceRpm),
    countedS: shown.map(({ countedS }) => countedS),
    likePowerBeats: shown.map(({ likePowerBeats }) => likePowerBeats),
    pressure: cells.map((cell) => columns.pressureState[cell] ?? 0),
    altitudeM: cells.map((cell) => {
      const heightM = altitude?.[cell];
      return heightM === undefined || !Number.isFinite(heightM) ? null : heightM;
    }),
  };
}

/** The part of a series that a span of its ride asks for. */
export function seriesBetween(series: PairSeries, fromS: number, toS: number): PairSeries {
  const startS = Math.max(series.startS, Math.floor(fromS) - 1);
  const part = <T>(values: readonly T[]): T[] =>
    values.slice(startS - series.startS, Math.max(1, Math.ceil(toS) + 2 - series.startS));
  return {
    startS,
    lateS: series.lateS && part(series.lateS),
    variable: series.variable,
    powerW: part(series.powerW),
    heartRateBpm: part(series.heartRateBpm),
    speedMps: part(series.speedMps),
    ...(series.cadenceRpm && { cadenceRpm: part(series.cadenceRpm) }),
    ...(series.countedS && { countedS: part(series.countedS) }),
    ...(series.likePowerBeats && { likePowerBeats: part(series.likePowerBeats) }),
    pressure: part(series.pressure),
    altitudeM: part(series.altitudeM),
  };
}
