import type { Clip } from "../contract/footage.ts";
import type { ClipPlacement } from "../contract/lineup.ts";
import { note, type Note } from "../contract/notice.ts";

/** Notes about clips that lie partly or wholly outside the ride, and about clips of one camera that overlap. */
export function placementWarnings(
  clips: readonly Clip[],
  placements: readonly ClipPlacement[],
  rideElapsedS: number,
): Note[] {
  const warnings: Note[] = [];
  const spans = placements.map((placed, k) => {
    const from = placed.found?.offsetS ?? NaN;
    const clip = clips[k]!;
    return { clip, placed, from, to: from + (placed.found?.rate ?? 1) * clip.durationS };
  });
  for (const { clip, placed, from, to } of spans) {
    if (placed.verdict === "no match") {
      warnings.push(note("clip-outside-ride", { fileName: clip.fileName, reason: placed.reason }));
    } else if (placed.found) {
      if (from < -0.5) warnings.push(note("clip-begins-before", { fileName: clip.fileName, byS: -from }));
      if (to > rideElapsedS + 0.5)
        warnings.push(note("clip-ends-after", { fileName: clip.fileName, byS: to - rideElapsedS }));
    }
  }
  for (let a = 0; a < spans.length; a++) {
    for (let b = a + 1; b < spans.length; b++) {
      const [first, second] = [spans[a]!, spans[b]!];
      if (first.placed.verdict === "no match" || second.placed.verdict === "no match") continue;
      const both = Math.min(first.to, second.to) - Math.max(first.from, second.from);
      if (!(both > 2)) continue;
      warnings.push(
        note("clips-overlap", {
          fileName: first.clip.fileName,
          otherName: second.clip.fileName,
          overlapS: both,
          sameCamera: first.placed.clockGroup === second.placed.clockGroup,
        }),
      );
    }
  }
  return warnings;
}
