/**
 * Power on a bicycle by the published road-cycling model.
 *
 * Source: Martin, Milliken, Cobb, McFadden & Coggan, J Appl Biomech 1998;14:276-291. The equation and its constants are
 * held to the paper's own worked example (213 W) by test/maths/roadPower.test.ts.
 */

/** Standard gravity as the paper rounds it, m/s2. */
const GRAVITY_MPS2 = 9.81;
/** Drag area that turning spokes add, m2. */
const SPOKE_DRAG_AREA_M2 = 0.0044;
/** Both wheels' moment of inertia, kg m2, and the tyre's outside radius, m: their rotation acts as added mass. */
const WHEEL_INERTIA_KGM2 = 0.14;
const WHEEL_RADIUS_M = 0.311;
/** Share of the crank's power that a clean chain hands to the wheel. */
const CHAIN_EFFICIENCY = 0.97698;

/** What a rider and a bicycle bring to the model. */
export interface RoadRider {
  /** Rider, bicycle and all that is carried, kg. */
  readonly massKg: number;
  /** Drag area (CdA), m2. */
  readonly dragAreaM2: number;
  /** Coefficient of rolling resistance, no unit. */
  readonly rollingCoefficient: number;
  /** Air density, kg/m3. */
  readonly airDensityKgPerM3: number;
}

/** A middling rider on a road bicycle, hands on the hoods, in mild air: for demo rides and for telling braking from rolling. */
export const middlingRider: RoadRider = {
  massKg: 82,
  dragAreaM2: 0.32,
  rollingCoefficient: 0.004,
  airDensityKgPerM3: 1.2,
};

/** One steady stretch of road, ridden from one speed to another. */
export interface RoadStretch {
  /** Mean speed over ground, m/s, at least 0. */
  readonly speedMps: number;
  /** Rise over run, positive uphill (0.03 is 3 %). */
  readonly grade: number;
  /** Wind against the rider, m/s; a tailwind is negative. */
  readonly headwindMps: number;
  /** Change of speed a second, m/s2. */
  readonly accelerationMps2: number;
}

/** Where the power goes, W; every part may be negative (a descent gives power, a strong tailwind pushes). */
export interface RoadPowerParts {
  readonly airW: number;
  readonly rollingW: number;
  readonly bearingsW: number;
  readonly climbW: number;
  readonly accelerationW: number;
  /** At the cranks: the sum of the parts over the chain's efficiency. */
  readonly totalW: number;
}

/** Mass that must be sped up: the real one and the wheels' rotation, kg. */
function inertialMassKg(rider: RoadRider): number {
  return rider.massKg + WHEEL_INERTIA_KGM2 / (WHEEL_RADIUS_M * WHEEL_RADIUS_M);
}

/**
 * Power at the cranks that a stretch of road asks for, W, in its parts.
 *
 * Negative totals mean that the bicycle would have to be braked to keep to this speed.
 */
export function roadPowerW(rider: RoadRider, stretch: RoadStretch): RoadPowerParts {
  const { speedMps, grade, headwindMps: wind, accelerationMps2 } = stretch;
  const airSpeedMps = speedMps + wind;
  const slope = Math.atan(grade);
  const airN =
    0.5 * rider.airDensityKgPerM3 * (rider.dragAreaM2 + SPOKE_DRAG_AREA_M2) * airSpeedMps * Math.abs(airSpeedMps);
  const airW = airN * speedMps;
  const rollingW = speedMps * rider.rollingCoefficient * rider.massKg * GRAVITY_MPS2 * Math.cos(slope);
  const bearingsW = speedMps * (91 + 8.7 * speedMps) * 1e-3;
  const climbW = speedMps * rider.massKg * GRAVITY_MPS2 * Math.sin(slope);
  const accelerationW = inertialMassKg(rider) * speedMps * accelerationMps2;
  const totalW = (airW + rollingW + bearingsW + climbW + accelerationW) / CHAIN_EFFICIENCY;
  return { airW, rollingW, bearingsW, climbW, accelerationW, totalW };
}

/**
 * How fast a bicycle that nobody pedals or brakes slows down in still air, m/s2; negative where a descent speeds it up.
 *
 * Only below a negligible speed is the result 0. It tells rolling from braking, and nothing about a rider's true power.
 */
export function freeRollDecelerationMps2(rider: RoadRider, speedMps: number, grade: number): number {
  if (!(speedMps > 0.1)) return 0;
  const { airW, rollingW, bearingsW, climbW } = roadPowerW(rider, {
    speedMps,
    grade,
    headwindMps: 0,
    accelerationMps2: 0,
  });
  return (airW + rollingW + bearingsW + climbW) / speedMps / inertialMassKg(rider);
}

/**
 * Acceleration that a power at the cranks gives, m/s2, at this speed and on this stretch (its own acceleration is not used).
 *
 * The speed is taken as at least 0.5 m/s, so that pulling away from a standstill stays finite.
 */
export function accelerationAtMps2(rider: RoadRider, powerW: number, stretch: RoadStretch): number {
  const speedMps = Math.max(stretch.speedMps, 0.5);
  const parts = roadPowerW(rider, { ...stretch, speedMps, accelerationMps2: 0 });
  const resistW = parts.totalW * CHAIN_EFFICIENCY;
  return (CHAIN_EFFICIENCY * powerW - resistW) / (speedMps * inertialMassKg(rider));
}

/**
 * Speed at which a power at the cranks just keeps the bicycle rolling, m/s, by bisection between 0 and 40 m/s.
 */
export function steadySpeedMps(rider: RoadRider, powerW: number, grade: number, wind = 0): number {
  let low = 0;
  let high = 40;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    const asked = roadPowerW(rider, { speedMps: middle, grade, headwindMps: wind, accelerationMps2: 0 }).totalW;
    if (asked > powerW) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
