import type { Clip, Rational } from "../contract/footage.ts";
import { filmSizeFor, PRESETS, type PictureSize, type PresetName, type ShapeName } from "../contract/presets.ts";

/** Size and rate of a film. */
export interface FilmShape extends PictureSize {
  readonly frameRate: Rational;
}

const HIGHEST_RATE = 60;

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
 * Size and rate of a film made of these clips: the preset's size for the clip with most pixels (`filmSizeFor`).
 * Without clips: 30 frames a second.
 *
 * @param shape null: the preset's own
 */
export function filmShape(clips: readonly Clip[], preset: PresetName, shape: ShapeName | null = null): FilmShape {
  const frameRate = clips.length === 0 ? { num: 30, den: 1 } : commonRate(clips);
  const largest = clips.reduce<Clip | null>(
    (best, clip) => (best !== null && clip.widthPx * clip.heightPx <= best.widthPx * best.heightPx ? best : clip),
    null,
  );
  return { ...filmSizeFor(PRESETS[preset], largest, shape), frameRate };
}
