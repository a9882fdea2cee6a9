/** The camera on the bike: from metres along, beside and above the road to pixels. */
import type { Surface } from "../../../overlay/surface.ts";
import type { Course } from "../course.ts";
import { noise1 } from "./hashNoise.ts";

/** What the scene is painted from: one instant of the ride. */
export interface SceneInstant {
  /** Ride time, s. */
  readonly rideS: number;
  readonly distanceM: number;
  readonly speedMps: number;
  readonly crankTurns: number;
  /** 1 while the legs push, 0 while they rest. */
  readonly pedalling: number;
  /** The level crossing: boom 0 open to 1 down, and where the middle of the train is, m right of the road; null without one. */
  readonly crossing: { readonly boom: number; readonly trainM: number | null };
}

export interface Picture {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** A point in front of the camera: right, up and ahead, m. */
export type Point3 = readonly [number, number, number];

export interface View {
  readonly surface: Surface;
  readonly road: Course;
  readonly at: SceneInstant;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Pixels a unit of slope. */
  readonly focalPx: number;
  readonly centrePx: number;
  readonly horizonPx: number;
  readonly headingRad: number;
  /** Roll of the picture, radians. */
  readonly rollRad: number;
  /** Point at `aheadM` along the road, `sideM` right of its middle, `upM` above its surface. */
  readonly point: (aheadM: number, sideM: number, upM: number) => Point3;
  readonly px: (p: Point3) => number;
  readonly py: (p: Point3) => number;
}

/** Where the rider rides: left of the middle, m. */
const RIDER_SIDE_M = -1.25;
const EYE_M = 1.42;
/** Slopes look flatter through a wide lens than they ride: shown this many times steeper. */
const SLOPE_SHOWN = 1.7;
const NEAR_M = 0.7;

/** Sets up the camera for an instant. */
export function viewAt(surface: Surface, road: Course, at: SceneInstant, picture: Picture): View {
  const { widthPx, heightPx } = picture;
  const s = at.distanceM;
  const h0 = road.headingRadAt(s);
  const east0 = road.eastMAt(s);
  const north0 = road.northMAt(s);
  const up0 = road.elevationMAt(s);
  const sin0 = Math.sin(h0);
  const cos0 = Math.cos(h0);
  const focalPx = widthPx * 0.66;
  const pace = Math.min(1, at.speedMps / 9);
  // Road buzz, and the body's sway over the cranks.
  const buzz = (salt: number, rate: number): number => (noise1(at.rideS * rate, salt) - 0.5) * 2 * pace;
  const sway = at.pedalling * Math.sin(at.crankTurns * 2 * Math.PI);
  const nod = at.pedalling * Math.sin(at.crankTurns * 4 * Math.PI);
  const lean = Math.atan((at.speedMps ** 2 * road.curvatureAt(s)) / 9.81);
  const grade = (road.gradientPercentAt(s) / 100) * SLOPE_SHOWN;
  // A rider looks into the bend.
  const lookRad = Math.max(-0.5, Math.min(0.5, (road.headingRadAt(s + 5 + at.speedMps * 0.7) - h0) * 0.45));
  const sinL = Math.sin(lookRad);
  const cosL = Math.cos(lookRad);
  const unit = widthPx / 640;
  const horizonPx = heightPx * 0.405 + focalPx * grade * 0.55 + (nod * 1.1 + buzz(1, 11) * 1.2) * unit;
  const centrePx = widthPx / 2 + (sway * 1.6 + buzz(2, 7) * 1.0) * unit;
  const point = (aheadM: number, sideM: number, upM: number): Point3 => {
    const d = s + aheadM;
    const h = road.headingRadAt(d);
    const e = road.eastMAt(d) - east0 + Math.cos(h) * sideM - cos0 * RIDER_SIDE_M;
    const n = road.northMAt(d) - north0 - Math.sin(h) * sideM + sin0 * RIDER_SIDE_M;
    const right = cos0 * e - sin0 * n;
    const ahead = sin0 * e + cos0 * n;
    const up = (road.elevationMAt(d) - up0) * SLOPE_SHOWN + upM - EYE_M;
    return [cosL * right - sinL * ahead, up, sinL * right + cosL * ahead];
  };
  return {
    surface,
    road,
    at,
    widthPx,
    heightPx,
    focalPx,
    centrePx,
    horizonPx,
    headingRad: h0 + lookRad,
    rollRad: -lean * 0.5 + sway * 0.007 + buzz(3, 5) * 0.004,
    point,
    px: (p) => centrePx + (focalPx * p[0]) / p[2],
    py: (p) => horizonPx - (focalPx * p[1]) / p[2],
  };
}

/**
 * Fills polygons given in metres with one style, cut off where they would lie behind the lens. Many small ones in one
 * call cost little more than one.
 */
export function fillPolygons(view: View, polygons: readonly (readonly Point3[])[], style: string): void {
  const { surface } = view;
  let any = false;
  surface.beginPath();
  for (const points of polygons) any = trace(view, points) || any;
  if (!any) return;
  surface.fillStyle = style;
  surface.fill();
}

/** Fills one polygon given in metres. */
export function fillPolygon(view: View, points: readonly Point3[], style: string): void {
  fillPolygons(view, [points], style);
}

function trace(view: View, points: readonly Point3[]): boolean {
  const { surface } = view;
  let started = false;
  const to = (p: Point3): void => {
    const x = Math.max(-4 * view.widthPx, Math.min(5 * view.widthPx, view.px(p)));
    const y = Math.max(-4 * view.heightPx, Math.min(5 * view.heightPx, view.py(p)));
    if (started) surface.lineTo(x, y);
    else surface.moveTo(x, y);
    started = true;
  };
  for (let i = 0; i < points.length; i++) {
    const a = points[i]!;
    const b = points[(i + 1) % points.length]!;
    if (a[2] >= NEAR_M) to(a);
    if (a[2] >= NEAR_M !== b[2] >= NEAR_M) {
      const share = (NEAR_M - a[2]) / (b[2] - a[2]);
      to([a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]), NEAR_M]);
    }
  }
  return started;
}
