import type { Clip } from "../contract/footage.ts";
import type { Cover } from "../contract/framing.ts";
import { coverLegs, coverPatches } from "../../overlay/instant/coverBoxes.ts";

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
    coverLegs(keys, frameS, size).forEach((leg, k) => {
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
  const { across, down } = coverPatches({ width, height });
  return [`scale=${across}:${down}:flags=area`, `scale=${width}:${height}:flags=bilinear`];
}

/** A long step from frame to frame, ticks; a hole of seconds does not count as one. */
function longestStep(ticks: Float64Array): number {
  const steps = Array.from({ length: Math.max(1, ticks.length - 1) }, (_, k) => (ticks[k + 1] ?? 0) - ticks[k]!).sort(
    (one, other) => one - other,
  );
  return steps[Math.floor(steps.length * 0.95)] ?? 0;
}
