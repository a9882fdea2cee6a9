import { durationText } from "../../overlay/words/numbers.ts";
import { bareRidePlan, ridesWithSensors, sensiblePlan, wordsOf } from "../support/rideWords.ts";

/**
 * Prints what message, page and film say of every ride with power or heart rate, with a sensible plan (wholly filmed) and
 * with none (a film of cards), for a person to read as a coach. FOLLOWCAR_BENCH_LANGUAGE=de says it in German.
 */
export async function allWords(folders: readonly string[]): Promise<void> {
  const language = process.env.FOLLOWCAR_BENCH_LANGUAGE === "de" ? "de" : "en";
  for (const { name, ride } of await ridesWithSensors(folders))
    for (const planned of [true, false]) {
      const plan = planned ? sensiblePlan(ride) : bareRidePlan(ride);
      const said = await wordsOf(ride, plan, { language, filmed: planned });
      console.log(
        `\n######## ${name}, ${durationText(ride.elapsedS)}, ${plan.setting}, ${planned ? "planned" : "no plan"}` +
          `${ride.grid.power === null ? ", no power" : ""}${ride.grid.heartRate === null ? ", no heart rate" : ""}`,
      );
      console.log(`-- message\n${said.message}-- film\n${said.film.join("\n")}\n-- page\n${said.page}`);
    }
}
