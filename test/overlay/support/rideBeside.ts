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

/** The same, a tenth slower from a spot on, and played by time from there. */
export function byTime(beside: ShotBeside): ShotBeside {
  const { firstS, secondS } = beside.spots;
  const fromS = 4250;
  const fromK = firstS.indexOf(fromS);
  const later = secondS.map((s, k) => (k <= fromK ? s : secondS[fromK]! + 1.4 * (s - secondS[fromK]!)));
  return { ...beside, byTimeFromS: fromS, spots: { firstS, secondS: later } };
}
