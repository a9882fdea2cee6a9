import { resolve } from "node:path";
import type { Clip } from "../contract/footage.ts";

/**
 * Which of the clips are only the small copies that a camera wrote of others among them: the big clip by the small one's
 * id. Empty when there is none.
 *
 * @param companions what `companionClip` gave, by the big clip's id
 */
export function companionsAmong(
  clips: readonly Clip[],
  companions: ReadonlyMap<string, Clip>,
): ReadonlyMap<string, Clip> {
  const bigOf = new Map<string, Clip>();
  for (const clip of clips) {
    const companion = companions.get(clip.id);
    const small = companion && clips.find(({ path }) => resolve(path) === resolve(companion.path));
    if (small && (bigOf.get(small.id)?.bytes ?? 0) < clip.bytes) bigOf.set(small.id, clip);
  }
  return bigOf;
}
