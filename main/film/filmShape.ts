import type { Clip, Rational } from "../contract/footage.ts";

/** Size and rate of a film. */
export interface FilmShape {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly frameRate: Rational;
}

/** `share` and `archive` keep the picture as filmed; `draft` has 540 lines; `phone` stands upright. */
export type FilmPreset = "draft" | "share" | "phone" | "archive";

const MAX_LINES: Record<FilmPreset, number> = { draft: 540, share: 1080, phone: 1920, archive: Number.POSITIVE_INFINITY };
const HIGHEST_RATE = 60;

const even = (value: number): number => Math.max(2, 2 * Math.round(value / 2));

/** The rate most seconds were filmed at; a variable rate is rounded to a whole one; above 60 it is halved. */
function commonRate(clips: readonly Clip[]): Rational {
  const seconds = new Map<string, { rate: Rational; s: number }>();
  for (const clip of clips) {
    const exact = clip.variableRate
      ? { num: Math.max(1, Math.round(clip.frameRate.num / clip.frameRate.den)), den: 1 }
      : clip.frameRate;
    let rate = exact;
    while (rate.num / rate.den > HIGHEST_RATE) rate = { num: rate.num, den: rate.den * 2 };
    if (rate.num % 2 === 0 && rate.den % 2 === 0) rate = { num: rate.num / 2, den: rate.den / 2 };
    const key = `${rate.num}/${rate.den}`;
    const before = seconds.get(key)?.s ?? 0;
    seconds.set(key, { rate, s: before + clip.durationS });
  }
  return [...seconds.values()].reduce((best, next) => (next.s > best.s ? next : best)).rate;
}

/**
 * Size and rate of a film made of these clips. The size is that of the clip with most lines, scaled down to the
 * preset's lines (the short side of an upright picture counts as lines for `draft` and `share`); both numbers are
 * even, as 4:2:0 video needs. Without clips: 1280x720 at 30 (upright 1080x1920 for `phone`).
 */
export function filmShape(clips: readonly Clip[], preset: FilmPreset): FilmShape {
  const frameRate = clips.length === 0 ? { num: 30, den: 1 } : commonRate(clips);
  if (preset === "phone") return { widthPx: 1080, heightPx: 1920, frameRate };
  if (clips.length === 0) {
    const heightPx = Math.min(720, MAX_LINES[preset]);
    return { widthPx: even((heightPx * 16) / 9), heightPx, frameRate };
  }
  const largest = clips.reduce((best, clip) => (clip.widthPx * clip.heightPx > best.widthPx * best.heightPx ? clip : best));
  const lines = Math.min(largest.widthPx, largest.heightPx);
  const scale = Math.min(1, MAX_LINES[preset] / lines);
  return { widthPx: even(largest.widthPx * scale), heightPx: even(largest.heightPx * scale), frameRate };
}
