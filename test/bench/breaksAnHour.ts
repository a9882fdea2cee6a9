import { readdirSync } from "node:fs";
import { join } from "node:path";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { read } from "../../main/reading/read.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";

/**
 * Prints breaks and lapses an hour of the counted part of every ride file in some folders, read as a road ride without a
 * plan (as a trainer ride where the file holds no places), with the reasons. Files that can't be read are passed over.
 */
export async function breaksAnHour(folders: readonly string[]): Promise<void> {
  console.log(
    `${"ride".padEnd(36)}${["hours", "breaks/h", "10 s/h", "lapses/h", "unclear/h"].map((name) => name.padStart(11)).join("")}  judged by`,
  );
  for (const folder of folders) {
    for (const name of readdirSync(folder).sort()) {
      const ride = await readRide(join(folder, name)).catch(() => null);
      if (ride === null) continue;
      const setting = ride.grid.position === null ? "trainer" : "road";
      const { breaks, counted, pressure } = read(ride, defaultPlan({ setting }), []);
      const hours = counted.stretches.reduce((sum, one) => sum + one.endS - one.startS, 0) / 3600;
      if (hours < 0.1) continue;
      const by = !pressure.cranksKnown ? "nothing" : ride.grid.power ? `power, ${setting}` : `cadence, ${setting}`;
      const long = breaks.filter(({ startS, endS }) => endS - startS >= 10);
      const rates = pressure.cranksKnown
        ? [breaks.length, long.length, pressure.lapses, breaks.filter(({ excused }) => excused === null).length].map(
            (number) => (number / hours).toFixed(1),
          )
        : ["-", "-", "-", "-"];
      console.log(`${name.padEnd(36)}${[hours.toFixed(2), ...rates].map((text) => text.padStart(11)).join("")}  ${by}`);
    }
  }
}
