import geodesic from "geographiclib-geodesic";
import { describe, expect, it } from "vitest";
import { course } from "../../main/demo/course.ts";

const road = course();

describe("the demo's road", () => {
  it("climbs by exactly its own gradient", () => {
    for (const [fromM, toM] of [
      [9_000, 9_700],
      [15_700, 16_500],
      [42_300, 44_000],
    ] as const) {
      let sumM = 0;
      for (let m = fromM; m < toM; m++) sumM += (road.gradientPercentAt(m) + road.gradientPercentAt(m + 1)) / 200;
      expect(road.elevationMAt(toM) - road.elevationMAt(fromM)).toBeCloseTo(sumM, 9);
    }
  });

  it("has rises of at least 8 m at 2 % or more, as a reading calls a rise", () => {
    for (const rise of road.rises) {
      expect(road.elevationMAt(rise.topM) - road.elevationMAt(rise.startM), rise.name).toBeGreaterThan(8);
      expect(road.gradientPercentAt((rise.startM + rise.topM) / 2), rise.name).toBeGreaterThan(2);
    }
  });

  it("turns through each corner by its angle", () => {
    for (const corner of road.corners) {
      const turnDeg = ((road.headingRadAt(corner.atM + 45) - road.headingRadAt(corner.atM - 10)) * 180) / Math.PI;
      expect(Math.abs(turnDeg - corner.angleDeg), `${corner.atM} m`).toBeLessThan(6);
    }
  });

  // Outside check: GeographicLib's geodesic on WGS84 (Karney 2013).
  it("lays metres of road as metres on the earth", () => {
    let sumM = 0;
    const stepM = 5;
    for (let m = 0; m < 60_000; m += stepM) {
      const a = road.positionAt(m);
      const b = road.positionAt(m + stepM);
      sumM += geodesic.Geodesic.WGS84.Inverse(a.latDeg, a.lonDeg, b.latDeg, b.lonDeg).s12 ?? NaN;
    }
    // Chords across bends are a little short; the tangent strip is good to some parts in ten thousand.
    expect(sumM / 60_000).toBeGreaterThan(0.998);
    expect(sumM / 60_000).toBeLessThan(1.001);
  });

  it("asks for nothing where the lapse is: slight fall, no corner, no steep descent", () => {
    for (let m = road.lapseM; m < road.lapseM + 400; m += 5) {
      expect(road.gradientPercentAt(m)).toBeGreaterThan(-3);
      expect(Math.abs(road.curvatureAt(m))).toBeLessThan(1 / 200);
    }
  });
});
