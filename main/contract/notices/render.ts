import type { NoFacts } from "./noFacts.ts";

/** What ffmpeg was working on. */
export type FfmpegSubject =
  | { readonly kind: "files"; readonly names: readonly string[] }
  | { readonly kind: "card" }
  | { readonly kind: "encoder test" };

interface Frames {
  readonly frames: number;
  readonly of: number;
}

export interface RenderFailures {
  readonly "encoder-none": { readonly ffmpeg: string };
  readonly "ffmpeg-no-answer": { readonly ffmpeg: string };
  readonly "ffmpeg-hung": { readonly subject: FfmpegSubject };
  readonly "ffmpeg-disk-full": { readonly subject: FfmpegSubject };
  readonly "ffmpeg-forbidden": { readonly subject: FfmpegSubject };
  /** `said`: its last line, in its own words; null where it said nothing. */
  readonly "ffmpeg-failed": {
    readonly subject: FfmpegSubject;
    readonly said: string | null;
    readonly exitCode: number | null;
  };
  readonly "frames-missing": Frames & { readonly subject: FfmpegSubject };
  readonly "frames-not-joined": Frames & { readonly fileName: string };
  readonly "small-picture-frames-missing": Frames & { readonly fileName: string; readonly fromFrame: number };
  readonly "loudness-unmeasured": { readonly fileName: string };
  readonly "film-does-not-fit": { readonly durationS: number; readonly sizeMb: number; readonly leastMb: number };
  readonly "film-empty": NoFacts;
  readonly "shot-without-clip": { readonly clipId: string };
  readonly "clip-moved": { readonly fileName: string; readonly path: string };
  readonly "clip-hdr-unconvertible": { readonly fileName: string; readonly filters: readonly string[] };
  readonly "overlay-without-clips": NoFacts;
  /** `said`: in the program's own words; empty where it said nothing. */
  readonly "panels-unpainted": { readonly said: string };
  readonly "render-broke-off": { readonly said: string };
  readonly "output-folder-unusable": { readonly folder: string };
  readonly "output-file-forbidden": { readonly path: string };
  /** `path`: null where the system did not name it. */
  readonly "output-forbidden": { readonly path: string | null };
  readonly "disk-too-full": { readonly folder: string; readonly freeBytes: number; readonly neededBytes: number };
  readonly "disk-full": { readonly path: string | null };
}

export interface RenderNotes {
  readonly "encoder-not-working": { readonly encoder: string };
  readonly "encoder-replaced": NoFacts;
  /** How much of the film an earlier render had finished, s. */
  readonly "parts-kept": { readonly keptS: number; readonly ofS: number };
}
