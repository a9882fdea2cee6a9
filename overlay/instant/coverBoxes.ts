import type { CoverKey } from "../../main/contract/framing.ts";

/** A box over a span of the clip: where it is at both ends, and the one size that covers both. Pixels of the clip's picture. */
interface CoverLeg {
  /** Clip time, s; infinite where it has no end. */
  readonly fromS: number;
  readonly toS: number;
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
  readonly width: number;
  readonly height: number;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Grown by so much on each side, px: encoders smear, and boxes stand on even pixels. */
const MARGIN_PX = 4;
/** Before the first key and after the last one, frames. */
const SPARE_FRAMES = 1.5;
/** What is hidden keeps so many patches of colour along its longer side, too few to read a plate or a face by. */
const PATCHES = 6;

/** How many patches of colour a blurred box keeps, across and down. */
export function coverPatches({ width, height }: Size): { readonly across: number; readonly down: number } {
  const longer = Math.max(width, height);
  const cells = (px: number): number => Math.max(2, even((PATCHES * px) / longer));
  return { across: cells(width), down: cells(height) };
}

/**
 * From key to key; both ends are covered a frame longer. One key alone holds for the whole shot.
 *
 * @param frameS length of the clip's frames, s @param size of its picture, px
 */
export function coverLegs(keys: readonly CoverKey[], frameS: number, size: Size): CoverLeg[] {
  const spareS = SPARE_FRAMES * frameS;
  const [first, last] = [keys[0], keys.at(-1)];
  if (first === undefined || last === undefined) return [];
  if (keys.length === 1) return [{ ...leg(first, first, 0, size), fromS: -Infinity, toS: Infinity }];
  return keys.slice(1).map((to, k) => {
    const from = keys[k]!;
    const made = leg(from, to, frameS, size);
    // Neighbours overlap by the spare frames: where one ends the next has begun.
    return { ...made, fromS: from.atMediaS - spareS, toS: to.atMediaS + spareS };
  });
}

/** The boxes that are hidden at a clip time, px; where two legs overlap, both. */
export function coverBoxesAt(
  legs: readonly CoverLeg[],
  mediaS: number,
): readonly { readonly x: number; readonly y: number; readonly width: number; readonly height: number }[] {
  return legs
    .filter(({ fromS, toS }) => mediaS >= fromS && mediaS <= toS)
    .map(({ fromS, toS, from, to, width, height }) => {
      const gone = Number.isFinite(toS - fromS) ? (mediaS - fromS) / Math.max(1e-6, toS - fromS) : 0;
      return { x: from.x + (to.x - from.x) * gone, y: from.y + (to.y - from.y) * gone, width, height };
    });
}

/** The box by its keys alone at a clip time, shares of the picture: what a hand takes hold of. Before the first and after the last it stands. */
export function coverKeyAt(keys: readonly CoverKey[], mediaS: number): CoverKey {
  const next = keys.findIndex(({ atMediaS }) => atMediaS >= mediaS);
  const to = keys[next] ?? keys.at(-1)!;
  if (next <= 0) return { ...to, atMediaS: mediaS };
  const from = keys[next - 1]!;
  const gone = (mediaS - from.atMediaS) / (to.atMediaS - from.atMediaS);
  const between = (one: number, other: number): number => one + (other - one) * gone;
  return {
    atMediaS: mediaS,
    x: between(from.x, to.x),
    y: between(from.y, to.y),
    width: between(from.width, to.width),
    height: between(from.height, to.height),
  };
}

function leg(from: CoverKey, to: CoverKey, frameS: number, size: Size): CoverLeg {
  const lastsS = Math.max(1e-6, frameS, to.atMediaS - from.atMediaS);
  const middle = (key: CoverKey) => ({ x: key.x + key.width / 2, y: key.y + key.height / 2 });
  const [a, b] = [middle(from), middle(to)];
  // What it moves in the spare frames at either end, so that it is never behind what it covers.
  const moved = (one: number, other: number): number =>
    (Math.abs(other - one) * 2 * (2 * SPARE_FRAMES * frameS)) / lastsS;
  const width = grown(Math.max(from.width, to.width) + moved(a.x, b.x), size.width);
  const height = grown(Math.max(from.height, to.height) + moved(a.y, b.y), size.height);
  const corner = ({ x, y }: { x: number; y: number }) => ({
    x: within(x * size.width - width / 2, size.width - width),
    y: within(y * size.height - height / 2, size.height - height),
  });
  return { fromS: from.atMediaS, toS: to.atMediaS, from: corner(a), to: corner(b), width, height };
}

function grown(share: number, ofPx: number): number {
  return Math.max(4, Math.min(ofPx, even(share * ofPx) + 2 * MARGIN_PX));
}

function within(px: number, mostPx: number): number {
  return Math.max(0, Math.min(2 * Math.floor(mostPx / 2), 2 * Math.floor(px / 2)));
}

function even(px: number): number {
  return 2 * Math.ceil(px / 2 - 1e-9);
}
