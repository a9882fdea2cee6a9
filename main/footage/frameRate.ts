import type { FrameTimes, Rational } from "../contract/footage.ts";

/** Rates that cameras use besides whole numbers: N x 1000/1001. */
const NTSC = [24, 30, 48, 60, 120, 240];

function gcd(a: number, b: number): number {
  while (b > 0) [a, b] = [b, a % b];
  return a;
}

function reduced(num: number, den: number): Rational {
  const g = gcd(num, den);
  return { num: num / g, den: den / g };
}

/**
 * Frame rate of a clip, frames a second. Exact where every frame lies on one even grid (to one tick, which a coarse time
 * base forces), with `variable` false; otherwise the mean rate with `variable` true. One frame or none: 0/1.
 */
export function frameRate(frames: FrameTimes): { readonly rate: Rational; readonly variable: boolean } {
  const n = frames.ticks.length;
  const first = frames.ticks[0] ?? 0;
  const span = (frames.ticks[n - 1] ?? 0) - first;
  if (n < 2 || span <= 0) return { rate: { num: 0, den: 1 }, variable: false };
  const mean = span / (n - 1);
  const fits = (step: number) => frames.ticks.every((tick, k) => Math.abs(tick - first - k * step) <= 1);
  const whole = Math.round(mean);
  if (frames.ticks.every((tick, k) => tick - first === k * whole))
    return { rate: reduced(frames.timescale, whole), variable: false };
  const perSecond = frames.timescale / mean;
  const candidates: Rational[] = [
    ...NTSC.map((nominal) => ({ num: nominal * 1000, den: 1001 })),
    { num: Math.round(perSecond), den: 1 },
  ].filter((rate) => rate.num > 0 && Math.abs(rate.num / rate.den / perSecond - 1) < 0.001);
  candidates.sort((a, b) => Math.abs(a.num / a.den - perSecond) - Math.abs(b.num / b.den - perSecond));
  for (const rate of candidates) {
    if (fits((frames.timescale * rate.den) / rate.num)) return { rate, variable: false };
  }
  const exact = reduced((n - 1) * frames.timescale, span);
  return { rate: exact, variable: !fits(mean) };
}
