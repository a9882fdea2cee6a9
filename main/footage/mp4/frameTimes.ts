import type { FrameTimes } from "../../contract/footage.ts";
import type { Edit, Track } from "./movie.ts";

/** Time of every sample on the track's own line, before edits, in decoding order. */
function sampleTimes(track: Track, count: number): { cts: Float64Array; durations: Float64Array } {
  const cts = new Float64Array(count);
  const durations = new Float64Array(count);
  let k = 0;
  let dts = 0;
  for (const run of track.durations) {
    for (let n = 0; n < run.count && k < count; n++, k++) {
      cts[k] = dts;
      durations[k] = run.value;
      dts += run.value;
    }
  }
  for (; k < count; k++) cts[k] = dts;
  k = 0;
  for (const run of track.compositionOffsets) {
    for (let n = 0; n < run.count && k < count; n++, k++) cts[k] = cts[k] + run.value;
  }
  return { cts, durations };
}

interface Placed {
  readonly tick: number;
  readonly endTick: number;
  readonly sample: number;
}

function placeByEdits(
  edits: readonly Edit[],
  cts: Float64Array,
  durations: Float64Array,
  timescale: number,
  movieTimescale: number,
): Placed[] {
  const placed: Placed[] = [];
  let before = 0;
  for (const edit of edits) {
    const length = Math.round((edit.segmentDuration * timescale) / movieTimescale);
    if (edit.mediaTime >= 0) {
      const from = edit.mediaTime;
      const to = edit.segmentDuration === 0 ? Infinity : from + length;
      for (let k = 0; k < cts.length; k++) {
        const at = cts[k];
        if (at < from || at >= to) continue;
        placed.push({ tick: before + at - from, endTick: before + Math.min(at + durations[k], to) - from, sample: k });
      }
    }
    before += length;
  }
  return placed;
}

/**
 * Presentation times of a track's samples after its edit list (ISO/IEC 14496-12, 8.6.6):
 * `tick = earlier segments + (cts - media_time)`; samples outside every edit are not shown and not listed.
 *
 * `present` limits the samples to those that are in the file (fewer when it was cut off). Empty when none is shown.
 */
export function frameTimes(track: Track, movieTimescale: number, present: number): FrameTimes & { readonly samples: Uint32Array } {
  const { cts, durations } = sampleTimes(track, present);
  const edits = track.edits.length > 0 ? track.edits : [{ segmentDuration: 0, mediaTime: 0, rate: 1 }];
  let placed = placeByEdits(edits, cts, durations, track.timescale, movieTimescale);
  // Without an edit list a negative time is shown all the same; only an edit may drop it.
  if (track.edits.length === 0) placed = Array.from(cts, (tick, k) => ({ tick, endTick: tick + durations[k], sample: k }));
  placed.sort((a, b) => a.tick - b.tick);
  const sync = track.syncSamples && new Set(track.syncSamples);
  const keyframes: number[] = [];
  const ticks = new Float64Array(placed.length);
  const samples = new Uint32Array(placed.length);
  let endTicks = 0;
  placed.forEach((frame, k) => {
    ticks[k] = frame.tick;
    samples[k] = frame.sample;
    if (!sync || sync.has(frame.sample)) keyframes.push(k);
    endTicks = Math.max(endTicks, frame.endTick);
  });
  return { timescale: track.timescale, ticks, keyframes: Uint32Array.from(keyframes), endTicks, samples };
}
