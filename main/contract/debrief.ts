/**
 * The debrief as a document: everything a person decided about one ride, and the film as it stands. It is what
 * `debrief.json` holds and what the window edits, part by part.
 */
import type { Film, MomentKey } from "./film.ts";
import type { FilmLook } from "./filmLook.ts";
import type { Language } from "./languageAndUnits.ts";
import type { Anchor } from "./lineup.ts";
import type { Plan } from "./plan.ts";
import type { ForWhom, PresetName, SlowSound } from "./presets.ts";
import type { BreakOverride, Moment, Override } from "./reading.ts";
import type { RideFigures } from "./rideFigures.ts";

/** A file the debrief needs: found again by its path from the debrief's folder, else by size and fingerprint. */
export interface MediaRef {
  /** Clip ids are those of anchors and shots. */
  readonly id: string;
  readonly kind: "ride" | "clip";
  /** From the debrief's folder, with `/` on every system; absolute only where there is no relative path. */
  readonly path: string;
  readonly bytes: number;
  readonly fingerprint: string;
}

/** What the coach said about one moment of the reading, known again by its kind and span as they then were. */
export interface MomentChoice {
  readonly kind: string;
  readonly startS: number;
  /** Null: only the start is known. */
  readonly endS: number | null;
  /** True: in the film and on the page. False: dropped. Null: the story decides. */
  readonly keep: boolean | null;
  /** The coach's own span, or null. */
  readonly span: { readonly startS: number; readonly endS: number } | null;
  readonly name: string | null;
  readonly note: string | null;
}

/** The lines and questions a coach wrote in place of the made ones; null: made by the phrase table. */
export interface CoachWords {
  readonly held: string | null;
  readonly change: string | null;
  readonly next: string | null;
  /** The coach's own length of the next ride's main part, s; null: made from what was held. */
  readonly nextS: number | null;
  readonly notes: string | null;
  /** At most three; null: made. */
  readonly questions: readonly string[] | null;
}

export interface FilmSettings {
  readonly lengthS: number;
  readonly preset: PresetName;
  readonly language: Language;
  readonly forWhom: ForWhom;
  /** In a lesson: watts as percent of the plan. */
  readonly asPercent: boolean;
  readonly acceptUnsure: boolean;
  /** Also the page in which the film plays. Missing: no. */
  readonly playingPage?: boolean;
  /** Sound of slowed shots. Missing: stretched. */
  readonly slowSound?: SlowSound;
  /** What differs from the plain look. Missing: nothing. */
  readonly look?: Partial<FilmLook>;
}

/** Everything a person decided about one ride, and the film as it stands. Times are ride seconds unless named otherwise. */
export interface DebriefDocument {
  readonly schema: 2;
  /** Grows by one with each save. */
  readonly revision: number;
  readonly media: readonly MediaRef[];
  /** Id of the ride whose numbers are shown. */
  readonly shownRideId: string;
  readonly plan: Plan;
  readonly overrides: readonly Override[];
  readonly anchors: readonly Anchor[];
  readonly deviceDelayS: number;
  readonly choices: readonly MomentChoice[];
  /** Moments of the coach's own kinds. */
  readonly ownMoments: readonly Moment[];
  readonly words: CoachWords;
  readonly settings: FilmSettings;
  /** Null: not chosen yet. */
  readonly film: Film | null;
  /** `computed`: picked by the program, and picked anew when choices, readings or line-up change. `coach`: kept as it is. */
  readonly filmSetBy: "computed" | "coach";
  /** Mark of the film as the program last wrote it: a film changed in the file since then is a coach's. Null: none. */
  readonly filmMark: string | null;
  /** What the weeks compare, as last read; null: not read yet. */
  readonly figures: RideFigures | null;
  /** Folder of the athlete's file from the debrief's folder, with `/`; null: no athlete. */
  readonly athletePath: string | null;
  /** True: prepared by a batch; nothing is handed over before a person has opened it. */
  readonly prepared: boolean;
}

/**
 * What a coach said or set that no longer surely belongs to one moment (of an override: to one break) of the ride as it
 * is read now. It stays in the document and holds for nothing until the coach says which it is or lets it go. `among`:
 * indices of moments (breaks) it may be, likeliest first.
 */
export type AskedChoice =
  | { readonly what: "choice"; readonly choice: MomentChoice; readonly among: readonly number[] }
  | { readonly what: "break"; readonly override: BreakOverride; readonly among: readonly number[] }
  | {
      readonly what: "part";
      /** Of the film. */
      readonly itemId: string;
      readonly key: MomentKey;
      readonly among: readonly number[];
    };

/** The parts of a document that a person edits. */
export type EditablePart = Exclude<keyof DebriefDocument, "schema" | "revision">;

/** Replaces one part of the document. `label` says in words what the edit was, for the undo entry. */
export type Edit = {
  readonly [Part in EditablePart]: {
    readonly part: Part;
    readonly value: DebriefDocument[Part];
    readonly label: string;
  };
}[EditablePart];
