import type { Notice } from "../notice.ts";
import type { NoFacts } from "./noFacts.ts";
import type { AskedChoice } from "../debrief.ts";

export interface JourneyNotes {
  /** A notice about one ride of many. */
  readonly "of-ride": { readonly ridePath: string; readonly of: Notice };
  readonly "athlete-file-elsewhere": { readonly path: string };
  /** `letters`: the first few that the film's face lacks. */
  readonly "film-letters-missing": { readonly letters: readonly string[] };
  /** A thing that a coach set and that has no sure place. `timesS`: ride time of those it may be. */
  readonly "asked-open": { readonly asked: AskedChoice; readonly timesS: readonly number[] };
  readonly "lesson-without-target": NoFacts;
  readonly "lesson-carries-speech": NoFacts;
  readonly "lesson-shows-surroundings": NoFacts;
}

export interface JourneyFailures {
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
  /** `nearestS`: where the nearest break begins; null: the ride has none. */
  readonly "no-break-there": { readonly atS: number; readonly nearestS: number | null };
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
