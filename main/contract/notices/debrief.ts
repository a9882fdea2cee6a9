import type { FormFault } from "../formFault.ts";

/** Why `debrief.json` cannot be used. */
export type DebriefFault = FormFault | { readonly kind: "no schema" };

/** Why an edit from the window is refused. `part`: as the window named it. */
export type EditFault =
  FormFault | { readonly kind: "no such part"; readonly part: string } | { readonly kind: "comment outside" };

export interface DebriefFailures {
  readonly "athlete-unusable": { readonly fileName: string; readonly fault: FormFault };
  /** `name`: null where there is no athlete's file at all. */
  readonly "lesson-without-consent": { readonly name: string | null };
  readonly "athlete-folder-without-file": { readonly folder: string };
  readonly "athlete-name-differs": { readonly typed: string; readonly name: string };
  readonly "athlete-files-changed": { readonly folder: string };
  readonly "athlete-file-unreadable": { readonly path: string };
  readonly "path-outside-debrief": { readonly path: string };
  readonly "debrief-unreadable": { readonly path: string };
  readonly "debrief-unusable": { readonly fileName: string; readonly fault: DebriefFault };
  /** What was to be saved could not be opened again. */
  readonly "debrief-not-savable": { readonly fileName: string; readonly fault: DebriefFault };
  readonly "debrief-newer": { readonly fileName: string; readonly schema: number };
  readonly "debrief-newer-kept": { readonly fileName: string };
  readonly "debrief-changed-elsewhere": { readonly path: string };
  readonly "backup-not-written": { readonly fileName: string; readonly folder: string };
  readonly "debriefs-folder-unreadable": { readonly folder: string };
  readonly "debriefs-folder-empty": { readonly folder: string };
  /** A debrief's own folder where one is wanted that holds debriefs; `parent`: the folder that it lies in. */
  readonly "debrief-not-folder-of": { readonly name: string; readonly parent: string };
  readonly "edit-refused": { readonly fault: EditFault };
  readonly "debrief-read-only": { readonly reason: ReadOnlyReason };
}

/** Why a debrief may only be looked at. */
export type ReadOnlyReason =
  | { readonly kind: "newer version"; readonly fileName: string }
  | { readonly kind: "folder not writable" }
  | { readonly kind: "open elsewhere"; readonly pid: number; readonly host: string };
