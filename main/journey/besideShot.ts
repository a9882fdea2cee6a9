import type { CardItem, Shot } from "../contract/film.ts";
import type { FollowWay, PairPace, PairSpots, ShotBeside } from "../contract/pair.ts";
import { PressureState, type Break } from "../contract/reading.ts";
import type { Span } from "../contract/ride.ts";
import type { RoadBefore } from "../contract/roads.ts";
import { rideDayText } from "../../overlay/words/compareWords.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { phrasesFor } from "../../overlay/words/phrases.ts";
import { againWords } from "../../overlay/words/againWords.ts";
import { placedClips, type PlacedClip } from "../film/filmedSpan.ts";
import { filmShape } from "../film/filmShape.ts";
import { pairItems, type PairRide, pairSeries, seriesBetween, type SideClip } from "../film/pairItems.ts";
import { rideColumns } from "../reading/rideColumns.ts";
import { pairPace, spotsWithin } from "../roads/pairPace.ts";
import { valueAt } from "../roads/risingColumn.ts";
import { ROAD_STEP_M } from "../roads/roadTrack.ts";
import type { DebriefStory } from "../../overlay/words/debriefStory.ts";
import type { AutomaticFilmInput } from "./automaticFilm.ts";
import { riderNameOf } from "./riderNameOf.ts";

/** What a shot of two rides shows before a break and after it, s, and its most. */
const BEFORE_S = 6;
const AFTER_S = 5;
const MOST_S = 20;
/** What teaching a comparison of breaks supports. */
const OF_BREAKS: ReadonlySet<DebriefStory["teaching"]> = new Set(["breaks", "offOverTop"]);

/** How a shot of two rides is wished. */
interface BesideWish {
  readonly road: RoadBefore;
  /** Ride time of the debrief's ride, on the road. */
  readonly span: Span;
  readonly follow: FollowWay;
  readonly ownSecond: boolean;
  /** As of a `PairOrigin`. */
  readonly otherClipId?: string | null;
  readonly id: string;
  readonly why: string;
}

/** The debrief's ride beside another over a span of road: a part for every run of footage. */
export function besideShot(input: AutomaticFilmInput, wish: BesideWish): CardItem[] {
  const { judged, clips, settings } = input;
  const { road, span, ownSecond } = wish;
  const { ride, reading, plan } = judged;
  const columns = rideColumns(ride, reading);
  const { firstS, secondS } = road.beside.spots;
  const map = {
    atM: Float64Array.from(firstS, (_, k) => k * ROAD_STEP_M),
    aS: Float64Array.from(firstS),
    bS: Float64Array.from(secondS),
  };
  const words = againWords(settings.language);
  const footage = footageOfBoth(input, wish);
  const own: PairRide = {
    name: road.riderName === null ? words.today : (input.riderName ?? phrasesFor(settings.language).you),
    series: (fromS, toS) => pairSeries(columns, fromS, toS),
    clips: footage.own,
  };
  const other: PairRide = {
    name: besideName(road, settings.language),
    series: (fromS, toS) => seriesBetween(road.beside.series, fromS, toS),
    clips: footage.others,
  };
  const pace = pairPace(map, span, wish.follow);
  const spots = spotsWithin(map, span);
  const rides: readonly [PairRide, PairRide] = ownSecond ? [other, own] : [own, other];
  return pairItems({
    title: rides.map(({ name }) => name).join(" / "),
    follow: wish.follow,
    units: settings.look?.units ?? plan.units,
    rides,
    pace: ownSecond ? swapped(pace) : pace,
    spots: ownSecond ? swapped(spots) : spots,
    frameRate: filmShape(clips, settings.preset, settings.look?.shape).frameRate,
    id: wish.id,
    oneRider: road.riderName === null,
    of: {
      ...span,
      riderName: road.riderName,
      startUtcMs: road.startUtcMs,
      ownSecond,
      ...(wish.otherClipId === undefined ? {} : { otherClipId: wish.otherClipId }),
    },
    why: wish.why,
  });
}

/**
 * The clips of either rider, each on that rider's own clock: the other's are those whose camera the line-up found on the
 * other's ride, or the one that a coach says.
 */
function footageOfBoth(
  { clips, lineup, settings }: AutomaticFilmInput,
  { road, otherClipId }: BesideWish,
): { readonly own: readonly SideClip[]; readonly others: readonly SideClip[] } {
  const placed = placedClips(clips, lineup, settings.acceptUnsure);
  const ride = lineup.rides.find(({ file, shown }) => !shown && riderNameOf(file) === road.riderName);
  const carriedByOther = ({ clip }: PlacedClip): boolean => {
    if (ride === undefined) return false;
    if (otherClipId !== undefined) return clip.id === otherClipId;
    const reason = lineup.clips.find(({ clipId }) => clipId === clip.id)?.reason;
    return reason?.code === "camera-on-ride" && reason.facts.rideName === ride.file;
  };
  const asSide = ({ clip, clock, startS, endS }: PlacedClip, laterS: number): SideClip => ({
    clipId: clip.id,
    clock: { ...clock, offsetS: clock.offsetS - laterS },
    span: { startS: startS - laterS, endS: endS - laterS },
  });
  return {
    own: placed.filter((one) => !carriedByOther(one)).map((one) => asSide(one, 0)),
    others: placed.filter(carriedByOther).map((one) => asSide(one, ride?.offsetS ?? 0)),
  };
}

function swapped<T extends PairPace | PairSpots>(both: T): T {
  return { ...both, firstS: both.secondS, secondS: both.firstS };
}

/** `16 May`, or the other rider's name. */
export function besideName(
  { riderName, startUtcMs, utcOffsetMin }: RoadBefore,
  language: AutomaticFilmInput["settings"]["language"],
): string {
  if (riderName !== null) return riderName;
  return startUtcMs === null ? againWords(language).then : rideDayText(startUtcMs, utcOffsetMin, language);
}

/**
 * The one comparison that an automatic film may hold: today's longest break on a road where an earlier ride at like power
 * had fewer, there without one. Only where breaks are what the debrief teaches; nothing where the rider's note comes
 * first, in a lesson, or where it can't be told.
 */
export function automaticBeside(
  input: AutomaticFilmInput,
  story: DebriefStory,
  roads: readonly RoadBefore[],
): CardItem[] {
  const { judged, settings } = input;
  if (settings.forWhom === "lesson" || story.facts.hold !== null || !OF_BREAKS.has(story.teaching)) return [];
  const told = story.facts.again.find(({ breaks }) => breaks !== null && breaks.now > breaks.before);
  if (told === undefined) return [];
  const road = roads.find(
    ({ riderName, startUtcMs, beside: { spots } }) =>
      riderName === null &&
      startUtcMs === told.startUtcMs &&
      spots.firstS[0]! <= told.now.startS &&
      spots.firstS.at(-1)! >= told.now.endS,
  );
  if (road === undefined) return [];
  const lengthS = (one: Span): number => one.endS - one.startS;
  const dropped = droppedSpans(input);
  const best = judged.reading.breaks
    .filter((one) => one.excused === false && one.startS >= told.now.startS && one.endS <= told.now.endS)
    .filter((one) => !dropped.some((span) => span.startS <= one.startS && span.endS >= one.endS))
    .filter((one) => heldThere(road, one))
    .toSorted((one, another) => lengthS(another) - lengthS(one))[0];
  if (best === undefined) return [];
  const startS = Math.max(told.now.startS, best.startS - BEFORE_S);
  const span = { startS, endS: Math.min(told.now.endS, best.endS + AFTER_S, startS + MOST_S) };
  const why = debriefWords(settings.language, null, settings.forWhom).film.why({ kind: "beside" });
  return besideShot(input, { road, span, follow: "place", ownSecond: false, id: "beside", why });
}

/** Moments that the coach took out: what they show is not brought back by another door. */
function droppedSpans({ choices }: AutomaticFilmInput): Span[] {
  return choices.flatMap(({ keep, startS, endS }) => (keep === false && endS !== null ? [{ startS, endS }] : []));
}

/** Whether the other ride was pressing at the place of a break, every second of it known. */
function heldThere({ beside: { spots, series } }: RoadBefore, { startS, endS }: Break): boolean {
  const from = Math.floor(valueAt(spots.firstS, spots.secondS, startS));
  const to = valueAt(spots.firstS, spots.secondS, endS);
  for (let cell = from; cell < to; cell++) {
    const state = series.pressure[cell - series.startS] ?? PressureState.unknown;
    if (state !== PressureState.in && state !== PressureState.below && state !== PressureState.above) return false;
  }
  return true;
}

/** Panels that show now / then unless a coach says otherwise. */
const USUAL_PANELS = ["power", "heartRate"] as const;

/** Another ride on a shot's own picture: its road over the shot's page of thread. */
export function besideOn(
  road: RoadBefore,
  { pageStartS, pageEndS }: Pick<Shot, "pageStartS" | "pageEndS">,
  language: AutomaticFilmInput["settings"]["language"],
): ShotBeside {
  const { spots, series } = road.beside;
  const within = spots.firstS.flatMap((s, k) => (s >= pageStartS - SPARE_S && s <= pageEndS + SPARE_S ? [k] : []));
  const secondS = within.map((k) => spots.secondS[k]!);
  return {
    name: besideName(road, language),
    ...(road.riderName === null ? { panels: USUAL_PANELS } : { panels: ["power"], oneRider: false }),
    spots: { firstS: within.map((k) => spots.firstS[k]!), secondS },
    series: seriesBetween(series, secondS[0] ?? series.startS, secondS.at(-1) ?? series.startS),
  };
}

/** Road kept before and after a shot's page, s: it may be cut a little longer. */
const SPARE_S = 30;
