import type { ShotBeside } from "../../../main/contract/pair.ts";
import { pairSeries } from "../../../main/film/pairItems.ts";
import { sampleRide } from "./sampleRide.ts";

/** An earlier ride on the sample's road: everywhere 312 s later, without pressure elsewhere, and slower. */
export function earlierRide(): ShotBeside {
  const columns = sampleRide();
  const states = columns.pressureState.map((_, s) => (s >= 4590 && s < 4602 ? 1 : s >= 4640 && s < 4655 ? 6 : 5));
  const firstS = Array.from({ length: 200 }, (_, k) => 4200 + k);
  const series = pairSeries({ ...columns, pressureState: states }, 4500, 4800);
  return {
    name: "16 May",
    panels: ["power", "heartRate", "cadence", "speed", "time"],
    spots: { firstS, secondS: firstS.map((s) => s + 312) },
    series: { ...series, powerW: series.powerW.map((watts) => watts && watts - 16) },
  };
}
