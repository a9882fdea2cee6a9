import type { DebriefDocument, MomentChoice } from "../contract/debrief.ts";
import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Lineup } from "../contract/lineup.ts";
import type { Moment, Reading } from "../contract/reading.ts";
import { chooseFilm } from "../film/chooseFilm.ts";
import { filmShape } from "../film/filmShape.ts";
import { tellStory } from "../film/tellStory.ts";
import type { ReadOutcome } from "./readJourney.ts";

export interface AutomaticFilmInput {
  readonly judged: ReadOutcome;
  readonly clips: readonly Clip[];
  readonly lineup: Lineup;
  readonly settings: DebriefDocument["settings"];
  /** What the coach said about single moments; empty: the story picks alone. */
  readonly choices: readonly MomentChoice[];
  readonly words: DebriefDocument["words"];
  /** Whose numbers the film shows; null where there is one rider. */
  readonly riderName: string | null;
}

/**
 * The automatic film: what the story picks, less what the coach dropped, with what the coach kept. A moment given
 * another span is shown with that.
 */
export function automaticFilm(input: AutomaticFilmInput): Film {
  const { judged, clips, lineup, settings, choices } = input;
  const { ride, plan } = judged;
  const reading = withSpans(judged.reading, choices);
  const choose = (picks: readonly number[] | null): Film =>
    chooseFilm({
      ride,
      plan,
      reading,
      story: tellStory(ride, plan, reading, { words: spokenWords(input.words) }),
      clips,
      lineup,
      lengthS: settings.lengthS,
      shape: filmShape(clips, settings.preset),
      language: settings.language,
      titleLines: [],
      picks,
      acceptUnsure: settings.acceptUnsure,
      forWhom: settings.forWhom,
      asPercent: settings.asPercent,
      riderName: input.riderName,
    });
  const film = choose(null);
  const keepOf = (moment: Moment): boolean | null => choiceOf(choices, moment)?.keep ?? null;
  if (judged.reading.moments.every((moment) => keepOf(moment) === null)) return film;
  const told = new Set(film.items.flatMap(({ moment }) => (moment === null ? [] : [moment])));
  const picks = judged.reading.moments.flatMap((moment, index) => (keepOf(moment) ?? told.has(index) ? [index] : []));
  return choose(picks);
}

/** What the coach said about a moment, or null. */
export function choiceOf(choices: readonly MomentChoice[], moment: Moment): MomentChoice | null {
  return choices.find(({ kind, startS }) => kind === moment.kind && startS === moment.startS) ?? null;
}

/** The coach's own lines in place of the made ones. */
export function spokenWords(words: DebriefDocument["words"]): { held?: string; change?: string; next?: string } {
  const { held, change, next } = words;
  return { ...(held === null ? {} : { held }), ...(change === null ? {} : { change }), ...(next === null ? {} : { next }) };
}

function withSpans(reading: Reading, choices: readonly MomentChoice[]): Reading {
  const moments = reading.moments.map((moment) => ({ ...moment, ...choiceOf(choices, moment)?.span }));
  return { ...reading, moments };
}
