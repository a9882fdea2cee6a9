import type { Clip, Rational } from "../contract/footage.ts";
import type { CloseUpKey } from "../contract/framing.ts";
import type { Shot } from "../contract/film.ts";
import type { PictureSize } from "../contract/presets.ts";
import { type CloseUp, closeUpSteps } from "../../overlay/instant/closeUpAt.ts";

/**
 * Filters that bring a part of a clip's picture to the film's size, the part moving softly from key to key; in place of
 * those that bring all of it there. They count the film's frames from the piece's first.
 *
 * @param firstFrame of the shot, in output frames, that the piece begins with
 */
export function closeUpFilters(
  clip: Clip,
  shot: Pick<Shot, "mediaStartS" | "mediaEndS" | "speed" | "freezes">,
  keys: readonly CloseUpKey[],
  size: PictureSize,
  rate: Rational,
  firstFrame: number,
): string[] {
  const { widthPx, heightPx } = size;
  const cover = Math.max(widthPx / clip.widthPx, heightPx / clip.heightPx);
  const [wholeW, wholeH] = [clip.widthPx * cover, clip.heightPx * cover];
  const steps = closeUpSteps(shot, keys);
  const frames = steps.map(({ itemS }) => (itemS * rate.num) / rate.den - firstFrame);
  const along = (of: (step: CloseUp) => number): string => eased(frames, steps.map(of));
  const share = along((step) => step.share);
  const scaled = (wholePx: number): string => `2*ceil(${(wholePx / 2).toFixed(3)}/(${share}))`;
  const corner = (middle: (step: CloseUp) => number, wholePx: number, px: number): string =>
    `max(0,min(${scaled(wholePx)}-${px},(${along(middle)})*${scaled(wholePx)}-${px / 2}))`;
  return [
    `scale=w='${scaled(wholeW)}':h='${scaled(wholeH)}':eval=frame`,
    `crop=${widthPx}:${heightPx}:'${corner(({ x }) => x, wholeW, widthPx)}':'${corner(({ y }) => y, wholeH, heightPx)}'`,
  ];
}

/** A value over frames `n` that goes softly from key to key and stands before the first and after the last. */
function eased(frames: readonly number[], values: readonly number[]): string {
  const steps = frames.slice(1).map((to, k) => {
    const from = frames[k]!;
    const at = `clip((n-${from.toFixed(3)})/${Math.max(1e-3, to - from).toFixed(3)},0,1)`;
    return `${(values[k + 1]! - values[k]!).toFixed(6)}*pow(${at},2)*(3-2*${at})`;
  });
  return [values[0]!.toFixed(6), ...steps].join("+").replaceAll("+-", "-");
}
