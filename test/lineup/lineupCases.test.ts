import { describe, expect, it } from "vitest";
import type { ClipTelemetry } from "../../main/contract/telemetry.ts";
import { seededRandom } from "../../main/demo/seededRandom.ts";
import { placeClips } from "../../main/lineup/placeClips.ts";
import { filmed, madeWay, recorded, ride } from "./simulateTracks.ts";
import { clockCases, runCase, telemetryCases } from "./lineupCases.ts";

const START_MS = Date.UTC(2024, 5, 1, 8, 0, 0);

/** A small share of `npm run bench -- lineup`; where a clip belongs nowhere or elsewhere, none may be sure and wrong. */
describe("telemetry held against rides of which the truth is known", () => {
  it.each(Object.keys(telemetryCases))("%s: never sure and wrong", (name) => {
    expect(runCase(name, telemetryCases[name]!, 300, 5).wrong).toBe(0);
  });

  // Each was sure and wrong in a long run of the bench: of another day or lap, or 2.3 to 3.0 s off with about 1 s printed.
  it.each([
    ["same road, another day, no clocks", 5_000_180],
    ["same road, another day, no clocks", 5_000_530],
    ["other rider, 2 to 8 s", 5_000_490],
    ["other rider, 2 to 8 s", 5_000_531],
    ["ride's clock in another zone", 7_000_015],
    ["circuit, clip in a gap, ride without a clock", 7_000_236],
  ])("%s, seed %i: no more", (name, seed) => {
    expect(runCase(name, telemetryCases[name]!, seed, 1)).toMatchObject({ wrong: 0, beyond: 0 });
  });

  it("is exact where the carrier's own file is there", () => {
    const { n, sure, wrong, medianErrorS } = runCase(
      "carrier",
      telemetryCases["other rider, whose own file is there"]!,
      500,
      15,
    );
    expect(wrong).toBe(0);
    expect(sure).toBeGreaterThanOrEqual(n - 4);
    expect(medianErrorS).toBeLessThan(0.5);
  });

  it("is sure of the rider's own camera, and says how well", () => {
    const { n, sure, beyond } = runCase("own", telemetryCases["own camera, 2.5 m of noise"]!, 340, 20);
    expect(sure).toBeGreaterThanOrEqual(n - 1);
    expect(beyond).toBeLessThanOrEqual(2);
  });
});

describe("telemetry of odd clips", () => {
  const odd = (seed: number, lengthS: number, change: (telemetry: ClipTelemetry) => ClipTelemetry) => {
    const random = seededRandom(seed * 48_271 + 7);
    for (let k = 0; k < 20; k++) random.uniform();
    const receiver = { sdM: 2.5, speedSdMps: 0.1, speedMeanS: 1 };
    const riding = ride(madeWay(6000, random), random);
    const file = recorded(riding, { receiver, startUtcMs: START_MS }, random);
    const startS = 200;
    const film = filmed(riding, { startS, durationS: lengthS, receiver, zeroUtcMs: START_MS }, random);
    const { clips } = placeClips({
      ride: file,
      clips: [film.clip],
      anchors: [],
      deviceDelayS: 0,
      telemetry: [change(film.telemetry)],
    });
    const placed = clips[0]!;
    const off = placed.found ? Math.abs(placed.found.offsetS - startS) : NaN;
    return { placed, wrong: placed.sure && !(off <= Math.max(2, placed.uncertaintyS!)) };
  };
  const only = (telemetry: ClipTelemetry, kept: (t: number) => boolean, moveM = (_t: number) => 0): ClipTelemetry => {
    const { mediaS, latDeg, lonDeg, speedMps } = telemetry.positions!;
    const at = [...mediaS.keys()].filter((k) => kept(mediaS[k]!));
    const pick = (column: Float64Array) => Float64Array.from(at, (k) => column[k]!);
    const moved = Float64Array.from(at, (k) => latDeg[k]! + moveM(mediaS[k]!) / 111_195);
    return {
      ...telemetry,
      positions: { mediaS: pick(mediaS), latDeg: moved, lonDeg: pick(lonDeg), speedMps: pick(speedMps) },
    };
  };
  const seeds = [1, 2, 3, 4, 5, 6];

  it.each([
    ["of 3 s", 3, (t: ClipTelemetry) => t, 0],
    ["of 3 s whose receiver never told the time", 3, (t: ClipTelemetry) => ({ ...t, utc: null }), 0],
    ["whose lock was lost for a minute", 180, (t: ClipTelemetry) => only(t, (s) => s < 60 || s > 120), 5],
    [
      "whose second lock is 300 m off",
      180,
      (t: ClipTelemetry) =>
        only(
          t,
          (s) => s < 60 || s > 120,
          (s) => (s > 120 ? 300 : 0),
        ),
      0,
    ],
    [
      "whose places jump by 80 m for some seconds",
      180,
      (t: ClipTelemetry) =>
        only(
          t,
          () => true,
          (s) => (s > 60 && s < 75 ? 80 : 0),
        ),
      0,
    ],
    ["without a lock", 180, (t: ClipTelemetry) => ({ ...t, positions: null, utc: null }), 0],
  ] as const)("a clip %s is never sure and wrong", (_, lengthS, change, leastSure) => {
    const found = seeds.map((seed) => odd(seed, lengthS, change));
    expect(found.filter(({ wrong }) => wrong)).toEqual([]);
    expect(found.filter(({ placed }) => placed.sure).length).toBeGreaterThanOrEqual(leastSure);
  });

  it("a clip longer than the ride is never sure and wrong, and found", () => {
    for (const seed of seeds) {
      const random = seededRandom(seed * 48_271 + 7);
      for (let k = 0; k < 20; k++) random.uniform();
      const receiver = { sdM: 2.5, speedSdMps: 0.1, speedMeanS: 1 };
      const riding = ride(madeWay(6000, random), random);
      const whole = recorded(riding, { receiver, startUtcMs: START_MS }, random);
      // The recorder was started late and stopped early: it has the middle of what was filmed.
      const [fromS, toS] = [150, Math.min(450, whole.elapsedS - 30)];
      const kept = [...whole.raw.timeS.keys()].filter(
        (k) => whole.raw.timeS[k]! >= fromS && whole.raw.timeS[k]! <= toS,
      );
      const raw = Object.fromEntries(
        Object.entries(whole.raw).map(([name, column]) => [
          name,
          column instanceof Float64Array
            ? Float64Array.from(kept, (k) => column[k]! - (name === "timeS" ? fromS : 0))
            : kept.length,
        ]),
      ) as unknown as typeof whole.raw;
      const part = { ...whole, raw, elapsedS: toS - fromS, startUtcMs: START_MS + 1000 * fromS };
      const lengthS = Math.min(riding.distanceM.length / 5 - 10, toS + 20);
      const film = filmed(riding, { startS: 0, durationS: lengthS, receiver, zeroUtcMs: START_MS }, random);
      const placed = placeClips({
        ride: part,
        clips: [film.clip],
        anchors: [],
        deviceDelayS: 0,
        telemetry: [film.telemetry],
      }).clips[0]!;
      expect(placed.found).not.toBeNull();
      if (placed.sure)
        expect(Math.abs(placed.found!.offsetS + fromS)).toBeLessThanOrEqual(Math.max(2, placed.uncertaintyS!));
    }
  });
});

it("covers a trim as long as any, beside what whole seconds leave open", () => {
  // Of 300 such clips 2 lay beyond an error in which the two were taken to average out.
  const { wrong, beyond } = runCase("trim", clockCases["inherited clock, trimmed by 0.5 to 10 s"]!, 3_000_000, 300);
  expect({ wrong, beyond }).toEqual({ wrong: 0, beyond: 0 });
});

describe("clips by their camera's clock, and marks by hand, of which the truth is known", () => {
  it.each(Object.keys(clockCases))("%s: never sure and wrong", (name) => {
    const { n, sure, wrong, beyond } = runCase(name, clockCases[name]!, 300, 60);
    expect(wrong).toBe(0);
    expect(beyond).toBeLessThanOrEqual(0.05 * n);
    if (/other camera|reset|wrongly/.test(name)) expect(sure).toBe(0);
    else expect(sure).toBeGreaterThan(0.7 * n);
  });
});
