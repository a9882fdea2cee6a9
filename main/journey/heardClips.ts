import type { Clip } from "../contract/footage.ts";
import { Cancelled, type JobContext } from "../contract/job.ts";
import type { ClipSignals } from "../contract/signals.ts";
import { cachedSignals } from "../footage/signals/cachedSignals.edge.ts";
import type { ClipTelemetry } from "../contract/telemetry.ts";
import type { Media } from "./debrief.ts";
import type { Host } from "./host.ts";

export interface HeardClips {
  readonly signals: readonly ClipSignals[];
  /** Bytes read now, and the clips' own; what was kept from before counts as nothing read. */
  readonly bytesRead: number;
  readonly bytes: number;
  readonly tookS: number;
}

/** Whether the camera's own sensors tell how it turns, so that no picture need be decoded for that. */
export function turningFelt(telemetry: ClipTelemetry | null | undefined): boolean {
  return (telemetry?.gyro?.mediaS.length ?? 0) > 0 && (telemetry?.acceleration?.mediaS.length ?? 0) > 0;
}

/**
 * What is seen and heard of clips, one after the other, from the cache where it has been read before. Throws Cancelled
 * after the signal, else as `readSignals`.
 */
export async function clipSignals(
  clips: readonly Clip[],
  { telemetry }: Pick<Media, "telemetry">,
  host: Host,
  context: JobContext,
): Promise<HeardClips> {
  const began = host.nowMs();
  const signals: ClipSignals[] = [];
  const totalS = clips.reduce((sum, clip) => sum + clip.durationS, 0);
  let [doneS, bytesRead] = [0, 0];
  for (const clip of clips) {
    if (context.signal.aborted) throw new Cancelled();
    const found = await cachedSignals(clip, host.tools, host.cacheDir, {
      turningFelt: turningFelt(telemetry.get(clip.id)),
      signal: context.signal,
      report: ({ done, step }) => {
        const share = (doneS + done * clip.durationS) / totalS;
        const spentS = (host.nowMs() - began) / 1000;
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
    tookS: (host.nowMs() - began) / 1000,
  };
}
