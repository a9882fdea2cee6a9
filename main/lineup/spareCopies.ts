import type { Clip } from "../contract/footage.ts";
import type { Lineup } from "../contract/lineup.ts";

/** One sentence for each clip that is only the camera's small copy of another one given; `bigOf` holds that one by the small one's id. */
export function spareWarnings(clips: readonly Clip[], bigOf: ReadonlyMap<string, Clip>): string[] {
  return clips.flatMap(({ id, fileName }) => {
    const big = bigOf.get(id);
    return big
      ? [
          `${fileName} and ${big.fileName} are one recording in two sizes, as the camera wrote it: ${big.fileName} is used, ${fileName} is left out.`,
        ]
      : [];
  });
}

/** A line-up of the other clips with the small copies put in their places in the list: they show nothing of their own (`no match`). */
export function withSpare(lineup: Lineup, clips: readonly Clip[], bigOf: ReadonlyMap<string, Clip>): Lineup {
  if (bigOf.size === 0) return lineup;
  const placed = clips.map((clip) => {
    const big = bigOf.get(clip.id);
    const own = lineup.clips.find(({ clipId }) => clipId === (big ?? clip).id)!;
    if (!big) return own;
    const reason = `it is the small copy that the camera wrote of ${big.fileName}: the same recording, of which that one is used`;
    return {
      ...own,
      clipId: clip.id,
      clock: null,
      verdict: "no match" as const,
      sure: false,
      confidence: 0,
      uncertaintyS: null,
      inheritedFrom: big.id,
      candidates: [],
      reason,
    };
  });
  return { ...lineup, clips: placed, warnings: [...lineup.warnings, ...spareWarnings(clips, bigOf)] };
}
