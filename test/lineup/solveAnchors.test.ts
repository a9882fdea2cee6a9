import { describe, expect, it } from "vitest";
import { solveAnchors } from "../../main/lineup/solveAnchors.ts";

describe("solveAnchors", () => {
  it("takes one mark as it stands", () => {
    const { clock, trouble } = solveAnchors([{ mediaS: 12.5, rideS: 100, sigmaS: 0.3 }]);
    expect(clock).toEqual({ offsetS: 87.5, rate: 1 });
    expect(trouble).toBeNull();
  });

  it("finds +40 ppm from two marks an hour apart, each good to 1/60 s, within 10 ppm", () => {
    const mark = (mediaS: number) => ({ mediaS, rideS: 500 + mediaS * (1 + 40e-6), sigmaS: 1 / 60 });
    const { clock } = solveAnchors([mark(0), mark(3600)]);
    expect(Math.abs(clock.rate - 1 - 40e-6)).toBeLessThan(10e-6);
  });

  it("keeps the noise of two coarse marks out of the rate", () => {
    // 0.1 s each, 20 min apart: 118 ppm of error, of which about 6 % may stay (ridge of 30 ppm)
    const { clock } = solveAnchors([
      { mediaS: 0, rideS: 0, sigmaS: 0.1 },
      { mediaS: 1200, rideS: 1200.2, sigmaS: 0.1 },
    ]);
    expect(Math.abs(clock.rate - 1)).toBeLessThan(12e-6);
  });

  it("points out the bad mark among three and leaves it out", () => {
    const marks = [0, 300, 600].map((mediaS) => ({ mediaS, rideS: 50 + mediaS, sigmaS: 0.3 }));
    marks[1]!.rideS += 17;
    const { clock, badMark, trouble } = solveAnchors(marks);
    expect(badMark).toBe(1);
    expect(trouble).toEqual({ kind: "one left out", mark: 2, byS: expect.closeTo(17, 1) as number });
    expect(clock.offsetS).toBeCloseTo(50, 3);
  });

  it("says by how much two marks disagree", () => {
    const { trouble } = solveAnchors([
      { mediaS: 0, rideS: 50, sigmaS: 0.3 },
      { mediaS: 300, rideS: 362, sigmaS: 0.3 },
    ]);
    expect(trouble).toMatchObject({
      kind: "all disagree",
      byS: expect.closeTo(12, 3) as number,
      pair: [
        { mark: 1, mediaS: 0, rideS: 50, residualS: expect.closeTo(-6, 1) as number },
        { mark: 2, mediaS: 300, rideS: 362, residualS: expect.closeTo(6, 1) as number },
      ],
    });
  });

  it("never reads marks that contradict each other as slow motion or time lapse", () => {
    for (const rate of [1 / 8, 1 / 2, 2, 30]) {
      const { clock, trouble } = solveAnchors([
        { mediaS: 0, rideS: 50, sigmaS: 0.3 },
        { mediaS: 80, rideS: 50 + 80 * rate, sigmaS: 0.3 },
      ]);
      expect(trouble).toMatchObject({ kind: "all disagree" });
      expect(Math.abs(clock.rate - 1)).toBeLessThan(200e-6);
    }
  });
});
