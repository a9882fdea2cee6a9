import type { DemoTruth } from "./demoTruth.ts";

/** The plan that the demo's rider was given, in the form of a plan file. */
export function demoPlan(truth: DemoTruth): Readonly<Record<string, unknown>> {
  return {
    title: "Steady base, Tarnholt round",
    rider: truth.rider,
    setting: "road",
    target: truth.targetW,
    tolerance: truth.toleranceW,
    warmUp: truth.warmUpS / 60,
    coolDown: truth.coolDownS / 60,
    event: { name: "Aldermoor 45", duration: `${truth.eventS / 60} min` },
    note: { feel: "Fine until the last half hour", heat: "Mild, a little sun", foodAndDrink: "One bottle, one bar" },
  };
}
