import { testTools } from "./tools.ts";
import { runProgram } from "./video.ts";

export const SOUND_RATE_HZ = 48_000;

/** A file's sound, mono. @param fromS @param lengthS a stretch of it; default: all */
export async function soundOf(path: string, fromS = 0, lengthS?: number): Promise<Float32Array> {
  const stretch = lengthS === undefined ? [] : ["-ss", fromS.toFixed(6), "-t", String(lengthS)];
  const bytes = await runProgram(testTools().ffmpeg, [
    "-v",
    "error",
    ...stretch,
    "-i",
    path,
    "-map",
    "0:a",
    "-ac",
    "1",
    "-ar",
    String(SOUND_RATE_HZ),
    "-f",
    "f32le",
    "pipe:1",
  ]);
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length));
}

/** Lag at which a stretch of a film's sound is most like the source's, samples; and how like it is, 0 to 1. */
export function bestLag(
  film: Float32Array,
  filmAt: number,
  source: Float32Array,
  sourceAt: number,
  length: number,
  reach: number,
): { lag: number; likeness: number } {
  let best = { lag: 0, likeness: -1 };
  for (let lag = -reach; lag <= reach; lag += 1) {
    let product = 0;
    let a = 0;
    let b = 0;
    for (let k = 0; k < length; k += 1) {
      const x = film[filmAt + k] ?? 0;
      const y = source[sourceAt + lag + k] ?? 0;
      product += x * y;
      a += x * x;
      b += y * y;
    }
    const likeness = product / Math.sqrt(a * b + 1e-12);
    if (likeness > best.likeness) best = { lag, likeness };
  }
  return best;
}

/** Longest run of near silence, samples. */
export function longestSilence(film: Float32Array, from: number, to: number): number {
  let longest = 0;
  let run = 0;
  for (let k = from; k < to; k += 1) {
    run = Math.abs(film[k] ?? 0) < 1e-4 ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  return longest;
}
