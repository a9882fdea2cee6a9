import { claimedStart } from "./claimedStart.ts";
import type { ClockGroup } from "./clockGroups.ts";
import type { RecordingPlacement } from "./placement.ts";
import { placedBecause } from "../contract/notices/placement.ts";

/** Timecodes place recordings of one camera to about a frame of each other, s. */
const FRAME_S = 0.1;

/**
 * Recordings of one camera that telemetry places, put on the one clock that all of them show: the camera's error is the
 * mean of what each shows of it, weighed by how sure each is. A recording that hardly changes its speed gains most. Only
 * where timecodes tie them to the frame, and where all agree within what each claims; else each keeps its own place.
 */
export function shareClock(group: ClockGroup, placed: readonly RecordingPlacement[]): RecordingPlacement[] {
  const mark = group.mark ?? "start";
  const shown = placed.flatMap((placement) => {
    const { recording, clock, method, verdict, uncertaintyS } = placement;
    const claimed = claimedStart(recording.clips[0]!, mark);
    if (
      method !== "telemetry" ||
      verdict !== "sure" ||
      !clock ||
      uncertaintyS === null ||
      claimed === null ||
      !recording.clips[0]!.timecode
    )
      return [];
    const sharpS = placement.sharpS ?? uncertaintyS;
    return [{ placement, claimed, errorS: claimed - clock.offsetS, uncertaintyS, sharpS }];
  });
  if (shown.length < 2) return [...placed];
  const weights = shown.map(({ sharpS }) => 1 / sharpS ** 2);
  const all = weights.reduce((sum, w) => sum + w, 0);
  const squares = shown.reduce((sum, s, k) => sum + (weights[k]! * s.uncertaintyS) ** 2, 0);
  const errorS = shown.reduce((sum, s, k) => sum + weights[k]! * s.errorS, 0) / all;
  if (shown.some((s) => Math.abs(s.errorS - errorS) > 1.5 * s.uncertaintyS + FRAME_S)) return [...placed];
  const uncertaintyS = Math.max(FRAME_S, Math.sqrt(squares) / all);
  return placed.map((placement) => {
    const own = shown.find((s) => s.placement === placement);
    if (!own) return placement;
    return {
      ...placement,
      clock: { offsetS: own.claimed - errorS, rate: 1 },
      uncertaintyS,
      reason: placedBecause("shared-clock", { own: placement.reason, others: shown.length - 1 }),
    };
  });
}
