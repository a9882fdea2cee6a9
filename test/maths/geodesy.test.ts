import geodesic from "geographiclib-geodesic";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { circleRadiusM, distanceM, offsetM } from "../../main/maths/geodesy.ts";

// GeographicLib (C. Karney, J Geodesy 2013;87:43), npm geographiclib-geodesic: geodesics on WGS 84 to nanometres.
const earth = geodesic.Geodesic.WGS84;
const lat = fc.double({ min: -70, max: 70, noNaN: true });
const lon = fc.double({ min: -180, max: 180, noNaN: true });

describe("geodesy against GeographicLib", () => {
  test("hops as between records: within 0.01 %", () => {
    fc.assert(
      fc.property(
        lat,
        lon,
        fc.double({ min: 0.5, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (la, lo, m, azimuth) => {
          const to = earth.Direct(la, lo, azimuth, m);
          expect(Math.abs(distanceM(la, lo, to.lat2!, to.lon2!) / m - 1)).toBeLessThan(1e-4);
        },
      ),
      { seed: 12 },
    );
  });

  test("leaps of up to 1000 km: within 0.6 %, as a sphere is", () => {
    fc.assert(
      fc.property(
        lat,
        lon,
        fc.double({ min: 200, max: 1e6, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (la, lo, m, azimuth) => {
          const to = earth.Direct(la, lo, azimuth, m);
          expect(Math.abs(distanceM(la, lo, to.lat2!, to.lon2!) / m - 1)).toBeLessThan(0.006);
        },
      ),
      { seed: 12 },
    );
  });

  test("directions of 10 m to 1 km: within 0.1 degree", () => {
    fc.assert(
      fc.property(
        lat,
        lon,
        fc.double({ min: 10, max: 1000, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (la, lo, m, azimuth) => {
          const to = earth.Direct(la, lo, azimuth, m);
          const { eastM, northM } = offsetM(la, lo, to.lat2!, to.lon2!);
          const off = (Math.atan2(eastM, northM) * 180) / Math.PI - azimuth;
          expect(Math.abs(off - 360 * Math.round(off / 360))).toBeLessThan(0.1);
        },
      ),
      { seed: 12 },
    );
  });
});

test("the same place has no distance; a missing one gives NaN", () => {
  expect(distanceM(47, 11, 47, 11)).toBe(0);
  expect(distanceM(NaN, 11, 47, 11)).toBeNaN();
});

test("over the date line the short way is taken", () => {
  expect(distanceM(0, 179.9999, 0, -179.9999)).toBeLessThan(30);
  expect(offsetM(0, 179.9999, 0, -179.9999).eastM).toBeGreaterThan(0);
});

test("the circle through three of its points", () => {
  const on = (deg: number) => [25 * Math.cos((deg * Math.PI) / 180), 25 * Math.sin((deg * Math.PI) / 180)] as const;
  expect(circleRadiusM(...on(10), ...on(30), ...on(55))).toBeCloseTo(25, 9);
  expect(circleRadiusM(0, 0, 1, 1, 2, 2)).toBe(Infinity);
});
