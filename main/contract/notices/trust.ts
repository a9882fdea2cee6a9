/** What keeps a stranger's files from harming the person's own. */
export interface TrustFailures {
  /** `links`: paths from the folder, the first few; `more`: how many beside them. */
  readonly "folder-with-links": {
    readonly folder: string;
    readonly links: readonly string[];
    readonly more: number;
  };
  /** The name of a debrief's folder leads to another one than was opened: swapped, or a drive that went. */
  readonly "folder-replaced": { readonly folder: string };
  readonly "debrief-open-elsewhere": { readonly folder: string; readonly pid: number; readonly host: string };
  /** When it was to be closed; `keptAt`: the copy that was saved in its place, or null. */
  readonly "debrief-not-saved": {
    readonly folder: string;
    readonly keptAt: string | null;
    readonly diskFull: boolean;
  };
}
