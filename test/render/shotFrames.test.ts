// Which source frame each film frame shows, reckoned without ffmpeg; what ffmpeg makes of it is test/render/exactness.
import { describe, expect, test } from "vitest";
import type { Shot } from "../../main/contract/film.ts";
import type { Clip, Rational } from "../../main/contract/footage.ts";
import { frameRate } from "../../main/footage/frameRate.ts";
import { shotFrames } from "../../main/render/shotFrames.ts";
import { madeClip } from "../film/madeReading.ts";
import { shotOf } from "./filmFixtures.ts";

const RATES: readonly Rational[] = [
  ...[24, 30, 48, 60, 120, 240].map((nominal) => ({ num: nominal * 1000, den: 1001 })),
  ...[24, 25, 30, 48, 50, 60, 100, 120, 240].map((num) => ({ num, den: 1 })),
];
const BASES = [90_000, 600, 1000, 15_360];

function clipOf(ticks: Float64Array, timescale: number): Clip {
  const step = ticks[1]! - ticks[0]!;
  const frames = { timescale, ticks, keyframes: Uint32Array.of(0), endTicks: (ticks.at(-1) ?? 0) + step };
  const { rate, variable } = frameRate(frames);
  return madeClip("a", frames.endTicks / timescale, { frameRate: rate, variableRate: variable, frames });
}

/** A clip at a rate whose times were put on a base, rounded as a muxer does. */
function clipAt({ num, den }: Rational, timescale: number, count: number): Clip {
  return clipOf(
    Float64Array.from({ length: count }, (_, k) => Math.round((k * den * timescale) / num)),
    timescale,
  );
}

/** Source frames left out and shown twice. */
function lostAndDoubled(shot: Shot, clip: Clip, rate: Rational, frames: number): { lost: number; doubled: number } {
  const { source } = shotFrames(shot, clip, rate, 0, frames);
  let [lost, doubled] = [0, 0];
  for (let k = 1; k < source.length; k += 1) {
    if (source[k] === source[k - 1]) doubled += 1;
    else lost += source[k]! - source[k - 1]! - 1;
  }
  return { lost, doubled };
}

describe("no frame is lost or doubled where the time base cannot hold the frame length", () => {
  for (const base of BASES) {
    test(`on a base of ${base}`, () => {
      for (const rate of RATES) {
        const clip = clipAt(rate, base, 400);
        for (const from of [0, 1, 2, 3, 20.25, 20.5, 77.75]) {
          const startS = (from * rate.den) / rate.num;
          // On the frame's own time, on the film's grid, and between two frames.
          for (const fromS of [clip.frames.ticks[Math.floor(from)]! / base, startS]) {
            const shot = shotOf(clip, fromS, clip.durationS);
            const found = lostAndDoubled(shot, clip, rate, 240);
            expect(found, `${rate.num}/${rate.den} from frame ${from}`).toEqual({ lost: 0, doubled: 0 });
          }
        }
      }
    });
  }
});

/** Made numbers, the same each time. */
function noise(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647 - 0.5;
}

test("a phone's 30 frames a second that jitter lose none, from whichever frame the shot begins", () => {
  const random = noise(7);
  const ticks = Float64Array.from({ length: 700 }, (_, k) => Math.round(k * 3000 + random() * 900));
  const clip = clipOf(ticks, 90_000);
  expect(clip.variableRate).toBe(true);
  for (let from = 0; from < 300; from += 7) {
    const shot = shotOf(clip, ticks[from]! / 90_000, ticks[from + 300]! / 90_000);
    expect(lostAndDoubled(shot, clip, { num: 30, den: 1 }, 300), `from ${from}`).toEqual({ lost: 0, doubled: 0 });
  }
});

test("a clock that runs slow doubles a frame only where it has fallen a whole one behind", () => {
  const random = noise(11);
  // 29.9 frames a second: 100.3 ms a frame more in 30 s is three frames.
  const ticks = Float64Array.from({ length: 900 }, (_, k) => Math.round(k * 3010 + random() * 900));
  const clip = clipOf(ticks, 90_000);
  const { lost, doubled } = lostAndDoubled(shotOf(clip, ticks[0]! / 90_000, 30), clip, { num: 30, den: 1 }, 896);
  expect({ lost, doubled }).toEqual({ lost: 0, doubled: 3 });
});

test("slowed footage shows each frame as often as its speed says, on any base", () => {
  for (const base of BASES) {
    const clip = clipAt({ num: 240, den: 1 }, base, 400);
    for (const [speed, times] of [
      [0.125, 1],
      [0.0625, 2],
      [0.03125, 4],
    ] as const) {
      const shot = shotOf(clip, clip.frames.ticks[21]! / base, 1.5, { speed });
      const { source } = shotFrames(shot, clip, { num: 30, den: 1 }, 0, 240);
      expect(
        Array.from(source, (frame) => frame - 21),
        `at ${speed} on ${base}`,
      ).toEqual(Array.from({ length: 240 }, (_, k) => Math.floor(k / times)));
    }
  }
});

test("a stretch of a shot shows what the whole shot shows there", () => {
  const random = noise(3);
  const ticks = Float64Array.from({ length: 900 }, (_, k) => Math.round(k * 3003 + random() * 1200));
  for (const clip of [clipOf(ticks, 90_000), clipAt({ num: 60_000, den: 1001 }, 1000, 1500)]) {
    for (const speed of [1, 0.4, 2.5]) {
      const shot = shotOf(clip, 1.01, 21, {
        speed,
        freezes: [
          { atMediaS: 3, durationS: 1.23 },
          { atMediaS: 4.4, durationS: 0.5 },
        ],
      });
      const whole = shotFrames(shot, clip, { num: 30, den: 1 }, 0, 240).source;
      for (const from of [1, 30, 59, 60, 61, 90, 98, 137, 200]) {
        const { source } = shotFrames(shot, clip, { num: 30, den: 1 }, from, 40);
        expect(Array.from(source)).toEqual(Array.from(whole.subarray(from, from + 40)));
      }
    }
  }
});

test("a freeze holds the frame that it was set on", () => {
  const clip = clipAt({ num: 60_000, den: 1001 }, 1000, 600);
  for (const on of [100, 101, 102, 103]) {
    const atMediaS = clip.frames.ticks[on]! / 1000;
    const shot = shotOf(clip, 1, 4, { freezes: [{ atMediaS, durationS: 1.001 }] });
    const { source } = shotFrames(shot, clip, { num: 60_000, den: 1001 }, 0, 230);
    expect(source.filter((frame) => frame === on).length).toBe(61);
    expect(new Set(source).size).toBe(230 - 60);
  }
});
