import type { Language, UnitSystem } from "../contract/languageAndUnits.ts";
import type { ForWhom } from "../contract/presets.ts";
import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Plan, PlannedBlock } from "../contract/plan.ts";
import type { Moment, Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import type { PageFont } from "../contract/pageFont.ts";
import type { DebriefPhrases, MomentFacts, PlanFacts } from "../../overlay/words/debriefPhrases.ts";
import { momentsTold } from "../../overlay/instant/filmRuns.ts";
import { type DebriefStory, toldKind } from "../../overlay/words/debriefStory.ts";

/** A picture of a moment with its panels. */
export interface Still {
  /** Index into the reading's moments. */
  readonly moment: number;
  readonly png: Uint8Array;
  /** The same smaller, for the page; null: the PNG itself goes in. */
  readonly jpeg: Uint8Array | null;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Everything that is written for people and for other tools. All numbers are the reading's and the ride's own. */
export interface HandoverData {
  readonly ride: Ride;
  readonly plan: Plan;
  readonly reading: Reading;
  readonly story: DebriefStory;
  /** What would be told if the rider's note did not come first, for the coach alone; null: nothing is held back. */
  readonly withoutNote: DebriefStory | null;
  /** From `film/momentFacts`, one per moment of the reading, in its order. */
  readonly momentFacts: readonly MomentFacts[];
  /** From `film/planFacts`. */
  readonly planFacts: PlanFacts;
  /** What the plan's blocks ask for. */
  readonly blocks: readonly PlannedBlock[];
  readonly film: Film;
  readonly clips: readonly Clip[];
  /** The JSON contract of `read`, for the coach's page. */
  readonly readJson: Readonly<Record<string, unknown>>;
  /** What `read` prints, for the coach's page; an empty line parts its sections. */
  readonly readLines: readonly string[];
  readonly language: Language;
  readonly units: UnitSystem;
  /** `lesson`: for others. Names, dates, place, file names and notes are left out. */
  readonly forWhom: ForWhom;
  /** In a lesson: watts as percent of the plan. */
  readonly asPercent: boolean;
  /** Title of the debrief; null: the plan's, else a plain one. */
  readonly title: string | null;
  /** Day of the ride in words, or null. */
  readonly dateText: string | null;
  /** Total distance, m, or null. */
  readonly distanceM: number | null;
  readonly notes: string | null;
  /** The coach's note on a moment, by its index. */
  readonly momentNotes: ReadonlyMap<number, string>;
  /** The coach's own name of a moment, by its index. */
  readonly momentNames: ReadonlyMap<number, string>;
  /** Moments the coach dropped, by index: no file for others names them. */
  readonly dropped: ReadonlySet<number>;
  /** The coach's questions, at most three; null: made from the ride. */
  readonly questions: readonly string[] | null;
  readonly stills: readonly Still[];
  /** The panels' own face, laid into the pages; without it they use the reader's. */
  readonly fonts: readonly PageFont[];
}

/** The moments that the athlete sees, by index: those of the film, in its order, each once. */
export function shownMoments(data: Pick<HandoverData, "film" | "reading">): number[] {
  return momentsTold(data.film).filter((index) => data.reading.moments[index] !== undefined);
}

/** The moments as they are named to the athlete. */
export function toldMoments({ story, reading }: Pick<HandoverData, "story" | "reading">): Moment[] {
  return reading.moments.map((moment) => ({ ...moment, kind: toldKind(story, moment.kind) }));
}

/** What a moment is called: the coach's name for it, else the phrase table's. A lesson has the table's only. */
export function momentTitle(data: HandoverData, words: DebriefPhrases, index: number): string {
  const own = data.forWhom === "lesson" ? undefined : data.momentNames.get(index);
  return own ?? words.momentName(toldKind(data.story, data.reading.moments[index]!.kind));
}

/** Title of what is handed over; a lesson has no name, place or day in it. */
export function handoverTitle(data: HandoverData, { film }: DebriefPhrases): string {
  return data.forWhom === "lesson" ? film.lessonTitle : (data.title ?? data.plan.title ?? film.titleFallback);
}
