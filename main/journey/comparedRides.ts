import { basename } from "node:path";
import type { ComparedRow, ComparedSide, ComparedStretch } from "../contract/comparison.ts";
import { Failure } from "../contract/failure.ts";
import type { Film } from "../contract/film.ts";
import { type FilmLook, PLAIN_LOOK } from "../contract/filmLook.ts";
import type { Clip } from "../contract/footage.ts";
import { settled, type JobContext } from "../contract/job.ts";
import type { Language, UnitSystem } from "../contract/languageAndUnits.ts";
import { note, type Note } from "../contract/notice.ts";
import type { FollowWay } from "../contract/pair.ts";
import type { Plan } from "../contract/plan.ts";
import { fitFor, type PresetName } from "../contract/presets.ts";
import type { Reading } from "../contract/reading.ts";
import type { Ride, Span } from "../contract/ride.ts";
import type { PlaceMap } from "../contract/roads.ts";
import { rideDayText } from "../../overlay/words/compareWords.ts";
import { filmShape } from "../film/filmShape.ts";
import { pairItems, pairSeries, type PairRide, type SideClip } from "../film/pairItems.ts";
import { parseRideTime } from "../lineup/parseRideTime.ts";
import { localStartMs } from "../reading/plan/targetFor.ts";
import { rideColumns } from "../reading/rideColumns.ts";
import { lookLayout } from "../render/lookLayout.ts";
import { renderFilm } from "../render/renderFilm.edge.ts";
import { comparedStretch } from "../roads/comparedStretch.ts";
import { matchRoads } from "../roads/matchRoads.ts";
import { pairPace, spotsWithin } from "../roads/pairPace.ts";
import { placeMap } from "../roads/placeMap.ts";
import { passesAlong, sharedSpans } from "../roads/stretchAt.ts";
import { notUsable, nowhere } from "./clipDoubts.ts";
import { sortFiles } from "./gather.ts";
import { readGivenRide } from "./givenRide.ts";
import type { Host } from "./host.ts";
import { judgeRide } from "./judge.ts";
import { gatherOuting, placeOuting, lineupOutcome } from "./linedUpClips.ts";
import { outputFor, type OutputWish } from "./outputChoice.ts";
import { clipsOnRide } from "./overlaidClips.ts";
import { planSource, type PlanChoices } from "./planSource.ts";

export interface CompareRequest {
  /** Two rides, the first the one spoken of, and clips of it. */
  readonly paths: readonly string[];
  /** Clips that show the second ride. */
  readonly secondClips: readonly string[];
  /** `CLIP@T=RIDE_T`; RIDE_T is of the ride that the clip shows. */
  readonly anchors: readonly string[];
  readonly deviceDelayS: number;
  readonly acceptUnsure: boolean;
  /** Places of the first ride, as typed; null: the ends of the longest stretch that both rode. */
  readonly from: string | null;
  readonly to: string | null;
  /** Which of the second's passes, from 1. */
  readonly pass: number | null;
  readonly follow: FollowWay;
  /** What the two are called on the picture; null: their days or files. */
  readonly names: readonly [string, string] | null;
  readonly plan: PlanChoices;
  readonly language: Language;
  readonly units: UnitSystem | null;
  /** The film; null: none. */
  readonly outPath: string | null;
  readonly preset: PresetName;
  readonly look: Partial<FilmLook>;
  readonly output: OutputWish;
}

export interface Compared {
  readonly files: { readonly first: string; readonly second: string };
  readonly units: UnitSystem;
  readonly pass: number;
  readonly passes: number;
  readonly stretch: ComparedStretch;
  readonly written: readonly string[];
  readonly warnings: readonly Note[];
}

/** A longer film of one stretch teaches nobody, s of the first ride. */
const MOST_FILM_S = 600;

interface JudgedRide {
  readonly path: string;
  readonly ride: Ride;
  readonly plan: Plan;
  readonly reading: Reading;
}

/** Two rides over a stretch that both rode: in figures, and on wish side by side as a film. Nothing is written before all of it is known to be there. */
export async function compareJourney(request: CompareRequest, host: Host, context: JobContext): Promise<Compared> {
  const { ridePaths, clipPaths } = await sortFiles(request.paths);
  const [firstPath, secondPath, ...more] = ridePaths;
  if (firstPath === undefined || secondPath === undefined || more.length > 0)
    throw new Failure("compare-ride-count", { count: ridePaths.length });
  const { on } = await planSource(request.plan);
  const [first, second] = [await judged(firstPath, on, host), await judged(secondPath, on, host)];
  const names = { rideName: first.ride.fileName, otherName: second.ride.fileName };
  const { map, span, pass, passes } = chosenStretch(request, first.ride, second.ride);
  const stretch = comparedStretch(comparable(first), comparable(second), map, span);
  const units = request.units ?? first.plan.units;
  const notes = [
    ...(passes > 1 ? [note("road-ridden-often", { ...names, passes, pass })] : []),
    ...(isSameRide(first.ride, second.ride) ? [note("compared-with-itself", names)] : []),
  ];
  const film =
    request.outPath === null
      ? { written: [], warnings: [] }
      : await pairFilm({ ...request, units }, request.outPath, clipPaths, [first, second], map, span, host, context);
  return {
    // Two files of one name are told apart by where they lie.
    files:
      names.rideName === names.otherName
        ? { first: firstPath, second: secondPath }
        : { first: names.rideName, second: names.otherName },
    units,
    pass,
    passes,
    stretch,
    written: film.written,
    warnings: [...notes, ...film.warnings],
  };
}

/** The contract of `compare --json`; seconds, metres, watts and beats a minute. */
export function comparedJson({ files, pass, passes, stretch }: Compared): object {
  const tenth = (value: number | null): number | null => (value === null ? null : Math.round(value * 10) / 10);
  const side = ({ startS, endS, powerW, heartRateBpm, breaks }: ComparedSide) => ({
    startS: tenth(startS),
    endS: tenth(endS),
    powerW: tenth(powerW),
    heartRateBpm: tenth(heartRateBpm),
    breaks,
  });
  const row = ({ fromM, toM, first, second, gainedS }: ComparedRow) => ({
    fromM: tenth(fromM),
    toM: tenth(toM),
    first: side(first),
    second: side(second),
    gainedS: tenth(gainedS),
  });
  return { ...files, pass, passes, whole: row(stretch.whole), parts: stretch.parts.map(row) };
}

async function judged(path: string, planOn: (localMs: number | null) => Plan, host: Host): Promise<JudgedRide> {
  const ride = await readGivenRide(path, host.rides);
  const plan = planOn(localStartMs(ride));
  return { path, ride, plan, reading: judgeRide(ride, plan, []).reading };
}

function comparable({ ride, reading }: JudgedRide) {
  return {
    ride,
    breaks: reading.pressure.cranksKnown ? reading.breaks.filter(({ excused }) => excused !== true) : null,
  };
}

/** Nobody rides two rides at once: then they are two riders'. */
function atOnce(one: Ride, other: Ride): boolean {
  const [a, b] = [one.startUtcMs, other.startUtcMs];
  return a === null || b === null || (a < b + 1000 * other.elapsedS && b < a + 1000 * one.elapsedS);
}

function isSameRide(one: Ride, other: Ride): boolean {
  const [a, b] = [one.raw, other.raw];
  return (
    one.startUtcMs === other.startUtcMs &&
    a.count === b.count &&
    a.timeS.every(
      (s, k) => s === b.timeS[k] && Object.is(a.latDeg[k], b.latDeg[k]) && Object.is(a.powerW[k], b.powerW[k]),
    )
  );
}

/** @throws Failure where the rides share no road, or not the stretch that is asked for */
function chosenStretch(
  { from, to, pass: wished }: Pick<CompareRequest, "from" | "to" | "pass">,
  first: Ride,
  second: Ride,
): { readonly map: PlaceMap; readonly span: Span; readonly pass: number; readonly passes: number } {
  const names = { rideName: first.fileName, otherName: second.fileName };
  const match = matchRoads(first, second);
  const longest = match.stretches[0];
  if (match.why !== null || longest === undefined)
    throw new Failure("roads-not-shared", { ...names, why: match.why ?? "other roads" });
  const asked = {
    startS: from === null ? longest.a.startS : parseRideTime(from, first).rideS,
    endS: to === null ? longest.a.endS : parseRideTime(to, first).rideS,
  };
  if (asked.endS <= asked.startS) throw new Failure("stretch-backwards", { fromS: asked.startS, toS: asked.endS });
  const passes = passesAlong(match, asked);
  if (passes.length === 0) {
    const shared = sharedSpans(match)
      .sort((one, other) => other.endS - other.startS - (one.endS - one.startS))
      .slice(0, 3);
    throw new Failure("stretch-not-shared", { ...names, fromS: asked.startS, toS: asked.endS, shared });
  }
  const pass = wished ?? 1;
  const chosen = passes[pass - 1];
  if (chosen === undefined) throw new Failure("pass-unknown", { ...names, pass, passes: passes.length });
  const map = placeMap(match, chosen.stretch);
  const span = {
    startS: Math.max(chosen.span.startS, map.aS[0]!),
    endS: Math.min(chosen.span.endS, map.aS.at(-1)!),
  };
  return { map, span, pass, passes: passes.length };
}

/** A clip of one of the two rides. */
interface PlacedClip extends SideClip {
  readonly clip: Clip;
}

async function pairFilm(
  request: CompareRequest & { readonly units: UnitSystem },
  outPath: string,
  clipPaths: readonly string[],
  rides: readonly [JudgedRide, JudgedRide],
  map: PlaceMap,
  span: Span,
  host: Host,
  context: JobContext,
): Promise<{ readonly written: readonly string[]; readonly warnings: readonly Note[] }> {
  const pace = pairPace(map, span, request.follow);
  const lengthS = pace.filmS.at(-1)!;
  if (lengthS > MOST_FILM_S)
    throw new Failure("stretch-too-long", { lengthS: span.endS - span.startS, mostS: MOST_FILM_S });
  const placed = await placedClips(request, clipPaths, rides, host, context);
  const clips = placed.clips.flat().map(({ clip }) => clip);
  const look = { ...PLAIN_LOOK, ...request.look };
  const { widthPx, heightPx, frameRate } = filmShape(clips, request.preset, look.shape);
  const names = request.names ?? namesOf(rides, request.language);
  const columns = rides.map(({ ride, reading }) => rideColumns(ride, reading));
  const ride = (which: 0 | 1): PairRide => ({
    name: names[which],
    series: (fromS, toS) => pairSeries(columns[which]!, fromS, toS),
    clips: placed.clips[which],
  });
  const items = pairItems({
    title: names.join(" / "),
    follow: request.follow,
    units: look.units ?? request.units,
    rides: [ride(0), ride(1)],
    pace,
    spots: spotsWithin(map, span),
    frameRate,
    oneRider: request.names === null && !atOnce(rides[0].ride, rides[1].ride),
    why: "",
  });
  const film: Film = { widthPx, heightPx, frameRate, items, leftOut: [] };
  const { preset, encoder, warnings } = await outputFor(request.preset, request.output, lengthS, host.tools);
  const job = {
    film,
    clips,
    columns: columns[0]!,
    outPath,
    preset,
    encoder,
    fit: fitFor(preset, look.shape, look.fit),
    layoutOptions: lookLayout(look, film, columns[0]!, { units: request.units, language: request.language }),
    cacheDir: host.cacheDir,
    anew: request.output.anew,
  };
  const { path, notes } = settled(await renderFilm(job, host.tools, context));
  const shown = [...placed.warnings, ...unfilmed(film, rides, placed.clips)];
  return { written: [path], warnings: [...shown, ...warnings, ...notes] };
}

/** The clips of either ride. What was named without saying which ride it shows belongs to the first, or to the second where it shows nothing of the first. */
async function placedClips(
  request: CompareRequest,
  clipPaths: readonly string[],
  [first, second]: readonly [JudgedRide, JudgedRide],
  host: Host,
  context: JobContext,
): Promise<{ readonly clips: readonly [PlacedClip[], PlacedClip[]]; readonly warnings: Note[] }> {
  const firstOnes = await onRide(request, first, clipPaths, true, "a", host, context);
  const lost = clipPaths.filter((path) => !firstOnes.placed.some(({ clip }) => clip.path === path));
  const named = await onRide(request, second, request.secondClips, false, "b", host, context);
  const found = await onRide(request, second, lost, true, "c", host, context);
  const nowhereIn = lost.filter((path) => !found.placed.some(({ clip }) => clip.path === path));
  return {
    clips: [firstOnes.placed, [...named.placed, ...found.placed]],
    warnings: [
      ...firstOnes.warnings,
      ...named.warnings,
      ...found.warnings,
      ...nowhereIn.map((path) => note("clip-beside-stretch", { fileName: basename(path) })),
    ],
  };
}

/** Clips lined up to one of the rides. @param mayBeElsewhere a clip that shows nothing of it is left out, not an error */
async function onRide(
  request: CompareRequest,
  { path, plan }: JudgedRide,
  clipPaths: readonly string[],
  mayBeElsewhere: boolean,
  mark: string,
  host: Host,
  context: JobContext,
): Promise<{ readonly placed: PlacedClip[]; readonly warnings: readonly Note[] }> {
  if (clipPaths.length === 0) return { placed: [], warnings: [] };
  const anchors = request.anchors.filter((text) => {
    const clip = basename(text.slice(0, Math.max(0, text.lastIndexOf("@"))));
    return clipPaths.some((one) => basename(one) === clip) || !knownClip(request, clip);
  });
  const outing = { paths: [path, ...clipPaths], anchors, deviceDelayS: request.deviceDelayS, show: null };
  const { clips, lineup } = lineupOutcome(
    await placeOuting(await gatherOuting(outing, () => plan, host), host, context),
  );
  const allLost = lineup.clips.every(({ verdict }) => verdict === "no match");
  const doubt = mayBeElsewhere && allLost ? null : (request.acceptUnsure ? nowhere : notUsable)(clips, lineup);
  if (doubt !== null) throw doubt;
  const placed = clipsOnRide(clips, lineup).map(({ clip, clock }): PlacedClip => {
    const [from, to] = [clip.frames.ticks[0]!, clip.frames.ticks.at(-1)!].map((tick) => tick / clip.frames.timescale);
    const id = `${mark}-${clip.id}`;
    const at = (mediaS: number): number => clock.offsetS + clock.rate * mediaS;
    return { clip: { ...clip, id }, clipId: id, clock, span: { startS: at(from!), endS: at(to!) } };
  });
  return { placed, warnings: lineup.warnings };
}

function knownClip({ paths, secondClips }: CompareRequest, name: string): boolean {
  return [...paths, ...secondClips].some((one) => basename(one) === name);
}

/** Where a side has footage somewhere and none for a while. */
function unfilmed(film: Film, rides: readonly JudgedRide[], clips: readonly (readonly PlacedClip[])[]): Note[] {
  return film.items.flatMap((item): Note[] => {
    if (item.type !== "card" || item.card.kind !== "pair") return [];
    const { sides, pace } = item.card;
    return sides.flatMap(({ footage }, which): Note[] => {
      if (footage !== null || clips[which]!.length === 0) return [];
      const times = which === 0 ? pace.firstS : pace.secondS;
      return [
        note("pair-side-unfilmed", { rideName: rides[which]!.ride.fileName, fromS: times[0]!, toS: times.at(-1)! }),
      ];
    });
  });
}

/** Days where they differ and are known, else the files' own names. */
function namesOf(rides: readonly [JudgedRide, JudgedRide], language: Language): readonly [string, string] {
  const days = rides.map(({ ride: { startUtcMs, utcOffsetMin } }) =>
    startUtcMs === null ? null : rideDayText(startUtcMs, utcOffsetMin, language),
  );
  const plain = rides.map(({ ride }) => ride.fileName.replace(/\.[^.]*(\.gz)?$/, ""));
  const [one, other] = days;
  if (typeof one === "string" && typeof other === "string" && one !== other) return [one, other];
  return [plain[0]!, plain[1]!];
}
