import { describe, expect, it } from "vitest";
import type { FeatureScore } from "../../../main/lineup/signals/featureScores.ts";
import { heavyTailedTie, untied } from "../../../main/lineup/signals/heavyTailedTie.ts";
import { normal, seeded, wander } from "../simulateSignals.ts";

const STEPS = 720;
const LAG = 400;

/** A feature whose ride wanders, tied to it at `LAG` with a slope, under noise of its own and some jolts. */
function feature(slope: number, options: { readonly jolts?: number; readonly eitherWay?: boolean } = {}): FeatureScore {
  const next = seeded(31);
  const onto = wander(1600, 3, 5, next);
  const noise = wander(STEPS, 1, 1, next);
  const ready = Float64Array.from(noise, (e, i) => {
    const jolt = next() < 0.03 ? (options.jolts ?? 0) * normal(next) : 0;
    return slope * onto[i + LAG]! + e + jolt;
  });
  const none = new Float64Array(0);
  return {
    feature: "sound",
    firstLag: 0,
    evidence: none,
    seen: none,
    expected: none,
    ready,
    onto,
    leadSteps: 0,
    eitherWay: options.eitherWay ?? false,
  };
}

function evidence(part: FeatureScore, lag: number): number {
  const steps = heavyTailedTie(part, lag, untied(part))!;
  return steps.filter(Number.isFinite).reduce((sum, v) => sum + v, 0);
}

describe("heavyTailedTie", () => {
  it("speaks for the place of a tie and hardly for any other", () => {
    const part = feature(1);
    const there = evidence(part, LAG);
    expect(there).toBeGreaterThan(20);
    for (const lag of [0, 100, 250, 600, 800]) expect(evidence(part, lag)).toBeLessThan(there / 4);
  });

  it("is hardly moved by jolts, of which a few outweigh all else in a sum of squares", () => {
    const part = feature(1, { jolts: 30 });
    expect(evidence(part, LAG)).toBeGreaterThan(0.6 * evidence(feature(1), LAG));
    // The same by least squares: half the logarithm of what the tie leaves of the variance, over the seconds.
    const at = Array.from(part.ready, (y, i) => [part.onto[i + LAG]!, y] as const);
    const sum = (of: (x: number, y: number) => number) => at.reduce((s, [x, y]) => s + of(x, y), 0);
    const r2 = sum((x, y) => x * y) ** 2 / (sum((x) => x * x) * sum((_, y) => y * y));
    expect((-0.5 * STEPS * Math.log(1 - r2)) / 4).toBeLessThan(evidence(part, LAG));
  });

  it("takes a tie of the wrong sign for none, unless either may be right", () => {
    expect(evidence(feature(-1), LAG)).toBeLessThan(1);
    expect(evidence(feature(-1, { eitherWay: true }), LAG)).toBeGreaterThan(60);
  });

  it("is nothing where too little meets, and leaves open what is missing", () => {
    const part = feature(1);
    expect(heavyTailedTie(part, 1580, untied(part))).toBeNull();
    const holes = { ...part, ready: part.ready.map((v, i) => (i >= 300 && i < 340 ? NaN : v)) };
    const steps = heavyTailedTie(holes, LAG, untied(holes))!;
    expect(steps[310]).toBeNaN();
    expect(steps[500]).toBeTypeOf("number");
    expect(Number.isFinite(steps[500]!)).toBe(true);
  });
});
