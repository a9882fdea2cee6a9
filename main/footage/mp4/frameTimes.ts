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
    for (let n = 0; n < run.count && k < count; n++, k++) cts[k] = cts[k]! + run.value;
  }
  return { cts, durations };
}

/** The samples that are shown, in the order of the edits; columns, since a film of hours has a million of them. */
interface Placed {
  readonly ticks: Float64Array;
  readonly samples: Uint32Array;
  /** Where the last of them ends. */
  readonly endTicks: number;
}

function placeByEdits(
  edits: readonly Edit[],
  cts: Float64Array,
  durations: Float64Array,
  timescale: number,
  movieTimescale: number,
): Placed {
  const eachShown = (take: (tick: number, endTick: number, sample: number) => void): void => {
    let before = 0;
    for (const edit of edits) {
      const length = Math.round((edit.segmentDuration * timescale) / movieTimescale);
      if (edit.mediaTime >= 0) {
        const from = edit.mediaTime;
        const to = edit.segmentDuration === 0 ? Infinity : from + length;
        for (let k = 0; k < cts.length; k++) {
          const at = cts[k]!;
          if (at >= from && at < to) take(before + at - from, before + Math.min(at + durations[k]!, to) - from, k);
        }
      }
      before += length;
    }
  };
  // Counted first: a damaged list may name any number of edits, and few of them show anything.
  let count = 0;
  let endTicks = 0;
  eachShown((_tick, endTick) => {
    count++;
    endTicks = Math.max(endTicks, endTick);
  });
  const ticks = new Float64Array(count);
  const samples = new Uint32Array(count);
  let n = 0;
  eachShown((tick, _endTick, sample) => {
    ticks[n] = tick;
    samples[n++] = sample;
  });
  return { ticks, samples, endTicks };
}

/** Without an edit list a negative time is shown all the same; only an edit may drop it. */
function placeAll(cts: Float64Array, durations: Float64Array): Placed {
  const endTicks = cts.reduce((last, tick, k) => Math.max(last, tick + durations[k]!), 0);
  return { ticks: cts, samples: Uint32Array.from(cts, (_, k) => k), endTicks };
}

/** By time; what has the same time stays in its order. */
function inOrder(placed: Placed): Placed {
  const { ticks, samples } = placed;
  if (ticks.every((tick, k) => k === 0 || ticks[k - 1]! <= tick)) return placed;
  const order = Uint32Array.from(ticks, (_, k) => k).sort((a, b) => ticks[a]! - ticks[b]! || a - b);
  return {
    ...placed,
    ticks: Float64Array.from(order, (k) => ticks[k]!),
    samples: Uint32Array.from(order, (k) => samples[k]!),
  };
}

/**
 * Presentation times of a track's samples after its edit list (ISO/IEC 14496-12, 8.6.6):
 * `tick = earlier segments + (cts - media_time)`; samples outside every edit are not shown and not listed.
 *
 * `present` limits the samples to those that are in the file (fewer when it was cut off). Empty when none is shown.
 */
export function frameTimes(
  track: Track,
  movieTimescale: number,
  present: number,
): FrameTimes & { readonly samples: Uint32Array } {
  const { cts, durations } = sampleTimes(track, present);
  const shown =
    track.edits.length === 0
      ? placeAll(cts, durations)
      : placeByEdits(track.edits, cts, durations, track.timescale, movieTimescale);
  const { ticks, samples, endTicks } = inOrder(shown);
  const sync = track.syncSamples && new Set(track.syncSamples);
  const keyframes = Uint32Array.from(ticks.keys()).filter((k) => !sync || sync.has(samples[k]!));
  return { timescale: track.timescale, ticks, keyframes, endTicks, samples };
}
