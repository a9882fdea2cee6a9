/** What keeps a stranger's files from harming the person's own. */
export interface TrustFailures {
  /** `links`: paths from the folder, the first few; `more`: how many beside them. */
  readonly "folder-with-links": {
    readonly folder: string;
    readonly links: readonly string[];
    readonly more: number;
  };
}
