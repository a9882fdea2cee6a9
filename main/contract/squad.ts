/** A ride of a batch as the squad's page shows it, so that a coach can read many in minutes. */
import type { Language } from "./languageAndUnits.ts";
import type { FailureNotice } from "./notice.ts";

/** One of n equal parts of a batch: every `of`-th ride, beginning with the `part`-th (from 1). */
export interface BatchShare {
  readonly part: number;
  readonly of: number;
}

/** What a person should look at before a debrief goes out. */
export type SquadLook =
  /** The rider's note speaks of illness, injury, medicine or the like. */
  | { readonly what: "note" }
  /** A heart reading that looks odd. */
  | { readonly what: "heart"; readonly startS: number }
  /** Clips whose place in the ride is not sure: they are left out. */
  | { readonly what: "clips"; readonly fileNames: readonly string[] }
  /** Things the coach said that have no sure place any more. */
  | { readonly what: "asked"; readonly count: number }
  /** Nothing was asked for: no power and no heart rate to judge by. */
  | { readonly what: "no target" }
  /** The target looks wrong for the ride. */
  | { readonly what: "target" }
  /** So short that it is hardly the whole ride. */
  | { readonly what: "short"; readonly elapsedS: number };

/** A picture that stands for itself: no address outside the page. */
export interface SquadPicture {
  readonly type: "image/svg+xml" | "image/jpeg" | "image/png";
  readonly base64: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly alt: string;
}

/** What is told of one ride. Words are the athlete's, in the athlete's language. */
export interface SquadTold {
  /** Of the document it was told from: another one is told anew. */
  readonly revision: number;
  readonly language: Language;
  readonly rider: string | null;
  readonly title: string | null;
  readonly dateText: string | null;
  readonly elapsedS: number;
  /** What went well, what to change, the next ride. */
  readonly lines: readonly [string, string, string];
  readonly looks: readonly SquadLook[];
  readonly message: string;
  /** The ride, and the moment to see first. */
  readonly pictures: readonly SquadPicture[];
}

/** What a batch keeps beside a ride's debrief: what is told of it, or why it could not be prepared. */
export type SquadKept =
  { readonly told: SquadTold; readonly failure: null } | { readonly told: null; readonly failure: FailureNotice };

/** One ride of the squad's page. Paths are from the batch's folder, with `/`. */
export interface SquadRow {
  readonly ride: string;
  readonly folder: string;
  /** Null: nobody has got to it yet. */
  readonly kept: SquadKept | null;
  /** A person has opened the debrief. */
  readonly seen: boolean;
  /** Whether film.mp4 and coach.html lie in its folder. */
  readonly hasFilm: boolean;
}
