import type { Language } from "../contract/languageAndUnits.ts";
import type { DemoTruth } from "./demoTruth.ts";

/** What coach and rider of the demo wrote. */
const WRITTEN: Readonly<
  Record<Language, Readonly<Record<"title" | "event" | "feel" | "heat" | "foodAndDrink", string>>>
> = {
  en: {
    title: "Even pressure, Lake Ambel loop",
    event: "Four Wells stage 2",
    feel: "Light at first, heavier once the wind turned",
    heat: "Cold, 6 degrees and wind",
    foodAndDrink: "Three rice cakes, warm tea",
  },
  de: {
    title: "Gleichmäßiger Druck, Runde um den Ambelsee",
    event: "Vier Brunnen, Etappe 2",
    feel: "Erst leicht, schwerer, als der Wind drehte",
    heat: "Kalt, 6 Grad und Wind",
    foodAndDrink: "Drei Reiskuchen, warmer Tee",
  },
};

/** The plan that the demo's rider was given, in the form of a plan file. */
export function demoPlan(truth: DemoTruth, language: Language = "en"): Readonly<Record<string, unknown>> {
  const { title, event, feel, heat, foodAndDrink } = WRITTEN[language];
  return {
    title,
    rider: truth.rider,
    setting: "road",
    target: truth.targetW,
    tolerance: truth.toleranceW,
    warmUp: truth.warmUpS / 60,
    coolDown: truth.coolDownS / 60,
    event: { name: event, duration: `${truth.eventS / 60} min` },
    note: { feel, heat, foodAndDrink },
  };
}
