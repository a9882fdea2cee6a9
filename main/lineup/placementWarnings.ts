import type { Clip } from "../contract/footage.ts";
import type { ClipPlacement } from "../contract/lineup.ts";
import { clockText } from "./timeText.ts";

/** Sentences about clips that lie partly or wholly outside the ride, and about clips of one camera that overlap. */
export function placementWarnings(
  clips: readonly Clip[],
  placements: readonly ClipPlacement[],
  rideElapsedS: number,
): string[] {
  const warnings: string[] = [];
  const spans = placements.map((placed, k) => {
    const from = placed.clock?.offsetS ?? NaN;
    return { clip: clips[k], placed, from, to: from + (placed.clock?.rate ?? 1) * clips[k].durationS };
  });
  for (const { clip, placed, from, to } of spans) {
    if (placed.verdict === "no match") {
      warnings.push(`${clip.fileName} shows nothing of the ride: ${placed.reason}.`);
    } else if (placed.clock) {
      if (from < -0.5)
        warnings.push(`${clip.fileName} begins ${clockText(-from)} before the ride: there its panels show dashes.`);
      if (to > rideElapsedS + 0.5)
        warnings.push(
          `${clip.fileName} ends ${clockText(to - rideElapsedS)} after the ride: there its panels show dashes.`,
        );
    }
  }
  for (let a = 0; a < spans.length; a++) {
    for (let b = a + 1; b < spans.length; b++) {
      const [first, second] = [spans[a], spans[b]];
      if (first.placed.verdict === "no match" || second.placed.verdict === "no match") continue;
      const both = Math.min(first.to, second.to) - Math.max(first.from, second.from);
      if (!(both > 2)) continue;
      const same = first.placed.clockGroup === second.placed.clockGroup;
      warnings.push(
        same
          ? `${first.clip.fileName} and ${second.clip.fileName} are of one camera, yet their places overlap by ${clockText(both)}: check them.`
          : `${first.clip.fileName} and ${second.clip.fileName} show the same ${clockText(both)} from two cameras.`,
      );
    }
  }
  return warnings;
}
