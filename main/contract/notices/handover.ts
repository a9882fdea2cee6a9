import type { NoFacts } from "./noFacts.ts";

/** Why a page was not printed. */
export type NoPdf =
  | { readonly kind: "no browser" }
  | { readonly kind: "not started"; readonly said: string }
  /** `signal`: what ended it; null where it ended by itself with `exitCode`. */
  | { readonly kind: "ended"; readonly signal: string | null; readonly exitCode: number | null }
  | { readonly kind: "nothing written" };

export interface HandOverFailures {
  readonly "folder-not-made": { readonly folder: string };
  readonly "file-not-written": { readonly path: string; readonly error: string };
  readonly "file-no-room": { readonly path: string };
  readonly "demo-not-written": { readonly folder: string };
  readonly "demo-clip-not-drawn": { readonly fileName: string; readonly said: string };
  readonly "installation-incomplete": { readonly path: string };
}

/** What a lesson leaves out, and what was not made. */
export interface HandOverNotes {
  readonly "pdf-not-made": { readonly why: NoPdf };
  /** The film is more than a page can hold. */
  readonly "playing-page-too-large": { readonly bytes: number; readonly limitBytes: number };
  readonly "lesson-without-caption": { readonly text: string };
  readonly "lesson-without-drawing": NoFacts;
  readonly "lesson-without-card": { readonly title: string };
}
