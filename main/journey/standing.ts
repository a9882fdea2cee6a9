import { basename } from "node:path";
import type { AskedChoice, DebriefDocument } from "../contract/debrief.ts";
import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Lineup } from "../contract/lineup.ts";
import type { Ride } from "../contract/ride.ts";
import type { Athlete } from "../debrief/athlete.ts";
import { athleteWords } from "../debrief/athlete.ts";
import { choicesOn } from "../debrief/choicesOn.ts";
import { hideHome } from "../debrief/hideHome.ts";
import { holdForComments } from "../film/holdForComments.ts";
import { textChance } from "../maths/textMark.ts";
import { type AutomaticFilmInput, automaticFilm, coachFilm } from "./automaticFilm.ts";
import { type KnownOfRider, type ReadOutcome, judge } from "./judge.ts";

/** A debrief with its ride judged as the document says: what film, pages and window speak from. */
export interface DebriefStanding {
  readonly document: DebriefDocument;
  /** The ride with home hidden from its positions; the reading's moments with the coach's own ones after them. */
  readonly judged: ReadOutcome;
  readonly clips: readonly Clip[];
  readonly lineup: Lineup;
  /** The film in force: the coach's on today's numbers, else picked anew. */
  readonly film: Film;
  /** A person's words that a lesson could not carry, one sentence each. */
  readonly warnings: readonly string[];
  /** What the coach is asked about: choices, reasons of breaks and parts of the film without a sure place. */
  readonly asked: readonly AskedChoice[];
}

export interface StandingInput {
  readonly document: DebriefDocument;
  readonly ride: Ride;
  readonly clips: readonly Clip[];
  readonly lineup: Lineup;
  readonly athlete: Athlete | null;
  /** First readings of the athlete's earlier rides; left out: none known. */
  readonly earlier?: KnownOfRider["earlier"];
}

/** The ride judged by the document's plan and overrides, its moments followed by the coach's own. Indices are stable. */
export function judgeDebrief(
  ride: Ride,
  document: Pick<DebriefDocument, "plan" | "overrides" | "ownMoments">,
  known?: KnownOfRider,
): ReadOutcome {
  const judged = judge(ride, document.plan, document.overrides, known);
  if (document.ownMoments.length === 0) return judged;
  return { ...judged, reading: { ...judged.reading, moments: [...judged.reading.moments, ...document.ownMoments] } };
}

/** What of a debrief decides its automatic film. */
export function filmWishes(
  input: Omit<StandingInput, "athlete" | "ride"> & { readonly judged: ReadOutcome },
): AutomaticFilmInput {
  const { document, judged, clips, lineup } = input;
  const rides = document.media.filter(({ kind }) => kind === "ride").length;
  return {
    judged,
    clips,
    lineup,
    settings: document.settings,
    choices: document.choices,
    words: document.words,
    riderName: rides > 1 ? (document.plan.rider ?? basename(judged.ride.fileName)) : null,
  };
}

/** Everything that follows from a document and its media. `read`: its ride judged already, as by `judgeDebrief`. */
export function debriefStanding(
  input: StandingInput,
  read = judgeDebrief(input.ride, input.document, { athlete: input.athlete, earlier: input.earlier ?? [] }),
): DebriefStanding {
  const { document, clips, lineup, athlete } = input;
  const judged = awayFromHome(read, athlete);
  const wishes = filmWishes({ document, judged, clips, lineup });
  const standing = { document, judged, clips, lineup };
  if (document.film === null || document.filmSetBy === "computed")
    return { ...standing, film: automaticFilm(wishes), warnings: [], asked: askedOf(document, judged) };
  const { film, warnings, asked } = coachFilm(document.film, wishes, keptBackWords(document, athlete));
  return { ...standing, film: holdForComments(film), warnings, asked: [...askedOf(document, judged), ...asked] };
}

function askedOf({ choices }: DebriefDocument, { reading }: ReadOutcome): AskedChoice[] {
  return [
    ...choicesOn(reading.moments, choices).asked,
    ...reading.unsureOverrides.map((one) => ({ what: "break" as const, ...one })),
  ];
}

/** Words that no lesson may hold: the athlete's, the plan's names, the rider's note. */
export function keptBackWords(document: Pick<DebriefDocument, "plan">, athlete: Athlete | null): string[] {
  const { title, rider, eventName } = document.plan;
  const named = [title, rider, eventName].filter((one) => one !== null);
  return [...(athlete === null ? [] : athleteWords(athlete)), ...named, ...(rider ?? "").split(/\s+/)].filter(
    (word) => word.length > 1,
  );
}

/** The same ride without positions near home: no map, panel or file made from it can show them. */
function awayFromHome(judged: ReadOutcome, athlete: Athlete | null): ReadOutcome {
  const { ride } = judged;
  const { position } = ride.grid;
  const zone = athlete?.homeZone ?? null;
  if (position === null || zone === null) return judged;
  // From the ride's own records, so that every export of one ride is cut at the same place.
  const records = [ride.raw.latDeg, ride.raw.lonDeg, ride.raw.timeS]
    .map((column) => column.filter((_, at) => at % 97 === 0).join(" "))
    .join("|");
  const track = hideHome(position, zone, { before: textChance(records), after: textChance(`after ${records}`) });
  return { ...judged, ride: { ...ride, grid: { ...ride.grid, position: { ...position, ...track } } } };
}
