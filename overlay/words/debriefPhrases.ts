/** What every language table of the written debrief and of the film's cards and captions must be able to say. */
import type { UnitSystem } from "../../main/contract/languageAndUnits.ts";
import type { BlockFacts, DebriefFacts, DriftFacts } from "../../main/contract/debriefFacts.ts";
import type { PlanSkill } from "../../main/contract/plan.ts";
import type { DebriefStory, LadderWeek } from "./debriefStory.ts";

/** A moment in plain values, for its caption, its heading and its sentence. */
export interface MomentFacts {
  readonly kind: string;
  readonly startS: number;
  readonly endS: number;
  /** The code of why it is one, or the coach's words. */
  readonly reason: string;
  readonly setByCoach: boolean;
  /** Mean power of its effort, as far as it is shown, W; null without power. Of a rise: while above the plan. */
  readonly meanW: number | null;
  /** False: only a part of the moment is shown, and every figure here is of that part. */
  readonly whole: boolean;
  readonly meanRpm: number | null;
  readonly meanBpm: number | null;
  /** Seconds of it in which the cranks were not pressed; null when unknown. */
  readonly offS: number | null;
  /** Separate times that pressure went in it; null when unknown. */
  readonly breaks: number | null;
  readonly targetW: number | null;
  /** Pause that followed a surge at once, s; null: none. */
  readonly pauseS: number | null;
  /** Beats at like power by which the heart climbed in the ride, or null; null too without power. */
  readonly driftBeats: number | null;
  /** On how many of how many rises a pattern showed; null where it is none. */
  readonly times: number | null;
  readonly rises: number | null;
}

/** A plain value with its place in a table of the ride against its plan. */
export interface PlanFacts {
  readonly title: string | null;
  readonly rider: string | null;
  readonly setting: "road" | "trainer" | "group";
  readonly targetW: number | null;
  readonly lowW: number | null;
  readonly highW: number | null;
  readonly heartLowBpm: number | null;
  readonly heartHighBpm: number | null;
  readonly eventName: string | null;
  readonly eventS: number | null;
  /** Length of all that counts, s. */
  readonly mainS: number;
  /** Skills to practise. */
  readonly skills: readonly PlanSkill[];
}

interface FilmPhrases {
  readonly titleFallback: string;
  /** Title of a lesson for others. */
  readonly lessonTitle: string;
  readonly planTitle: string;
  planRows(plan: PlanFacts): { label: string; value: string }[];
  readonly changeTitle: string;
  readonly compareTitle: string;
  readonly closingTitle: string;
  /** The caution on the closing card. */
  readonly closingCaution: string;
  chartTitle(has: SensorFacts): string;
  /** Lines under the chart of power and heart rate; at most three. */
  heartLines(heart: HeartFacts, drift: DriftFacts | null): string[];
  /** Captions of pressure that held over a span which is no moment: what went well, and how much of it there was. */
  holdCaption(story: DebriefStory, meanW: number | null): string[];
  /** Points at a moment on a chart. */
  readonly here: string;
  /** At most three, of at most ten words each; the second says why or what it was meant to be. */
  caption(moment: MomentFacts): string[];
  /** For `--why`, to the coach. */
  why(item: WhyFacts): string;
  leftOut(left: LeftOutFacts): string;
}

/** What a ride's file has. */
interface SensorFacts {
  readonly hasPower: boolean;
  readonly hasHeart: boolean;
}

export interface HeartFacts {
  readonly firstBpm: number | null;
  readonly firstAtS: number | null;
  readonly lastBpm: number | null;
  readonly lastAtS: number | null;
  /** Power that the heart answered to over the first and the last reading, W. */
  readonly firstPowerW: number | null;
  readonly lastPowerW: number | null;
  readonly driftBeats: number | null;
  readonly uncertaintyBeats: number | null;
  /** The drift is more than one ride's noise. */
  readonly isShown: boolean;
  readonly correctedForPower: boolean;
  readonly onsetS: number | null;
  readonly onsetLowS: number | null;
  readonly onsetHighS: number | null;
  readonly verdict: "not enough data" | "no drift shown" | "rose from the start" | "start unclear" | "began";
}

export type WhyFacts =
  | { readonly kind: "title" | "plan" | "compare" | "beside" | "beside by coach" | "change" | "closing" | "heart" }
  | { readonly kind: "held"; readonly filmed: boolean }
  | { readonly kind: "taught"; readonly momentKind: string; readonly rank: number; readonly filmed: boolean }
  | { readonly kind: "onset" | "marked"; readonly filmed: boolean }
  | { readonly kind: "picked"; readonly momentKind: string; readonly filmed: boolean };

type LeftOutFacts =
  | {
      readonly kind: "moment";
      readonly momentKind: string;
      readonly startS: number;
      readonly because: "other point" | "same point" | "shots" | "length" | "coach only" | "dropped" | "note";
    }
  | { readonly kind: "clip"; readonly file: string; readonly because: "not placed" | "not sure" }
  | { readonly kind: "over length"; readonly lengthS: number; readonly wishedS: number };

/** Power as the athlete reads it: `230 W`, or a share of the plan in a lesson. */
export type PowerText = (watts: number) => string;

/** What the page compares with the plan; null is "cannot be known". */
export interface PageFacts extends SensorFacts {
  readonly plan: PlanFacts;
  readonly distanceM: number | null;
  readonly elapsedS: number;
  readonly units: UnitSystem;
  readonly facts: DebriefFacts;
}

/** One row of the ride against its plan. */
interface PageRow {
  readonly label: string;
  readonly plan: string;
  readonly ride: string;
}

export interface PagePhrases {
  readonly three: string;
  readonly wentWell: string;
  readonly toChange: string;
  readonly nextRide: string;
  readonly planAndRide: string;
  readonly columns: readonly [string, string, string];
  rows(facts: PageFacts): PageRow[];
  readonly setByCoach: string;
  readonly blocks: string;
  readonly blockColumns: readonly string[];
  /** Cells of one planned block. */
  blockRow(block: BlockFacts): readonly string[];
  /** Axis titles with their units. */
  powerAxis(asPercent: boolean): string;
  readonly heartAxis: string;
  readonly timeAxis: string;
  readonly bandKey: string;
  readonly mainPartKey: string;
  readonly firstKey: string;
  readonly lastKey: string;
  readonly onsetKey: string;
  chartAlt(heart: HeartFacts, facts: PageFacts): string;
  /** Sentences about the heart; rise and drift together. */
  heart(heart: HeartFacts, drift: DriftFacts | null): string[];
  readonly moments: string;
  stillAlt(name: string, startS: number): string;
  /** `about`: the time is known to some minutes only. */
  momentHeading(name: string, startS: number, about: boolean): string;
  momentSentence(caption: readonly string[]): string;
  readonly event: string;
  eventLines(event: NonNullable<DebriefStory["event"]>, story: DebriefStory): string[];
  /** The weeks to the event, one line each. */
  weekLine(week: LadderWeek): string;
  readonly weeksIntro: string;
  readonly eventKeys: { readonly event: string; readonly least: string; readonly aim: string; readonly held: string };
  heldText(lowS: number | null, highS: number | null): string;
  readonly notes: string;
  readonly questions: string;
  /** Asked at the end of a lesson's message. */
  readonly lessonQuestion: string;
  makeQuestions(
    story: DebriefStory,
    moments: readonly MomentFacts[],
    heart: HeartFacts,
    known: { readonly day: boolean },
  ): string[];
  readonly cautionsTitle: string;
  readonly cautions: readonly string[];
  readonly footer: string;
  /** The five lines that go with the film; `lines` are the three of the debrief. */
  message(facts: {
    readonly rider: string | null;
    readonly title: string | null;
    readonly filmLength: string;
    readonly lines: readonly [string, string, string];
    readonly question: string | null;
  }): string[];
}

export interface DebriefPhrases {
  /** BCP 47 tag for `lang`. */
  readonly language: string;
  /** The three lines that open the debrief and close the film. */
  heldLine(story: DebriefStory): string;
  changeLine(story: DebriefStory): string;
  nextLine(story: DebriefStory): string;
  /** This ride beside the last like it; null where there is none or it can't tell. */
  compareLine(story: DebriefStory): string | null;
  momentName(kind: string): string;
  readonly page: PagePhrases;
  readonly film: FilmPhrases;
}
