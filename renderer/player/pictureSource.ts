import type { ClipView } from "../../main/contract/debriefApi.ts";

/** A file that shows a span of a clip. Its own time 0 is `startS` of the clip. */
export interface PictureSource {
  readonly address: string;
  readonly startS: number;
  readonly endS: number;
}

const ROUNDING_S = 1e-6;

/** What shows a clip time best: a proxy that holds it, else the clip as a whole, else nothing. */
export function pictureSource(clip: ClipView, mediaS: number): PictureSource | null {
  let best: PictureSource | null = null;
  for (const span of clip.proxySpans) {
    if (span.startS > mediaS + ROUNDING_S || mediaS >= span.endS - ROUNDING_S) continue;
    if (best === null || span.endS > best.endS) best = span;
  }
  return best ?? (clip.address === null ? null : { address: clip.address, startS: 0, endS: clip.durationS });
}
