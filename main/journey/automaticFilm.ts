import type { ForWhom } from "../contract/presets.ts";
import type { DebriefDocument, MomentChoice } from "../contract/debrief.ts";
import type { Film, FilmItem } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Lineup } from "../contract/lineup.ts";
import type { RoadBefore } from "../contract/roads.ts";
import type { Reading } from "../contract/reading.ts";
import { choicesOn } from "../debrief/choicesOn.ts";
import { chooseFilm } from "../film/chooseFilm.ts";
import { itemForMoment } from "../film/filmedMoments.ts";
import type { FilmInput, MomentWish } from "../film/filmInput.ts";
import { plannedBlocks } from "../reading/band.ts";
import { filmShape } from "../film/filmShape.ts";
import { type RefreshedFilm, refreshFilm } from "../film/refreshFilm.ts";
import { tellStory } from "../film/tellStory.ts";
import { lessonMoments } from "../debrief/lessonMoments.ts";
import type { DebriefStory } from "../../overlay/words/debriefStory.ts";
import { automaticBeside } from "./besideShot.ts";
import type { ReadOutcome } from "./judge.ts";

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
  /** Other rides over this one's roads. */
  readonly roads: readonly RoadBefore[];
}

/**
 * The automatic film: what the story picks, less what the coach dropped, with what the coach kept. A moment given
 * another span is shown with that.
 */
export function automaticFilm(input: AutomaticFilmInput): Film {
  const given = filmInput(input);
  return chooseFilm({ ...given, beside: automaticBeside(input, given.story, input.roads) });
}

/** A film that the coach has set, on the numbers of today. `keptBack`: words that no lesson may hold. */
export function coachFilm(film: Film, input: AutomaticFilmInput, keptBack: readonly string[]): RefreshedFilm {
  return refreshFilm(film, filmInput(input), keptBack);
}

/** One shot or card for a moment (index into the reading's list), to be put into a film; null where there is no such moment. */
export function filmItemFor(input: AutomaticFilmInput, moment: number): FilmItem | null {
  return itemForMoment(filmInput(input), moment);
}

function filmInput(input: AutomaticFilmInput): FilmInput {
  const { judged, clips, lineup, settings, choices } = input;
  const { ride, plan } = judged;
  const reading = shownReading(judged.reading, choices, settings.forWhom);
  const said = choicesOn(judged.reading.moments, choices).of;
  return {
    ride,
    plan,
    reading,
    blocks: plannedBlocks(plan),
    story: storyOf(judged, choices, input.words, settings.forWhom),
    clips,
    lineup,
    lengthS: settings.lengthS,
    shape: filmShape(clips, settings.preset, settings.look?.shape),
    language: settings.language,
    titleLines: [],
    wishes: judged.reading.moments.map(({ kind, startS, endS }, index): MomentWish => ({
      key: { kind, startS, endS },
      keep: said[index]?.keep ?? null,
      name: said[index]?.name ?? null,
    })),
    acceptUnsure: settings.acceptUnsure,
    forWhom: settings.forWhom,
    asPercent: settings.asPercent,
    riderName: input.riderName,
  };
}

/** The reading as film and page show it: moments with the coach's spans; in a lesson without the coach's own words. */
export function shownReading(reading: Reading, choices: readonly MomentChoice[], forWhom: ForWhom): Reading {
  const said = choicesOn(reading.moments, choices).of;
  const moments = reading.moments.map((moment, index) => ({ ...moment, ...said[index]?.span }));
  return { ...reading, moments: forWhom === "lesson" ? lessonMoments(moments) : moments };
}

/** What the ride has to teach, without the moments that the coach dropped. */
export function storyOf(
  judged: ReadOutcome,
  choices: readonly MomentChoice[],
  words: DebriefDocument["words"],
  forWhom: ForWhom,
): DebriefStory {
  const { ride, plan, reading, facts } = judged;
  const shown = shownReading(reading, choices, forWhom);
  const said = choicesOn(reading.moments, choices).of;
  const moments = shown.moments.filter((_, index) => said[index]?.keep !== false);
  return tellStory(ride, plan, { ...shown, moments }, facts, {
    words: spokenWords(words),
    nextS: words.nextS,
  });
}

/** Length of the main part that the debrief asks the next ride to have, s; null: it asks for none. */
export function askedNextS(judged: ReadOutcome, { choices, words, settings }: DebriefDocument): number | null {
  const { next } = storyOf(judged, choices, words, settings.forWhom);
  return "askS" in next ? next.askS : null;
}

/** The coach's own lines in place of the made ones. */
function spokenWords(words: DebriefDocument["words"]): { held?: string; change?: string; next?: string } {
  const { held, change, next } = words;
  return {
    ...(held === null ? {} : { held }),
    ...(change === null ? {} : { change }),
    ...(next === null ? {} : { next }),
  };
}
