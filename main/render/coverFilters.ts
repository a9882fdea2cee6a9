import type { Clip } from "../contract/footage.ts";
import type { Cover, CoverKey } from "../contract/framing.ts";

/** A box over a span of the clip: where it is at both ends, and the one size that covers both. */
interface Leg {
  readonly fromS: number;
  readonly toS: number;
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
  readonly width: number;
  readonly height: number;
}

/** Grown by so much on each side, px: encoders smear, and boxes stand on even pixels. */
const MARGIN_PX = 4;
/** What is hidden keeps so many patches of colour along its longer side, too few to read a plate or a face by. */
const PATCHES = 6;
/** Before the first key and after the last one, frames. */
const SPARE_FRAMES = 1.5;

/**
 * Filters that hide boxes of a clip's picture, frame by frame as the clip runs and before anything else is done to it,
 * so that no speed, freeze, still or shape uncovers them.
 *
 * @param from label of the picture as read @param startS clip time at which the reader's own time is 0
 * @returns chains, and the label of the covered picture
 */
export function coverChains(
  clip: Clip,
  covers: readonly Cover[],
  from: string,
  startS: number,
): { readonly chains: readonly string[]; readonly label: string } {
  const { ticks, timescale } = clip.frames;
  const frameS = longestStep(ticks) / timescale;
  // As ffmpeg hands the picture on: turned upright, its pixels as they were coded.
  const turned = clip.rotationDeg % 180 !== 0;
  const size = {
    width: turned ? clip.codedHeightPx : clip.codedWidthPx,
    height: turned ? clip.codedWidthPx : clip.codedHeightPx,
  };
  const chains: string[] = [];
  let label = from;
  covers.forEach(({ kind, keys }, c) =>
    legsOf(keys, frameS, size).forEach((leg, k) => {
      const name = `${from.replace(/\W/g, "")}c${c}k${k}`;
      const share = `clip((t+${startS.toFixed(6)}-${leg.fromS.toFixed(6)})/${Math.max(1e-6, leg.toS - leg.fromS).toFixed(6)},0,1)`;
      const moving = (a: number, b: number): string =>
        a === b ? String(a) : `2*floor((${a}+${(b - a).toFixed(3)}*${share})/2)`;
      const [x, y] = [moving(leg.from.x, leg.to.x), moving(leg.from.y, leg.to.y)];
      const shows = [
        Number.isFinite(leg.fromS) ? `gte(t,${(leg.fromS - startS).toFixed(6)})` : "1",
        Number.isFinite(leg.toS) ? `lte(t,${(leg.toS - startS).toFixed(6)})` : "1",
      ].join("*");
      const hidden =
        kind === "solid" ? ["drawbox=x=0:y=0:w=iw:h=ih:color=black:t=fill"] : patched(leg.width, leg.height);
      chains.push(
        `[${label}]split[${name}a][${name}b]`,
        `[${name}b]crop=${leg.width}:${leg.height}:'${x}':'${y}',${hidden.join(",")}[${name}h]`,
        `[${name}a][${name}h]overlay='${x}':'${y}':format=auto:enable='${shows}'[${name}]`,
      );
      label = name;
    }),
  );
  return { chains, label };
}

/** A few patches of colour, softly joined. */
function patched(width: number, height: number): string[] {
  const longer = Math.max(width, height);
  const cells = (px: number): number => Math.max(2, even((PATCHES * px) / longer));
  return [`scale=${cells(width)}:${cells(height)}:flags=area`, `scale=${width}:${height}:flags=bilinear`];
}

/** From key to key; a leg of its own before the first and after the last, so that both ends are covered a frame longer. */
function legsOf(keys: readonly CoverKey[], frameS: number, size: { width: number; height: number }): Leg[] {
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

function leg(from: CoverKey, to: CoverKey, frameS: number, size: { width: number; height: number }): Leg {
  const lastsS = Math.max(frameS, to.atMediaS - from.atMediaS);
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

/** A long step from frame to frame, ticks; a hole of seconds does not count as one. */
function longestStep(ticks: Float64Array): number {
  const steps = Array.from({ length: Math.max(1, ticks.length - 1) }, (_, k) => (ticks[k + 1] ?? 0) - ticks[k]!).sort(
    (one, other) => one - other,
  );
  return steps[Math.floor(steps.length * 0.95)] ?? 0;
}
