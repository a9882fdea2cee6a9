/**
 * The demo's road: the loop about Lake Ambel, an invented rolling road over a steppe. Every quantity is a known function of the distance
 * ridden, so that a test can ask what the truth was at any metre.
 */

/** A rise: uphill of at least 2 % that climbs at least 8 m. */
export interface Rise {
  readonly name: string;
  /** Where the slope begins and where the crest is, m of course. */
  readonly startM: number;
  readonly topM: number;
  readonly gradientPercent: number;
  /** Ridden hard: a surge at the foot, above the band to the top, then so many seconds of coasting over; null: ridden evenly. */
  readonly offOverTopS: number | null;
}

/** A sharp bend that has to be braked for. Positive angle turns right. */
interface Corner {
  readonly atM: number;
  readonly angleDeg: number;
  readonly radiusM: number;
}

/** A place where the rider comes to a halt. */
interface StopPlace {
  /** Where the front wheel comes to rest, m. */
  readonly atM: number;
  readonly kind: "give way" | "level crossing";
  /** How long the wheels stand still, s. */
  readonly standS: number;
}

export interface Course {
  readonly name: string;
  /** Metres of road that are defined; past it everything keeps its last value. */
  readonly lengthM: number;
  readonly rises: readonly Rise[];
  readonly corners: readonly Corner[];
  readonly stops: readonly StopPlace[];
  /** The rails of the level crossing, m. */
  readonly railsM: number;
  /** Where the coasting lapse begins, m. */
  readonly lapseM: number;
  /** Stretches of wood on both sides, m. */
  readonly woods: readonly { readonly startM: number; readonly endM: number }[];
  /** Gradient of the road, percent (rise over run x 100), uphill positive. */
  readonly gradientPercentAt: (distanceM: number) => number;
  /** Height above sea level, m. */
  readonly elevationMAt: (distanceM: number) => number;
  /** Direction of the road, radians clockwise from north, unwrapped. */
  readonly headingRadAt: (distanceM: number) => number;
  /** Curvature of the road, 1/m, right positive. */
  readonly curvatureAt: (distanceM: number) => number;
  /** Metres east and north of the start. */
  readonly eastMAt: (distanceM: number) => number;
  readonly northMAt: (distanceM: number) => number;
  /** WGS84 degrees. */
  readonly positionAt: (distanceM: number) => { readonly latDeg: number; readonly lonDeg: number };
}

const LENGTH_M = 80_000;

/**
 * The place is made up; its coordinates lie in a desert steppe of Central Asia, hundreds of
 * kilometres from any house or made road, so that no map of the demo shows where somebody lives.
 */
const START_LAT_DEG = 45.38;
const START_LON_DEG = 70.64;
const START_ELEVATION_M = 318;

// startM, climb length, gradient; after each crest the road falls again over `fallM`.
const RISES: readonly (Rise & { readonly fallM: number; readonly fallPercent: number })[] = [
  rise("Kiln Step", 5_300, 420, 2.8, null, 700, -1.6),
  rise("Saddler's Rise", 9_200, 460, 3.6, 12, 780, -2.1),
  rise("Crane Hill", 13_100, 520, 3.2, 9, 800, -2.0),
  rise("Salt Road", 19_900, 900, 2.4, null, 1_100, -1.9),
  rise("Red Cut", 24_700, 480, 4.0, 13, 850, -2.2),
  rise("Signal Rise", 28_900, 640, 3.4, 11, 950, -2.2),
  rise("Reed Spur", 33_300, 420, 3.0, null, 620, -2.0),
  rise("Frost Gap", 38_100, 560, 3.7, 13, 900, -2.3),
  rise("Falcon Top", 42_300, 760, 4.2, null, 580, -5.4),
  rise("Camel Brow", 47_000, 440, 3.5, 18, 700, -2.1),
  rise("Well Track", 51_600, 500, 2.6, null, 620, -2.0),
  rise("Clay Ramp", 55_900, 460, 3.8, 12, 800, -2.1),
  rise("Shore Rise", 60_800, 380, 3.0, null, 560, -2.0),
];

function rise(
  name: string,
  startM: number,
  lengthM: number,
  gradientPercent: number,
  offOverTopS: number | null,
  fallM: number,
  fallPercent: number,
): Rise & { readonly fallM: number; readonly fallPercent: number } {
  return { name, startM, topM: startM + lengthM, gradientPercent, offOverTopS, fallM, fallPercent };
}

const LAPSE_M = 15_980;
const CROSSING_STOP_M = 16_600;

// A slight, steady fall where nothing asks for coasting.
const GENTLE_FALLS = [{ startM: 15_700, endM: 16_420, percent: -1.2 }];

const CORNERS: readonly Corner[] = [
  { atM: 2_600, angleDeg: 88, radiusM: 14 },
  { atM: 7_400, angleDeg: -76, radiusM: 16 },
  { atM: 11_300, angleDeg: 84, radiusM: 15 },
  { atM: 16_445, angleDeg: 82, radiusM: 15 },
  { atM: 21_900, angleDeg: -70, radiusM: 18 },
  { atM: 27_300, angleDeg: 90, radiusM: 14 },
  { atM: 31_700, angleDeg: 74, radiusM: 16 },
  { atM: 36_400, angleDeg: -80, radiusM: 15 },
  { atM: 45_000, angleDeg: 86, radiusM: 15 },
  { atM: 49_700, angleDeg: 92, radiusM: 14 },
  { atM: 54_200, angleDeg: -68, radiusM: 18 },
  { atM: 58_000, angleDeg: 88, radiusM: 15 },
  { atM: 63_900, angleDeg: 80, radiusM: 15 },
];

const STOPS: readonly StopPlace[] = [
  { atM: 7_380, kind: "give way", standS: 5 },
  { atM: CROSSING_STOP_M, kind: "level crossing", standS: 38 },
  { atM: 44_985, kind: "give way", standS: 9 },
];

const WOODS = [
  { startM: 3_000, endM: 4_300 },
  { startM: 15_560, endM: 15_860 },
  { startM: 22_400, endM: 23_500 },
  { startM: 29_250, endM: 29_700 },
  { startM: 36_900, endM: 37_500 },
  { startM: 45_900, endM: 46_500 },
  { startM: 52_600, endM: 53_700 },
];

/** Lays out the course: tables at every metre, made once. */
export function course(): Course {
  const n = LENGTH_M + 1;
  const gradient = smoothed(rawGradient(n), 30);
  const curvature = smoothed(rawCurvature(n), 4);
  const elevation = new Float64Array(n);
  const heading = new Float64Array(n);
  const east = new Float64Array(n);
  const north = new Float64Array(n);
  elevation[0] = START_ELEVATION_M;
  heading[0] = 0.35;
  for (let m = 1; m < n; m++) {
    elevation[m] = elevation[m - 1]! + (gradient[m - 1]! + gradient[m]!) / 200;
    heading[m] = heading[m - 1]! + (curvature[m - 1]! + curvature[m]!) / 2;
    const along = (heading[m - 1]! + heading[m]!) / 2;
    east[m] = east[m - 1]! + Math.sin(along);
    north[m] = north[m - 1]! + Math.cos(along);
  }
  const eastMAt = lookUp(east);
  const northMAt = lookUp(north);
  return {
    name: "Lake Ambel loop",
    lengthM: LENGTH_M,
    rises: RISES,
    corners: CORNERS,
    stops: STOPS,
    railsM: CROSSING_STOP_M + 14.5,
    lapseM: LAPSE_M,
    woods: WOODS,
    gradientPercentAt: lookUp(gradient),
    elevationMAt: lookUp(elevation),
    headingRadAt: lookUp(heading),
    curvatureAt: lookUp(curvature),
    eastMAt,
    northMAt,
    positionAt: (distanceM) => degreesAt(eastMAt(distanceM), northMAt(distanceM)),
  };
}

function rawGradient(n: number): Float64Array {
  const out = new Float64Array(n);
  // Small waves of the land, so that no stretch is dead flat.
  for (let m = 0; m < n; m++) out[m] = 0.45 * Math.sin(m / 172) + 0.35 * Math.sin(m / 61 + 1.3);
  const lay = (fromM: number, toM: number, percent: number): void => {
    for (let m = fromM; m < toM; m++) out[m] = percent + 0.3 * out[m]!;
  };
  for (const r of RISES) {
    lay(r.startM, r.topM, r.gradientPercent);
    lay(r.topM, r.topM + 50, 0.2);
    lay(r.topM + 50, r.topM + 50 + r.fallM, r.fallPercent);
  }
  for (const f of GENTLE_FALLS) lay(f.startM, f.endM, f.percent);
  for (const s of STOPS) lay(s.atM - 120, s.atM + 60, 0);
  return out;
}

function rawCurvature(n: number): Float64Array {
  const out = new Float64Array(n);
  // Country road: it never runs straight for long. About +-14 deg of wander.
  for (let m = 0; m < n; m++)
    out[m] = 0.0021 * Math.sin(m / 83) + 0.0013 * Math.sin(m / 37.7 + 0.7) * Math.sin(m / 410);
  for (const s of STOPS) out.fill(0, s.atM - 90, s.atM + 140);
  for (const c of CORNERS) {
    const angleRad = (c.angleDeg * Math.PI) / 180;
    const lengthM = Math.round(Math.abs(angleRad) * c.radiusM);
    out.fill(0, c.atM - 70, c.atM);
    out.fill(0, c.atM + lengthM, c.atM + lengthM + 30);
    for (let m = c.atM; m < c.atM + lengthM; m++) out[m] = angleRad / lengthM;
  }
  return out;
}

/** Mean over +-half metres, which keeps sums. */
function smoothed(values: Float64Array, half: number): Float64Array {
  const n = values.length;
  const sums = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) sums[i + 1] = sums[i]! + values[i]!;
  return values.map((_, i) => {
    const from = Math.max(0, i - half);
    const to = Math.min(n, i + half + 1);
    return (sums[to]! - sums[from]!) / (to - from);
  });
}

function lookUp(table: Float64Array): (distanceM: number) => number {
  const last = table.length - 1;
  return (distanceM) => {
    if (!(distanceM > 0)) return table[0]!;
    if (distanceM >= last) return table[last]!;
    const i = Math.floor(distanceM);
    return table[i]! + (distanceM - i) * (table[i + 1]! - table[i]!);
  };
}

// Radii of curvature of the WGS84 ellipsoid at the start (a, e2: NIMA TR8350.2).
const E2 = 0.00669437999014;
const SIN2 = Math.sin((START_LAT_DEG * Math.PI) / 180) ** 2;
const PRIME_VERTICAL_M = 6378137 / Math.sqrt(1 - E2 * SIN2);
const MERIDIAN_M = (PRIME_VERTICAL_M * (1 - E2)) / (1 - E2 * SIN2);

/** Degrees of a point given in metres east and north of the start, on the ellipsoid's tangent strip. */
export function degreesAt(eastM: number, northM: number): { readonly latDeg: number; readonly lonDeg: number } {
  const latDeg = START_LAT_DEG + ((northM / MERIDIAN_M) * 180) / Math.PI;
  const parallelM = PRIME_VERTICAL_M * Math.cos((latDeg * Math.PI) / 180);
  return { latDeg, lonDeg: START_LON_DEG + ((eastM / parallelM) * 180) / Math.PI };
}
