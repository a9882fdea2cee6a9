import type { CloseUpKey } from "../../main/contract/framing.ts";
import { itemTimeAt, type ShotSpan } from "./shotTime.ts";

/** A part smaller than this is a blur, whatever the camera. */
const LEAST_SHARE = 0.1;

/** The part of a clip's picture that fills the frame. */
export interface CloseUp {
  /** Its middle, shares of the picture. */
  readonly x: number;
  readonly y: number;
  /** Of what the film would show of the picture without it. */
  readonly share: number;
}

/** A key with its film time since the shot's start, s, and a share that can be shown. */
export function closeUpSteps(shot: ShotSpan, keys: readonly CloseUpKey[]): readonly (CloseUp & { itemS: number })[] {
  return keys.map(({ atMediaS, x, y, share }) => ({
    itemS: itemTimeAt(shot, atMediaS),
    x,
    y,
    share: Math.max(LEAST_SHARE, Math.min(1, share)),
  }));
}

/** The part that is shown at a film time since the shot's start, s: it goes softly from key to key. */
export function closeUpAt(shot: ShotSpan, keys: readonly CloseUpKey[], itemS: number): CloseUp {
  const steps = closeUpSteps(shot, keys);
  const eased = (of: (step: CloseUp) => number): number =>
    steps.slice(1).reduce((sum, to, k) => {
      const from = steps[k]!;
      const gone = Math.max(0, Math.min(1, (itemS - from.itemS) / Math.max(1e-6, to.itemS - from.itemS)));
      return sum + (of(to) - of(from)) * gone ** 2 * (3 - 2 * gone);
    }, of(steps[0]!));
  return { x: eased(({ x }) => x), y: eased(({ y }) => y), share: eased(({ share }) => share) };
}

/** A part of a picture, shares of it. */
export interface PictureBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * What of a clip's picture fills a film's frame, shares of the clip's picture.
 *
 * @param closeUp null: as much as fits, from its middle @param clipAspect width over height of the clip @param filmAspect of the film
 */
export function filledBy(closeUp: CloseUp | null, clipAspect: number, filmAspect: number): PictureBox {
  const { x, y, share } = closeUp ?? { x: 0.5, y: 0.5, share: 1 };
  const width = share * Math.min(1, filmAspect / clipAspect);
  const height = share * Math.min(1, clipAspect / filmAspect);
  const corner = (middle: number, size: number): number => Math.max(0, Math.min(1 - size, middle - size / 2));
  return { x: corner(x, width), y: corner(y, height), width, height };
}
