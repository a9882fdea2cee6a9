import { describe, expect, it } from "vitest";
import { hingeFit, type HingeFit } from "../../main/reading/drift/hingeFit.ts";
import { hingeProfile } from "../../main/reading/drift/hingeProfile.ts";
import { leastSquares } from "../../main/maths/leastSquares.ts";
import { referenceOf, seriesBlocks } from "./seriesABC.ts";

// R 4.2.2 Patched, nlme 3.1-162 (gls with corAR1), segmented 1.6-2; series A, B and C are our own, made from seeds
// 20240229, 777001 and 424243. The figures of the flat-then-rise fit come from an independent program that R agrees with.

const ones = (n: number) => new Float64Array(n).fill(1);
const flatThenRise = (name: "A" | "B" | "C") => {
  const blocks = seriesBlocks(name);
  const fit = hingeFit(blocks, [ones(blocks.bpm.length), blocks.overW]);
  if (!fit) throw new Error("no fit");
  return fit;
};

describe("the whitened profile of series A at an autocorrelation of 0.5", () => {
  const expected = referenceOf<{ "fixed_rho_0.5": { psi: number[]; rss: number[]; rss_nodrift: number } }>(
    "reference_A.json",
  )["fixed_rho_0.5"];
  const blocks = seriesBlocks("A");
  const profile = hingeProfile(
    [ones(100), blocks.overW],
    blocks.bpm,
    blocks.tMin,
    blocks.gaps,
    Float64Array.from(expected.psi),
    0.5,
  );

  it("agrees with R to 10 digits at every corner", () => {
    expected.rss.forEach((rss, index) => {
      expect(Math.abs((profile?.rss[index] as number) / rss - 1)).toBeLessThan(1e-10);
    });
  });

  it("agrees with R without a hinge", () => {
    expect(Math.abs((profile?.rssWithout as number) / 268.337475603623 - 1)).toBeLessThan(1e-10);
    expect(Math.abs(Math.min(...(profile?.rss ?? [])) / 161.544420057673 - 1)).toBeLessThan(1e-10);
  });
});

/** Lowest and highest corner whose RSS is within so many variances of the best one's, minutes. */
function hingeInterval({ profile, best, variance }: HingeFit, within: number) {
  const near = [...profile.psiMin].filter((_, k) => (profile.rss[k]! - profile.rss[best]!) / variance <= within);
  return { low: near[0], high: near.at(-1) };
}

describe("the flat-then-rise fit", () => {
  it("finds series A's corner but cannot place it (truth 62 min)", () => {
    const fit = flatThenRise("A");
    expect(fit.rho).toBe(0.7);
    expect(fit.psiMin).toBe(66.5);
    expect(fit.slopePerMin).toBeCloseTo(0.1256, 4);
    expect(fit.gainOverNone).toBeCloseTo(25.1, 1);
    expect(fit.gainOverStart).toBeCloseTo(5.1, 1);
    expect(hingeInterval(fit, 6)).toEqual({ low: 10.5, high: 87.5 });
  });

  it("places series B's (truth 70 min)", () => {
    const fit = flatThenRise("B");
    expect(fit.rho).toBe(0.3);
    expect(fit.psiMin).toBe(67.5);
    expect(fit.slopePerMin).toBeCloseTo(0.143, 4);
    expect(Math.round(fit.gainOverNone)).toBe(2365);
    expect(fit.gainOverStart).toBeCloseTo(179.9, 1);
    expect(hingeInterval(fit, 6)).toEqual({ low: 62.5, high: 72.5 });
  });

  it("sees series C fall, not rise (truth: no drift)", () => {
    const fit = flatThenRise("C");
    expect(fit.rho).toBe(0.4);
    expect(fit.slopePerMin).toBeCloseTo(-0.0208, 4);
  });

  it.each(["A", "B", "C"] as const)("lies near R's restricted likelihood for series %s", (name) => {
    const r =
      referenceOf<Record<string, { rho_reml: number; coef: { pl: number; h: number } }>>("reference_ABC.json")[name];
    if (!r) throw new Error("no reference");
    const fit = flatThenRise(name);
    // The program's grid is 0.1 wide where these lie.
    expect(Math.abs(fit.rho - r.rho_reml)).toBeLessThanOrEqual(0.05);
    expect(fit.slopePerMin).toBeCloseTo(r.coef.h, 2);
  });
});

describe("ordinary least squares on series A", () => {
  it("agrees with R's lm to 10 digits", () => {
    const blocks = seriesBlocks("A");
    const expected = referenceOf<{
      newey_west_linear: { coef: Record<string, number>; se_ols: Record<string, number> };
    }>("reference_A.json").newey_west_linear;
    const lagged = blocks.overW.map((watts) => watts + 240);
    const fit = leastSquares([ones(100), lagged, blocks.tMin], blocks.bpm);
    ["(Intercept)", "pl", "t"].forEach((name, index) => {
      expect(Math.abs((fit?.coefficients[index] as number) / expected.coef[name]! - 1)).toBeLessThan(1e-10);
      expect(Math.abs((fit?.standardErrors[index] as number) / expected.se_ols[name]! - 1)).toBeLessThan(1e-10);
    });
  });
});
