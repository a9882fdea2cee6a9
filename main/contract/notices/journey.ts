import type { Notice } from "../notice.ts";
import type { HoldTopic } from "../debriefFacts.ts";
import type { Span } from "../ride.ts";
import type { NoSharedRoad } from "../roads.ts";
import type { NoFacts } from "./noFacts.ts";
import type { AskedChoice } from "../debrief.ts";

/** The two rides of a comparison, by their files. */
interface TwoRides {
  readonly rideName: string;
  readonly otherName: string;
}

export interface JourneyNotes {
  /** Clips lie in the ride, and none is in the film; ride time of what they show. */
  readonly "film-without-footage": {
    readonly clips: readonly { readonly fileName: string; readonly fromS: number; readonly toS: number }[];
  };
  /** A debrief stood in the folder, and what a person decided there is kept. */
  readonly "earlier-run-kept": {
    readonly folder: string;
    readonly anchors: number;
    readonly overrides: number;
    readonly ownLines: number;
    readonly ownFilm: boolean;
  };
  /** `pass`: which of them is compared, by the other ride's time, from 1. */
  readonly "road-ridden-often": TwoRides & { readonly passes: number; readonly pass: number };
  readonly "compared-with-itself": TwoRides;
  /** A side that is a card for a while, since no clip shows it there; ride time. */
  readonly "pair-side-unfilmed": { readonly rideName: string; readonly fromS: number; readonly toS: number };
  /** The clip shows nothing of the stretch, or lies in neither ride. */
  readonly "clip-beside-stretch": { readonly fileName: string };
  /** Debriefs from before roads were looked for, whose ride is not there any more to be compared. */
  readonly "roads-not-compared": { readonly debriefs: readonly string[] };
  /** Debriefs of one and the same ride; `counted`: the one that stands for it. */
  readonly "debriefs-of-one-ride": { readonly debriefs: readonly string[]; readonly counted: string };
  /** A notice about one ride of many. */
  readonly "of-ride": { readonly ridePath: string; readonly of: Notice };
  readonly "athlete-file-elsewhere": { readonly path: string };
  /** `letters`: the first few that the film's face lacks. */
  readonly "film-letters-missing": { readonly letters: readonly string[] };
  /** A thing that a coach set and that has no sure place. `timesS`: ride time of those it may be. */
  readonly "asked-open": { readonly asked: AskedChoice; readonly timesS: readonly number[] };
  /**
   * The coach's film shows what to change, or the coach's own lines say it, though the rider's note comes before training.
   * `timesS`: ride time of those parts that show some; `parts`: how many there are in all.
   */
  readonly "film-teaches-though-note": {
    readonly topics: readonly HoldTopic[];
    readonly parts: number;
    readonly timesS: readonly number[];
    readonly ownLines: readonly ("change" | "next")[];
  };
  readonly "lesson-without-target": NoFacts;
  readonly "lesson-carries-speech": NoFacts;
  readonly "lesson-shows-surroundings": NoFacts;
}

export interface JourneyFailures {
  readonly "compare-ride-count": { readonly count: number };
  readonly "roads-not-shared": TwoRides & { readonly why: NoSharedRoad };
  /** `shared`: what both rode in one go, ride time of the first, the longest first. */
  readonly "stretch-not-shared": TwoRides & {
    readonly fromS: number;
    readonly toS: number;
    readonly shared: readonly { readonly startS: number; readonly endS: number }[];
  };
  readonly "stretch-backwards": { readonly fromS: number; readonly toS: number };
  readonly "stretch-too-long": { readonly lengthS: number; readonly mostS: number };
  readonly "pass-unknown": TwoRides & { readonly pass: number; readonly passes: number };
  readonly "plan-file-unreadable": { readonly path: string };
  readonly "plan-file-no-json": { readonly path: string; readonly said: string };
  readonly "still-outside-film": { readonly atS: number; readonly lengthS: number };
  readonly "debrief-media-missing": { readonly path: string; readonly folder: string };
  readonly "debrief-without-ride": { readonly folder: string };
  readonly "debrief-athlete-missing": { readonly path: string; readonly folder: string };
  readonly "rides-folder-unreadable": { readonly folder: string };
  readonly "rides-folder-empty": { readonly folder: string };
  /** An error that nobody foresaw, while many rides were worked on. */
  readonly "ride-failed-inside": { readonly ridePath: string };
  /** `nearest`: the nearest break; null: the ride has none. */
  readonly "no-break-there": { readonly atS: number; readonly nearest: Span | null };
  readonly "no-ride-given": NoFacts;
  readonly "shown-ride-unknown": { readonly name: string; readonly rides: readonly string[] };
  readonly "evidence-not-written": { readonly path: string };
  readonly "plan-sheet-there": { readonly path: string };
  readonly "clips-outside-ride": NoFacts;
  readonly "tool-not-found": {
    readonly tool: "ffmpeg" | "ffprobe";
    readonly system: "macOS" | "Windows" | "Linux";
  };
}
