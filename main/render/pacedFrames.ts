import type { Clip } from "../contract/footage.ts";

/** What ffmpeg is told so that the frames of a clip come on as a pace asks, whatever its speed from frame to frame. */
export interface PacedTiming {
  /** Seek to here in the file's own time, s: half-way before the first frame, so that no rounding can miss it. */
  readonly seekS: number;
  /** How much to read from the first delivered frame on, s; some more than is shown. */
  readonly readS: number;
  /** The sound of the first output frame begins this far after the seek point, s. */
  readonly soundAfterSeekS: number;
  /** Delivered frame n comes on at film frame n and all `by` of the entries whose `from` it has reached. */
  readonly shifts: readonly { readonly from: number; readonly by: number }[];
  /** True where the clip runs as filmed throughout, so that its sound fits. */
  readonly asFilmed: boolean;
}

export interface PacedFrames {
  readonly timing: PacedTiming;
  /** For each output frame: index into the clip's frames. */
  readonly source: Uint32Array;
}

/** A pace is as filmed where it is never further off than this, s. */
const AS_FILMED_WITHIN_S = 0.02;

/**
 * Source frames of a stretch that follows a pace: at each output frame the frame nearest to the clip time that is asked
 * for; before and past the clip its first and last.
 *
 * @param mediaS clip time asked for at each output frame, s; it never falls
 */
export function pacedFrames({ frames: { ticks, timescale } }: Clip, mediaS: Float64Array, frameS: number): PacedFrames {
  const source = new Uint32Array(mediaS.length);
  let shown = 0;
  for (let frame = 0; frame < mediaS.length; frame += 1) {
    const tick = mediaS[frame]! * timescale;
    while (shown + 1 < ticks.length && Math.abs(ticks[shown + 1]! - tick) < Math.abs(ticks[shown]! - tick)) shown += 1;
    source[frame] = shown;
  }
  const [first, last] = [source[0]!, source.at(-1)!];
  const origin = ticks[first]!;
  const interval = first + 1 < ticks.length ? ticks[first + 1]! - origin : timescale / 25;
  const seekTicks = first === 0 ? origin - interval / 2 : (ticks[first - 1]! + origin) / 2;
  const asFilmed = mediaS.every((at, frame) => Math.abs(at - mediaS[0]! - frame * frameS) < AS_FILMED_WITHIN_S);
  return {
    timing: {
      seekS: seekTicks / timescale,
      readS: (ticks[last]! - origin + 4 * interval) / timescale + 0.1,
      soundAfterSeekS: Math.max(0, mediaS[0]! - seekTicks / timescale),
      shifts: shiftsOf(source),
      asFilmed,
    },
    source,
  };
}

/** A frame that is never shown comes on with the next that is, which takes its place. */
function shiftsOf(source: Uint32Array): PacedTiming["shifts"] {
  const shifts: { from: number; by: number }[] = [];
  const first = source[0]!;
  let delivered = 0;
  let shift = 0;
  for (let frame = 0; frame < source.length; frame += 1) {
    for (; delivered <= source[frame]! - first; delivered += 1) {
      const by = frame - delivered - shift;
      if (by !== 0) shifts.push({ from: delivered, by });
      shift += by;
    }
  }
  return shifts;
}
