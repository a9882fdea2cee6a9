import type { SampleTable } from "./movie.ts";

/** File offset and length of every sample, in decoding order, from stsc, stco or co64, and stsz. */
export function sampleOffsets(table: SampleTable): { offsets: Float64Array; sizes: Uint32Array } {
  const offsets = new Float64Array(table.count);
  const sizes = typeof table.sizes === "number" ? new Uint32Array(table.count).fill(table.sizes) : table.sizes;
  let sample = 0;
  let run = 0;
  for (let chunk = 0; chunk < table.chunkOffsets.length && sample < table.count; chunk++) {
    while (run + 1 < table.chunkRuns.length && table.chunkRuns[run + 1]!.firstChunk <= chunk + 1) run++;
    let at = table.chunkOffsets[chunk]!;
    const inChunk = table.chunkRuns[run]?.samplesPerChunk ?? 0;
    for (let n = 0; n < inChunk && sample < table.count; n++, sample++) {
      offsets[sample] = at;
      at += sizes[sample]!;
    }
  }
  const located = sample;
  return { offsets: offsets.subarray(0, located), sizes: sizes.subarray(0, located) };
}

/** How many samples, from the first, lie whole inside a file of `fileBytes`. */
export function samplesPresent(table: SampleTable, fileBytes: number): number {
  const { offsets, sizes } = sampleOffsets(table);
  for (let k = 0; k < offsets.length; k++) if (offsets[k]! + sizes[k]! > fileBytes) return k;
  return offsets.length;
}
