/** Bicycle, brakes and road of the demo: where power and the road's corners and stops take the rider. */
import { accelerationAtMps2, middlingRider } from "../maths/roadPower.ts";
import type { Course } from "./course.ts";
import type { DemoEvent } from "./demoTruth.ts";

interface Moved {
  readonly distanceM: number;
  readonly speedMps: number;
  /** What really went into the cranks, W: 0 while braking, cornering or standing. */
  readonly powerW: number;
  readonly brakingMps2: number;
}

export interface Bicycle {
  /** Goes on by `stepS` with the power asked for; call in order of time. */
  readonly step: (askedW: number, stepS: number, timeS: number) => Moved;
  /** Corners and stops so far. */
  readonly events: () => readonly DemoEvent[];
}

/** Sideways pull that the rider allows in a corner, and how firmly the brakes are used, m/s2. */
const CORNER_PULL_MPS2 = 1.9;
const BRAKING_MPS2 = 1.35;

interface Ahead {
  readonly kind: "corner" | "give way" | "level crossing";
  readonly atM: number;
  /** Last metre at which the limit holds. */
  readonly untilM: number;
  readonly limitMps: number;
  readonly standS: number;
}

/** A bicycle at rest at the start of the course. */
export function bicycle(road: Course): Bicycle {
  const ahead: Ahead[] = [
    ...road.corners.map((c): Ahead => {
      const lengthM = (Math.abs(c.angleDeg) * Math.PI * c.radiusM) / 180;
      const limitMps = Math.sqrt(CORNER_PULL_MPS2 * c.radiusM);
      return { kind: "corner", atM: c.atM, untilM: c.atM + 0.7 * lengthM, limitMps, standS: 0 };
    }),
    ...road.stops.map((s): Ahead => ({ kind: s.kind, atM: s.atM, untilM: s.atM, limitMps: 0, standS: s.standS })),
  ].sort((a, b) => a.atM - b.atM);
  const events: DemoEvent[] = [];
  let next = 0;
  let distanceM = 0;
  let speedMps = 0;
  let standUntilS = -1;
  let cornerSinceS = -1;

  const standing = (): Moved => ({ distanceM, speedMps: 0, powerW: 0, brakingMps2: 0 });

  const step = (askedW: number, stepS: number, timeS: number): Moved => {
    if (timeS < standUntilS - stepS / 2) return standing();
    const place = ahead[next];
    let brakingMps2 = 0;
    let coasting = false;
    if (place) {
      const leftM = place.atM - distanceM;
      if (leftM > 0) {
        const needed = (speedMps ** 2 - place.limitMps ** 2) / (2 * leftM);
        if (needed > BRAKING_MPS2) brakingMps2 = needed;
        coasting = needed > 0.55;
      } else {
        coasting = true;
        if (place.kind === "corner" && cornerSinceS < 0) cornerSinceS = timeS;
        if (speedMps > place.limitMps) brakingMps2 = 1;
      }
    }
    const powerW = coasting ? 0 : Math.min(askedW, 45 + 95 * speedMps);
    const grade = road.gradientPercentAt(distanceM) / 100;
    const rolling = accelerationAtMps2(middlingRider, powerW, { speedMps, grade, headwindMps: 0, accelerationMps2: 0 });
    // The brakes do what free rolling does not yet do.
    const pull = brakingMps2 > 0 ? Math.min(rolling, -brakingMps2) : rolling;
    const before = speedMps;
    speedMps = Math.max(0, speedMps + pull * stepS);
    distanceM += ((before + speedMps) / 2) * stepS;
    if (
      place &&
      place.standS > 0 &&
      (place.atM - distanceM < 0.05 || (speedMps < 0.3 && place.atM - distanceM < 0.6))
    ) {
      speedMps = 0;
      standUntilS = timeS + stepS + place.standS;
      events.push({
        kind: place.kind === "corner" ? "give way" : place.kind,
        startS: timeS + stepS,
        endS: standUntilS,
        note: "wheels stand still",
      });
      next++;
    } else if (place && place.standS === 0 && distanceM > place.untilM) {
      events.push({
        kind: "corner",
        startS: cornerSinceS < 0 ? timeS : cornerSinceS,
        endS: timeS,
        note: "taken with the cranks at rest",
      });
      cornerSinceS = -1;
      next++;
    }
    return { distanceM, speedMps, powerW, brakingMps2: Math.max(0, Math.min(brakingMps2, rolling - pull)) };
  };
  return { step, events: () => events };
}
