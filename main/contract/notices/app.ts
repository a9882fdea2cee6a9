import type { NoFacts } from "./noFacts.ts";

/** Why no window came up. */
export type NoWindow =
  | { readonly kind: "nothing connected" }
  /** `said`: in the program's own words. */
  | { readonly kind: "not started"; readonly said: string }
  | { readonly kind: "ended with code"; readonly exitCode: number | null }
  /** Likewise, in a session that has no screen to show a window on. */
  | { readonly kind: "no screen"; readonly exitCode: number | null };

export interface AppFailures {
  readonly "desk-without-ride": NoFacts;
  readonly "desk-without-debrief": NoFacts;
  readonly "desk-no-such-ride": NoFacts;
  readonly "desk-no-such-clip": NoFacts;
  readonly "desk-no-such-moment": NoFacts;
  readonly "desk-no-such-part": NoFacts;
  readonly "desk-no-such-question": NoFacts;
  readonly "desk-moved-on": NoFacts;
  readonly "desk-file-not-listed": NoFacts;
  readonly "comment-no-sound": NoFacts;
  readonly "debrief-odd-media-names": { readonly folder: string };
  readonly "debrief-not-trusted": { readonly folder: string; readonly paths: readonly string[] };
  readonly "media-still-missing": { readonly place: string };
  readonly "athlete-gone": { readonly folder: string };
  readonly "athlete-list-not-shown": NoFacts;
  readonly "athlete-files-kept": { readonly count: number; readonly name: string; readonly first: string };
  readonly "athlete-none-there": { readonly folder: string };
  readonly "hand-over-batch-unseen": NoFacts;
  readonly "hand-over-consent-unsaid": NoFacts;
  readonly "hand-over-unsure": NoFacts;
  readonly "ride-reading-broke-off": { readonly said: string };
  readonly "folder-out-of-bounds": { readonly name: string };
  readonly "folder-unreadable": { readonly folder: string };
  readonly "drops-unseen": NoFacts;
  readonly "drop-lost": NoFacts;
  readonly "call-unknown-form": { readonly call: string };
  readonly "shell-unknown": { readonly forced: string };
  readonly "shell-electron-missing": NoFacts;
  readonly "shell-none": NoFacts;
  readonly "window-not-shown": { readonly program: string; readonly why: NoWindow };
  /** The page that leads to the window would lie where others may read. */
  readonly "window-page-not-own": { readonly folder: string };
  readonly "electron-not-shown": { readonly why: NoWindow };
  readonly "folder-gone": { readonly path: string };
  readonly "file-manager-none": { readonly path: string };
  /** `said`: the error's own words. */
  readonly internal: { readonly said: string };
}

export interface AppNotes {
  /** Somebody came with the window's one-time address after it was used. */
  readonly "window-claimed-twice": NoFacts;
  readonly "backup-opened": NoFacts;
  readonly "debrief-there-already": { readonly wished: string; readonly folder: string };
}
