import type { AskedChoice, DebriefDocument } from "../contract/debrief.ts";
import type { Film } from "../contract/film.ts";
import type { Note } from "../contract/notice.ts";
import type { RoadBefore } from "../contract/roads.ts";
import { type Athlete, athleteWords } from "../debrief/athlete.ts";
import { choicesOn } from "../debrief/choicesOn.ts";
import { hideHome } from "../debrief/hideHome.ts";
import { holdForComments } from "../film/holdForComments.ts";
import { textChance } from "../maths/textMark.ts";
import { type AutomaticFilmInput, automaticFilm, coachFilm } from "./automaticFilm.ts";
import { clipsOf, type Debrief, type DebriefStanding } from "./debrief.ts";
import type { ReadOutcome } from "./judge.ts";
import { taughtNotes } from "./taughtParts.ts";

/** What of a debrief decides its automatic film. */
export function filmWishes(
  input: Pick<DebriefStanding, "document" | "judged" | "clips" | "lineup">,
  roads: readonly RoadBefore[] = [],
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
    riderName: rides > 1 ? document.plan.rider : null,
    roads,
  };
}

/** A placed and judged debrief with its film: the coach's on today's numbers, else picked anew. Nothing where it is not both. */
export function film(debrief: Debrief): Debrief {
  const { document, lineup, judged: read, rider } = debrief;
  if (lineup === null || read === null) return { ...debrief, standing: null };
  const clips = clipsOf(debrief);
  const judged = awayFromHome(read, rider.athlete);
  const wishes = filmWishes({ document, judged, clips, lineup }, debrief.roads);
  const standing = { document, judged, clips, lineup };
  const taught = (made: Film): Note[] => taughtNotes(made, judged, document.words);
  if (document.film === null || document.filmSetBy === "computed") {
    const picked = automaticFilm(wishes);
    return {
      ...debrief,
      standing: { ...standing, film: picked, warnings: taught(picked), asked: askedOf(document, judged) },
    };
  }
  const set = coachFilm(document.film, wishes, keptBackWords(document, rider.athlete));
  const asked = [...askedOf(document, judged), ...set.asked];
  return {
    ...debrief,
    standing: { ...standing, film: holdForComments(set.film), warnings: [...set.warnings, ...taught(set.film)], asked },
  };
}

function askedOf({ choices }: DebriefDocument, { reading }: ReadOutcome): AskedChoice[] {
  return [
    ...choicesOn(reading.moments, choices).asked,
    ...reading.unsureOverrides.map((one) => ({ what: "break" as const, ...one })),
  ];
}

/** Words that no lesson may hold: the athlete's, and the names in the plan. */
function keptBackWords(document: Pick<DebriefDocument, "plan">, athlete: Athlete | null): string[] {
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
