interface OfFile {
  readonly fileName: string;
}

export interface FootageFailures {
  /** `path`: of a missing one the whole path that was looked for. */
  readonly "clip-file-unreadable": {
    readonly path: string;
    readonly why: "missing" | "folder" | "no file" | "not opened";
  };
  readonly "clip-empty": OfFile;
  readonly "clip-no-mp4": OfFile;
  /** A PNG or JPEG, whatever it is called. */
  readonly "clip-is-picture": OfFile;
  readonly "clip-without-index": OfFile;
  readonly "clip-index-damaged": OfFile;
  readonly "clip-in-fragments": OfFile;
  readonly "clip-without-picture": OfFile;
  readonly "clip-without-frames": OfFile;
  readonly "clip-unknown-coding": OfFile;
  /** `said`: the last that ffprobe said, in its own words; empty where it said nothing. */
  readonly "clip-no-video": OfFile & { readonly said: string };
  readonly "clip-probe-silent": OfFile;
  readonly "clip-reading-silent": OfFile & { readonly what: "picture" | "sound" };
  readonly "comment-unplayable": { readonly path: string };
  /** `program`: as it was called. */
  readonly "tool-not-started": { readonly tool: "ffmpeg" | "ffprobe"; readonly program: string };
}

export interface FootageNotes {
  readonly "clip-cut-off": OfFile & { readonly seconds: number };
  readonly "clip-times-differ": OfFile;
}
