import type { Clip } from "../contract/footage.ts";
import type { Lineup } from "../contract/lineup.ts";
import { note, type Note } from "../contract/notice.ts";
import { placedBecause } from "../contract/notices/placement.ts";

/** A note for each clip that is only the camera's small copy of another one given; `bigOf` holds that one by the small one's id. */
export function spareWarnings(clips: readonly Clip[], bigOf: ReadonlyMap<string, Clip>): Note[] {
  return clips.flatMap(({ id, fileName }) => {
    const big = bigOf.get(id);
    return big ? [note("clip-small-copy", { fileName, bigName: big.fileName })] : [];
  });
}

/** A line-up of the other clips with the small copies put in their places in the list: they show nothing of their own (`no match`). */
export function withSpare(lineup: Lineup, clips: readonly Clip[], bigOf: ReadonlyMap<string, Clip>): Lineup {
  if (bigOf.size === 0) return lineup;
  const placed = clips.map((clip) => {
    const big = bigOf.get(clip.id);
    const own = lineup.clips.find(({ clipId }) => clipId === (big ?? clip).id)!;
    if (!big) return own;
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
      reason: placedBecause("small-copy", { bigName: big.fileName }),
    };
  });
  return { ...lineup, clips: placed, warnings: [...lineup.warnings, ...spareWarnings(clips, bigOf)] };
}
