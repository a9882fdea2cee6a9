import type { RideSummary } from "../contract/rideSummary.ts";
import type { DebriefDocument } from "../contract/debrief.ts";
import type { Athlete } from "../contract/athlete.ts";
import type { Language } from "../contract/languageAndUnits.ts";
import type { Plan, PlannedBlock } from "../contract/plan.ts";
import type { Override, Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import { readingText } from "../../overlay/words/reading/readingText.ts";
import type { DebriefFacts } from "../contract/debriefFacts.ts";
import type { RideFigures } from "../contract/rideFigures.ts";
import type { RoadBefore } from "../contract/roads.ts";
import { debriefFacts } from "../reading/facts/debriefFacts.ts";
import { plannedBlocks } from "../reading/band.ts";
import { localStartMs, targetWarnings } from "../reading/plan/targetFor.ts";
import { withoutPastEvent } from "../reading/plan/withoutPastEvent.ts";
import { read } from "../reading/read.ts";
import { risesOf } from "../reading/moments/riseThenOff.ts";
import { readingJson } from "../reading/readingJson.ts";
import { readRide } from "../ride/readRide.edge.ts";
import { rideSummary } from "../ride/rideSummary.ts";
import { riddenAgain } from "../roads/riddenAgain.ts";
import { type Debrief, shownRideOf } from "./debrief.ts";
import { earlierRides, type EarlierRide } from "./earlierRides.ts";
import { readGivenRide } from "./givenRide.ts";
import type { Host, RideWork } from "./host.ts";
import { riderNameOf } from "./riderNameOf.ts";
import { roadsBefore } from "./roadsBefore.ts";
import { planSourceOfKnown, type PlanChoices } from "./planSource.ts";

export interface ReadOutcome {
  readonly ride: Ride;
  readonly plan: Plan;
  readonly reading: Reading;
  /** What is said of the ride in figures, by every output. */
  readonly facts: DebriefFacts;
  readonly summary: RideSummary;
}

/** The JSON contract of `read`; `language` of what is said in words. */
export function readJson({ ride, reading, summary }: ReadOutcome, language: Language) {
  return readingJson(summary, reading, language, ride);
}

/** What a coach can read aloud, as the command line and the coach's page say it. */
export function readLines({ ride, plan, reading, summary }: ReadOutcome, language: Language): string[] {
  return readingText(reading, summary, { language, units: plan.units, oddInFile: ride.warnings });
}

/** What is known of the rider beside the ride; nothing is known by default. */
export interface KnownOfRider {
  readonly athlete: Athlete | null;
  /** Figures of the athlete's earlier rides. */
  readonly earlier: readonly RideFigures[];
  /** Earlier rides over this one's roads. */
  readonly roads: readonly RoadBefore[];
}

const NOTHING_KNOWN: KnownOfRider = { athlete: null, earlier: [], roads: [] };

/**
 * One ride and its plan judged, with what should be said about the athlete's target. An event that was over when the ride
 * began is no part of the plan any more.
 */
export function judgeRide(
  ride: Ride,
  asked: Plan,
  overrides: readonly Override[],
  known: KnownOfRider = NOTHING_KNOWN,
): ReadOutcome {
  const firsts = known.earlier.flatMap(({ firstBpm, firstPowerW }) =>
    firstBpm === null || firstPowerW === null ? [] : [{ firstBpm, powerW: firstPowerW }],
  );
  const plan = withoutPastEvent(asked, localStartMs(ride));
  const alone = read(ride, plan, overrides, firsts);
  const said =
    known.athlete === null ? [] : targetWarnings(known.athlete, plan.setting, localStartMs(ride), plan.targetW);
  const reading = said.length === 0 ? alone : { ...alone, warnings: [...alone.warnings, ...said] };
  const rises = known.roads.length === 0 ? [] : risesOf({ ride, counted: reading.counted });
  const again = riddenAgain({ ride, reading, meterOffsetW: plan.meterOffsetW, rises }, known.roads);
  const facts = debriefFacts(ride, plan, reading, known.earlier, again);
  return { ride, plan, reading, facts, summary: rideSummary(ride, plan.setting) };
}

/** The ride judged by the document's plan and overrides, its moments followed by the coach's own. Indices are stable. */
export function judgeDebrief(
  ride: Ride,
  document: Pick<DebriefDocument, "plan" | "overrides" | "ownMoments">,
  known?: KnownOfRider,
): ReadOutcome {
  const judged = judgeRide(ride, document.plan, document.overrides, known);
  if (document.ownMoments.length === 0) return judged;
  return { ...judged, reading: { ...judged.reading, moments: [...judged.reading.moments, ...document.ownMoments] } };
}

/** Rides read and judged in the program's own thread. */
export const RIDES_HERE: RideWork = {
  read: readRide,
  judge: (_path, ride, document, known) => Promise.resolve(judgeDebrief(ride, document, known)),
  roads: (_path, ride, earlier) => roadsBefore(ride, earlier, judgeDebrief),
};

/** Parts of a document that its reading follows from, beside the ride. */
const READING_PARTS = ["plan", "overrides", "ownMoments"] as const;

/**
 * A debrief with its ride judged against its plan and what is known of the rider. The athlete's earlier rides are looked
 * up once for a ride: an edit does not read a folder of debriefs. Without a ride in memory nothing is judged.
 *
 * @param before the debrief before a change: its reading stays where all that it follows from is the same
 */
export async function judge(debrief: Debrief, host: Host, before: Debrief | null = null): Promise<Debrief> {
  const shown = shownRideOf(debrief);
  if (shown === null) return { ...debrief, judged: null, earlier: [], roads: [] };
  const { ride, path } = shown;
  const { document, rider } = debrief;
  const { athlete, athleteDir } = rider;
  const { setting } = document.plan;
  const ridesOf = ({ document: { media } }: Debrief): string =>
    media.flatMap(({ id, kind }) => (kind === "ride" ? [id] : [])).join(" ");
  const sameRide = before?.judged?.ride === ride && before.rider === rider && ridesOf(before) === ridesOf(debrief);
  if (sameRide && READING_PARTS.every((part) => before.document[part] === document[part]))
    return { ...debrief, judged: before.judged, earlier: before.earlier, roads: before.roads };
  const { earlier, roads } =
    sameRide && before.document.plan.setting === setting
      ? before
      : await knownBefore(path, ride, athleteDir, setting, host.rides, otherRiders(debrief));
  const judged = await host.rides.judge(path, ride, document, { athlete, earlier, roads });
  return { ...debrief, judged, earlier, roads };
}

/** What the athlete's earlier debriefs tell of a ride. */
export async function knownBefore(
  path: string,
  ride: Ride,
  athleteDir: string | null,
  setting: Plan["setting"],
  work: RideWork,
  others: readonly EarlierRide[] = [],
): Promise<Pick<KnownOfRider, "earlier" | "roads">> {
  const { figures, rides } = await earlierRides(athleteDir, ride.startUtcMs, setting);
  const all = [...rides, ...(setting === "trainer" ? [] : others)];
  return { earlier: figures, roads: all.length === 0 ? [] : await work.roads(path, ride, all) };
}

/** The other rides that a debrief names, judged by its plan. */
function otherRiders({ document, media }: Debrief): EarlierRide[] {
  const { plan, shownRideId } = document;
  return document.media.flatMap(({ id, kind }) => {
    const loaded = kind === "ride" && id !== shownRideId ? media.rides.get(id) : undefined;
    if (loaded === undefined) return [];
    const riderName = riderNameOf(loaded.ride.fileName);
    return [{ path: loaded.path, riderName, document: { plan, overrides: [], ownMoments: [] } }];
  });
}

/** What each planned block asks for. */
export function blocksAsked({ plan }: ReadOutcome): readonly PlannedBlock[] {
  return plannedBlocks(plan);
}

/** Read a ride file and judge it. Failures of the ride, the plan and the athlete's file; `file-unreadable` for a folder without an athlete. */
export async function readJourney(
  ridePath: string,
  choices: PlanChoices,
  rides: RideWork = RIDES_HERE,
): Promise<ReadOutcome> {
  const { athlete, on } = await planSourceOfKnown(choices);
  const ride = await readGivenRide(ridePath, rides);
  const plan = on(localStartMs(ride));
  const known = await knownBefore(ridePath, ride, choices.athleteDir ?? null, plan.setting, rides);
  return rides.judge(ridePath, ride, { plan, overrides: [], ownMoments: [] }, { athlete, ...known });
}
