/** How the demo's rider chooses power: a plan held honestly, with the habits that a coach would want to see. */
import type { Course, Rise } from "./course.ts";
import { seededRandom, wandering } from "./seededRandom.ts";
import type { DemoEventKind } from "./demoTruth.ts";

export interface RidePlan {
  readonly targetW: number;
  readonly warmUpS: number;
  readonly coolDownS: number;
  readonly durationS: number;
}

export interface Effort {
  /** Power asked of the legs for the coming second, W; 0 is free-rolling. */
  readonly powerW: number;
  /** What the rider is doing, when it is one of the events; null when just riding. */
  readonly doing: { readonly kind: DemoEventKind; readonly note: string } | null;
}

const LAPSE_S = 40;

/**
 * A rider with a memory: call once a second, in order.
 *
 * In the main part power stays near the target (wander of SD 4 W over a minute, 9 W over a few seconds); rises ridden
 * hard begin with a surge, stay above the band and end in coasting; once there is a lapse; now and then a few seconds
 * of freewheeling.
 */
export function rider(plan: RidePlan, road: Course, seed: number): (timeS: number, distanceM: number) => Effort {
  const random = seededRandom(seed);
  const slow = wandering(random, 4, 60);
  const quick = wandering(random, 9, 3);
  let surgeLeftS = 0;
  let coastLeftS = 0;
  let coast: Effort["doing"] = null;
  let onRise: Rise | null = null;
  let lapseDone = false;
  let nextShortS = plan.warmUpS + 160;
  return (timeS, distanceM) => {
    const waver = slow() + quick();
    if (timeS < plan.warmUpS) return just(plan.targetW * (0.6 + (0.34 * timeS) / plan.warmUpS) + waver);
    if (timeS >= plan.durationS - plan.coolDownS) {
      const left = plan.durationS - timeS;
      return just(left < 25 ? 60 : plan.targetW * (0.52 + (0.18 * left) / plan.coolDownS) + waver);
    }
    if (coastLeftS > 0) {
      coastLeftS--;
      return { powerW: 0, doing: coast };
    }
    if (!lapseDone && distanceM >= road.lapseM) {
      lapseDone = true;
      coastLeftS = LAPSE_S - 1;
      coast = { kind: "lapse", note: "looks about and forgets to pedal" };
      return { powerW: 0, doing: coast };
    }
    const here =
      road.rises.find((r) => r.offOverTopS !== null && distanceM >= r.startM - 6 && distanceM < r.topM + 12) ?? null;
    if (here && here !== onRise) {
      onRise = here;
      surgeLeftS = 8 + Math.floor(6 * random.uniform());
    }
    if (!here && onRise) {
      const over = onRise;
      onRise = null;
      coastLeftS = (over.offOverTopS ?? 0) - 1;
      coast = { kind: "rest over the top", note: over.name };
      nextShortS = Math.max(nextShortS, timeS + 240);
      return { powerW: 0, doing: coast };
    }
    if (here) {
      const surging = surgeLeftS-- > 0;
      return surging
        ? { powerW: 1.58 * plan.targetW + waver, doing: { kind: "surge", note: here.name } }
        : { powerW: 1.17 * plan.targetW + 0.7 * waver, doing: { kind: "climb", note: here.name } };
    }
    const gradient = road.gradientPercentAt(distanceM);
    // About the lapse nothing else distracts.
    const lapseSoon = distanceM > road.lapseM - 2_500 && distanceM < road.lapseM + 1_800;
    // Nor does he rest over the top of a rise that she took evenly.
    const overTop = road.rises.some((r) => distanceM > r.topM - 60 && distanceM < r.topM + 650);
    if (timeS >= nextShortS && gradient < 0.5 && !lapseSoon && !overTop) {
      nextShortS = timeS + 200 + Math.floor(260 * random.uniform());
      coastLeftS = 2 + Math.floor(4 * random.uniform());
      coast = { kind: "short coast", note: "a breath" };
      return { powerW: 0, doing: coast };
    }
    // A little more uphill, a little less down: nobody is a machine.
    return just(plan.targetW + 0.9 * Math.max(-3, Math.min(3, gradient)) + waver);
  };
}

function just(powerW: number): Effort {
  return { powerW: Math.max(0, powerW), doing: null };
}
