import type { Clip } from "../contract/footage.ts";
import { Cancelled, type JobContext } from "../contract/job.ts";
import type { ClipSignals } from "../contract/signals.ts";
import type { Tools } from "../contract/tools.ts";
import { cachedSignals, keptSignals } from "../footage/signals/cachedSignals.edge.ts";
import { cacheFolder } from "../host/cacheFolder.edge.ts";

export interface HeardClips {
  readonly signals: readonly ClipSignals[];
  /** Bytes read now, and the clips' own; what was kept from before counts as nothing read. */
  readonly bytesRead: number;
  readonly bytes: number;
  readonly tookS: number;
}

/** What is seen and heard of clips, one after the other, from the cache where it has been read before. Throws Cancelled after the signal, else as `readSignals`. */
export async function clipSignals(clips: readonly Clip[], tools: Tools, context: JobContext): Promise<HeardClips> {
  const began = Date.now();
  const signals: ClipSignals[] = [];
  const totalS = clips.reduce((sum, clip) => sum + clip.durationS, 0);
  let [doneS, bytesRead] = [0, 0];
  for (const clip of clips) {
    if (context.signal.aborted) throw new Cancelled();
    const found = await cachedSignals(clip, tools, cacheFolder(), {
      signal: context.signal,
      report: ({ done, step }) => {
        const share = (doneS + done * clip.durationS) / totalS;
        const spentS = (Date.now() - began) / 1000;
        context.report({ done: share, leftS: share < 0.05 ? null : (spentS / share) * (1 - share), step });
      },
    });
    if (context.signal.aborted) throw new Cancelled();
    signals.push(found.signals);
    if (!found.kept) bytesRead += found.signals.bytesRead ?? 0;
    doneS += clip.durationS;
  }
  return {
    signals,
    bytesRead,
    bytes: clips.reduce((sum, clip) => sum + clip.bytes, 0),
    tookS: (Date.now() - began) / 1000,
  };
}

/** What was seen and heard of a clip before; null where nobody looked. */
export function clipSignalsKept(clip: Clip): Promise<ClipSignals | null> {
  return keptSignals(clip, cacheFolder());
}
