import { differencesOf } from "../support/differences.ts";
import { bareRidePlan, ridesWithSensors, sensiblePlan, wordsOf } from "../support/rideWords.ts";

/** Compares all outputs of every ride field by field, with a sensible plan and with none, and prints what differs. */
export async function sameEverywhere(folders: readonly string[]): Promise<void> {
  let fields = 0;
  let differing = 0;
  const rides = await ridesWithSensors(folders);
  for (const { name, ride } of rides)
    for (const plan of [sensiblePlan(ride), bareRidePlan(ride)]) {
      const said = (language: "en" | "de") => wordsOf(ride, plan, { language, filmed: plan.title !== null });
      const compared = await differencesOf(await said("en"), await said("de"));
      fields += compared.fields;
      differing += compared.differences.length;
      for (const one of compared.differences) console.log(`${name}: ${one}`);
    }
  console.log(`${rides.length} rides, each with a plan and without: ${fields} fields compared, ${differing} differ`);
}
