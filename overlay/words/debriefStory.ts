/**
 * What a debrief has to say about one ride, as plain values: the film, the page and the message all speak from it.
 * Times are ride seconds, lengths are seconds, power is watts; null is "cannot be known".
 */
import type { DebriefFacts, HoldTopic } from "../../main/contract/debriefFacts.ts";
import type { Skill } from "../../main/contract/plan.ts";
import type { TargetDoubt } from "../../main/contract/reading.ts";

/**
 * The one thing a debrief teaches. `nothing`: the ride held all through, or nothing can be judged. `rest`: the rider's
 * note comes before any teaching. `offOverTop`: rises ridden hard, then no pressure over the top. `rises`: rises above the
 * plan. `efforts`: planned efforts that stayed below the plan. `fade`: power lost from the first hour to the last.
 */
export type TeachingPoint =
  | "offOverTop"
  | "rises"
  | "surges"
  | "tooHard"
  | "breaks"
  | "tooEasy"
  | "fade"
  | "cadence"
  | "efforts"
  | "drift"
  | "nothing"
  | "rest";

/** The best true thing of the ride. */
export type Held =
  /** Planned efforts that were ridden as asked. */
  | { readonly kind: "blocks"; readonly done: number; readonly of: number }
  | { readonly kind: "hour"; readonly startS: number; readonly endS: number; readonly percent: number }
  | { readonly kind: "stretch"; readonly startS: number; readonly endS: number }
  | { readonly kind: "share"; readonly percent: number }
  | { readonly kind: "rise"; readonly startS: number; readonly endS: number; readonly meanW: number }
  /** The heart stayed where it was at the same power, for so long at least. */
  | { readonly kind: "level"; readonly forS: number }
  /** Nine tenths of the pedalled time between these. */
  | { readonly kind: "cadence"; readonly lowRpm: number; readonly highRpm: number }
  /** A skill practised as often as asked, or more; or seen though nobody had asked for it. */
  | { readonly kind: "skill"; readonly skill: Skill; readonly done: number; readonly asked: boolean }
  /** Pressure on the pedals for so long at a stretch. */
  | { readonly kind: "unbroken"; readonly forS: number }
  /** Power between these for nine tenths of the time on the pedals. */
  | { readonly kind: "smooth"; readonly lowW: number; readonly highW: number }
  /** Better than the last ride like it, by more than chance. */
  | { readonly kind: "better"; readonly what: "inBand" | "breaks"; readonly before: number; readonly now: number }
  | { readonly kind: "heat"; readonly durationS: number }
  /** The rider said in the note what comes before training. */
  | { readonly kind: "told" }
  /** Riding again after a break of so many days. */
  | { readonly kind: "back"; readonly days: number; readonly durationS: number }
  | { readonly kind: "ridden"; readonly durationS: number };

/** What the next ride is, one step from what was held. Lengths are those of the main part, s. */
export type NextStep =
  /** The rider's note comes before training. */
  | { readonly kind: "rest"; readonly topics: readonly HoldTopic[] }
  /** The coach's own length. */
  | { readonly kind: "coach"; readonly askS: number }
  /** Too short, or with too little in the file, to plan by. */
  | { readonly kind: "too short" }
  /** Nothing was asked, so nothing is asked again. */
  | { readonly kind: "no plan" }
  /** The target looks wrong for this ride: which is right comes first. */
  | { readonly kind: "target"; readonly doubt: TargetDoubt }
  /** Too little of the ride is known to plan by. */
  | { readonly kind: "not known" }
  | { readonly kind: "longer"; readonly askS: number; readonly moreS: number }
  /** Once more; `because`: with the one change; hardly any of it was at the plan; this ride can't tell how long the heart held; or it rose. */
  | { readonly kind: "same"; readonly askS: number; readonly because: "change" | "far" | "can't tell" | "rose" }
  /** The event's rule of thumb is met. */
  | { readonly kind: "enough"; readonly askS: number };

/** One week of the way to the event: the Monday it begins, ms since 1970 (UTC), and the main part asked for, s. */
export interface LadderWeek {
  readonly mondayUtcMs: number;
  readonly askS: number;
}

export interface DebriefStory {
  readonly facts: DebriefFacts;
  /** Where it was ridden: each speaks its own language. */
  readonly setting: "road" | "trainer" | "group";
  readonly hasPower: boolean;
  readonly hasHeart: boolean;
  readonly held: Held;
  readonly teaching: TeachingPoint;
  /** How often it happened; 0 where it is no matter of counting. */
  readonly times: number;
  /** Its seconds in all: pressure gone, above or below the plan. Null where it is no matter of seconds. */
  readonly lostS: number | null;
  /** Its share of the main part, percent, or null. */
  readonly percent: number | null;
  /** Its clearest example: so long above the plan at so many watts, then so long without pressure. Null: none. */
  readonly example: {
    readonly startS: number;
    readonly forS: number;
    readonly meanW: number;
    readonly offS: number | null;
  } | null;
  /** The planned power on the rider's own meter, W, or null. */
  readonly targetW: number | null;
  /** The planned heart rate, where the ride is steered by it. */
  readonly heartBand: { readonly lowBpm: number; readonly highBpm: number } | null;
  /** When the heart began to climb, ride s, or null where the reading does not claim it. */
  readonly onsetS: number | null;
  readonly onsetLowS: number | null;
  readonly onsetHighS: number | null;
  /** Beats at like power that the heart climbed, as the facts have them; null where this ride can't tell. */
  readonly driftBeats: number | null;
  readonly driftGiveOrTake: number | null;
  /** The target looks wrong for this ride, and the coach has not settled the next ride: nothing is judged by it. */
  readonly doubt: TargetDoubt | null;
  readonly next: NextStep;
  /** Drift-free time of this ride, s; null low: this ride can't tell. A null high with a low: at least so long. */
  readonly heldLowS: number | null;
  readonly heldHighS: number | null;
  /** What the event asks for, s; null where there is none, it is over, or rest comes first. */
  readonly event: {
    readonly name: string | null;
    readonly eventS: number;
    readonly leastS: number;
    readonly aimS: number;
    readonly heldLowS: number | null;
    readonly heldHighS: number | null;
    /** The weeks to it, where its day and the ride's are known and something is to be built up; else empty. */
    readonly weeks: readonly LadderWeek[];
  } | null;
  /** The coach's own words in place of the made ones; null: made by the phrase table. */
  readonly words: { readonly held: string | null; readonly change: string | null; readonly next: string | null };
}

/** Kinds of moment that show a fault, or ask for something. */
const TEACHING_MOMENTS = new Set([
  "riseThenOff",
  "breakRun",
  "lapse",
  "surge",
  "driftOnset",
  "cadenceBlock",
  "turn",
  "effortShort",
]);

/** Whether a moment of this kind shows what to change, by its kind alone. */
export function teachesByKind(kind: string): boolean {
  return TEACHING_MOMENTS.has(kind);
}

/**
 * What a moment is told as: where the rider's note comes before training, one that would teach is a moment of the ride
 * and no more, also where the coach has chosen to show it.
 */
export function toldKind({ teaching }: Pick<DebriefStory, "teaching">, kind: string): string {
  return teaching === "rest" && teachesByKind(kind) ? "plainMoment" : kind;
}

/** The story for a lesson: no name of the event, none of the coach's own words, and no watts where `asPercent`. */
export function storyForLesson(story: DebriefStory, asPercent: boolean): DebriefStory {
  return {
    ...story,
    event: story.event === null ? null : { ...story.event, name: null, weeks: [] },
    targetW: asPercent ? null : story.targetW,
    facts: { ...story.facts, hold: null, lastLike: null, again: [], askedLastS: null },
    // A note is the rider's own: a lesson says nothing of it, nor what comes next because of it.
    next: story.next.kind === "rest" ? { kind: "no plan" } : story.next,
    held: ["better", "back", "told"].includes(story.held.kind) ? rode(story) : story.held,
    words: { held: null, change: null, next: null },
  };
}

/** Above the plan and below it by turns: neither harder nor easier is the answer, but more evenly. */
export function swings({ facts: { shares } }: Pick<DebriefStory, "facts">): boolean {
  return shares !== null && 2 * shares.belowPercent >= shares.abovePercent;
}

/** The plan's blocks ask for other power than its one target: then no single figure is what was asked. */
export function byBlocks({ facts, targetW }: Pick<DebriefStory, "facts" | "targetW">): boolean {
  return facts.blocks.some((block) => block.targetW !== null && block.targetW !== targetW);
}

/** Under so many seconds there is nothing to judge. */
export const SHORT_RECORDING_S = 300;

/** A recording of this length is not short: where little of it counts, that is what is said, s. */
const LONG_S = 1200;

/** True where a ride was long, but too little of it counts: long stops, a hole, or nothing but warm-up and cool-down. */
export function littleCounts({ held }: Pick<DebriefStory, "held">): boolean {
  return held.kind === "ridden" && held.durationS >= LONG_S;
}

const rode = ({ facts }: DebriefStory): Held => ({ kind: "ridden", durationS: facts.mainS });
