/** Programme loudness of films, LUFS: what phones and web players are used to (EBU R 128 s2, streaming: -20 to -16; from memory). */
export const LOUDNESS_LUFS = -16;
/** True peak that the limiter keeps below, dBTP: AAC may overshoot by half a decibel or so, and the film must stay under -1. */
const LIMIT_DBTP = -2.2;
/** Sound softer than this is silence with noise: it is left as it is, LUFS. */
const SILENCE_LUFS = -50;
const SAMPLE_RATE_HZ = 48_000;

export interface Loudness {
  /** Null: nothing above the gate (silence). */
  readonly integratedLufs: number | null;
  /** Null: silence. */
  readonly truePeakDbtp: number | null;
}

/** Reads the summary that ffmpeg's `ebur128` prints; null where there is none. */
export function loudnessOf(text: string): Loudness | null {
  const summary = text.slice(text.lastIndexOf("Summary:"));
  const integrated = /\bI:\s+(-?[\d.]+|-?inf|nan) LUFS/.exec(summary)?.[1];
  const peak = /\bPeak:\s+(-?[\d.]+|-?inf|nan) dBFS/.exec(summary)?.[1];
  if (!text.includes("Summary:") || integrated === undefined) return null;
  const known = (value: string | undefined, least: number): number | null => {
    const number = Number(value);
    return Number.isFinite(number) && number > least ? number : null;
  };
  // -70 LUFS is the absolute gate: nothing passed it.
  return { integratedLufs: known(integrated, -70), truePeakDbtp: known(peak, -200) };
}

/** True where sound is loud enough to be brought to the films' loudness. */
export function isHeard(loudness: Loudness): boolean {
  return loudness.integratedLufs !== null && loudness.integratedLufs > SILENCE_LUFS;
}

/** How far a sound's true peak would stand over the limiter's limit after a gain, dB; 0 or less: the limiter would do nothing. */
export function overLimitDb(loudness: Loudness, gainDb: number): number {
  return (loudness.truePeakDbtp ?? -Infinity) + gainDb - LIMIT_DBTP;
}

/** A gain alone, for sound whose peaks stay below the limit. */
export function gainFilter(gainDb: number): string {
  return `volume=${gainDb.toFixed(2)}dB`;
}

/** The chain that applies a gain and keeps true peaks down, four times oversampled as the measure of true peak is. */
export function masterFilters(gainDb: number): string {
  const limit = 10 ** (LIMIT_DBTP / 20);
  return [
    gainFilter(gainDb),
    `aresample=${4 * SAMPLE_RATE_HZ}`,
    `alimiter=limit=${limit.toFixed(5)}:attack=2:release=80:level=0:latency=1`,
    `aresample=${SAMPLE_RATE_HZ}`,
  ].join(",");
}
