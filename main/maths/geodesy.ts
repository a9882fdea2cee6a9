/** Mean radius of the earth, m (IUGG R1, 6371008.8). A sphere is within 0.6 % of WGS 84 anywhere, 0.3 % at 45 degrees. */
const EARTH_RADIUS_M = 6371008.8;

const RAD = Math.PI / 180;
/** WGS 84: equatorial radius, m, and square of the first eccentricity (NIMA TR8350.2). */
const A_M = 6378137;
const E2 = 0.00669437999014;

/**
 * Distance between two places, m, on the WGS 84 ellipsoid for short hops (within 0.01 % up to 10 km), on the mean
 * sphere beyond. NaN in, NaN out. Source: radii of curvature of the meridian and the prime vertical, Snyder, Map
 * Projections - A Working Manual, USGS PP 1395, p. 24; haversine for the rest.
 */
export function distanceM(latA: number, lonA: number, latB: number, lonB: number): number {
  const dLat = (latB - latA) * RAD;
  let dLon = (lonB - lonA) * RAD;
  if (dLon > Math.PI) dLon -= 2 * Math.PI;
  else if (dLon < -Math.PI) dLon += 2 * Math.PI;
  if (Math.abs(dLat) < 0.0016 && Math.abs(dLon) < 0.0016) {
    const mid = ((latA + latB) / 2) * RAD;
    const { meridianM, primeM } = radii(mid);
    return Math.hypot(meridianM * dLat, primeM * Math.cos(mid) * dLon);
  }
  const h = Math.sin(dLat / 2) ** 2 + Math.cos(latA * RAD) * Math.cos(latB * RAD) * Math.sin(dLon / 2) ** 2;
  return 2 * EARTH_RADIUS_M * Math.asin(Math.min(1, Math.sqrt(h)));
}

/** East and north of B seen from A, m, in the plane that touches at A; for places up to a few km apart. */
export function offsetM(latA: number, lonA: number, latB: number, lonB: number): { eastM: number; northM: number } {
  const mid = ((latA + latB) / 2) * RAD;
  let dLon = lonB - lonA;
  if (dLon > 180) dLon -= 360;
  else if (dLon < -180) dLon += 360;
  const { meridianM, primeM } = radii(mid);
  return { eastM: primeM * Math.cos(mid) * dLon * RAD, northM: meridianM * (latB - latA) * RAD };
}

/** Radius of the circle through three points of a plane, m: abc / (4 area); Infinity where they lie on a line. */
export function circleRadiusM(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number {
  const doubleArea = Math.abs((bx - ax) * (cy - ay) - (cx - ax) * (by - ay));
  const product = Math.hypot(bx - ax, by - ay) * Math.hypot(cx - bx, cy - by) * Math.hypot(cx - ax, cy - ay);
  return doubleArea < 1e-9 ? Infinity : product / (2 * doubleArea);
}

function radii(latRad: number): { meridianM: number; primeM: number } {
  const w2 = 1 - E2 * Math.sin(latRad) ** 2;
  const primeM = A_M / Math.sqrt(w2);
  return { primeM, meridianM: (primeM * (1 - E2)) / w2 };
}
