/**
 * What a debrief has to say about one ride, as plain values: the film, the page and the message all speak from it.
 * Times are ride seconds, lengths are seconds, power is watts; null is "cannot be known".
 */

/** The one thing a debrief teaches. `nothing`: the ride held all through, or nothing can be judged. */
export type TeachingPoint = "coastOver" | "breaks" | "surges" | "tooHard" | "tooEasy" | "cadence" | "drift" | "nothing";

export interface DebriefStory {
  /** What held: the longest steady stretch, else the share of the main part at the planned power, else that it was ridden. */
  readonly held:
    | { readonly kind: "stretch"; readonly startS: number; readonly endS: number }
    | { readonly kind: "share"; readonly percent: number }
    | { readonly kind: "ridden"; readonly durationS: number };
  readonly teaching: TeachingPoint;
  /** How often it happened; 0 where it is no matter of counting. */
  readonly times: number;
  /** Its seconds in all: pressure gone, above or below the plan. Null where it is no matter of seconds. */
  readonly lostS: number | null;
  /** Its share of the main part, percent, or null. */
  readonly percent: number | null;
  /** The planned power on the rider's own meter, W, or null. */
  readonly targetW: number | null;
  /** Highest power of the surges, W, or null. */
  readonly peakW: number | null;
  /** When the heart began to climb, ride s, or null where the reading does not claim it. */
  readonly onsetS: number | null;
  readonly onsetLowS: number | null;
  readonly onsetHighS: number | null;
  /** Beats at like power that the heart climbed, or null; null too without power. */
  readonly driftBeats: number | null;
  /** What the event asks for and what this ride showed, s; null where not known. */
  readonly event: {
    readonly name: string | null;
    readonly eventS: number;
    readonly leastS: number;
    readonly aimS: number;
    readonly heldLowS: number | null;
    readonly heldHighS: number | null;
  } | null;
  /** The coach's own words in place of the made ones; null: made by the phrase table. */
  readonly words: { readonly held: string | null; readonly change: string | null; readonly next: string | null };
}

/** The story for a lesson: no name of the event, none of the coach's own words, and no watts where `asPercent`. */
export function storyForLesson(story: DebriefStory, asPercent: boolean): DebriefStory {
  return {
    ...story,
    event: story.event === null ? null : { ...story.event, name: null },
    targetW: asPercent ? null : story.targetW,
    words: { held: null, change: null, next: null },
  };
}
