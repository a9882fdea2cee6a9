import type { Language } from "../contract/languageAndUnits.ts";
import type { ForWhom } from "../contract/presets.ts";
import type { CardItem, MomentKey } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Lineup } from "../contract/lineup.ts";
import type { Plan, PlannedBlock } from "../contract/plan.ts";
import type { Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import type { DebriefPhrases } from "../../overlay/words/debriefPhrases.ts";
import { type DebriefStory, storyForLesson } from "../../overlay/words/debriefStory.ts";
import { type ChartSource } from "./filmCards.ts";
import type { FilmShape } from "./filmShape.ts";

export interface FilmInput {
  readonly ride: Ride;
  readonly plan: Plan;
  readonly reading: Reading;
  /** What the plan's blocks ask for. */
  readonly blocks: readonly PlannedBlock[];
  /** From `tellStory`. */
  readonly story: DebriefStory;
  readonly clips: readonly Clip[];
  readonly lineup: Lineup;
  /** Wished length, s. */
  readonly lengthS: number;
  readonly shape: FilmShape;
  readonly language: Language;
  /** Lines under the title, for example the date. */
  readonly titleLines: readonly string[];
  /** What the coach said about each moment of the reading, in its order; none: the story picks alone. */
  readonly wishes: readonly MomentWish[];
  /** True: clips whose place is not sure may be shown too. */
  readonly acceptUnsure: boolean;
  /** Whose numbers; null when there is one rider. */
  readonly riderName: string | null;
  /** `lesson`: for others; names, the day and the coach's own words are left out. */
  readonly forWhom: ForWhom;
  /** In a lesson: watts as percent of the plan, where the plan has a target. */
  readonly asPercent: boolean;
  /** This ride beside an earlier one, where that supports what is taught. Missing: not looked for. */
  readonly beside?: readonly CardItem[];
}

/** What a coach said about one moment. */
export interface MomentWish {
  /** By which the moment is known again; missing: by its kind and start as they stand. */
  readonly key?: MomentKey;
  /** True: in the film. False: not. Null: the story decides. */
  readonly keep: boolean | null;
  /** The coach's own name for it, or null. */
  readonly name: string | null;
}

/** The phrase table of the film: a lesson may say watts as a share of the plan. */
export function filmWords(input: FilmInput): DebriefPhrases {
  return debriefWords(input.language, percentOfW(input), input.forWhom);
}

/** The watts that are 100 % where a lesson says power as a share; null: watts are said. */
function percentOfW(input: FilmInput): number | null {
  return input.forWhom === "lesson" && input.asPercent ? (input.reading.bandW?.target ?? null) : null;
}

/** What the charts of a film are drawn from. */
export function chartSource(input: FilmInput): ChartSource {
  const { ride, plan, reading, blocks, forWhom } = input;
  return { ride, plan, reading, blocks, percentOfW: percentOfW(input), ground: forWhom === "athlete" };
}

/** The same without anything that says who, when or where. */
export function anonymous(input: FilmInput): FilmInput {
  return {
    ...input,
    plan: { ...input.plan, title: filmWords(input).film.lessonTitle, rider: null, eventName: null },
    story: storyForLesson(input.story, input.asPercent),
    wishes: input.wishes.map((wish) => ({ ...wish, name: null })),
    titleLines: [],
    beside: [],
    riderName: null,
  };
}
