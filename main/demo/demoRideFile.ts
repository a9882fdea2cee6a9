import type { DemoTruth } from "./demoTruth.ts";
import { writeFit } from "./writeFit.ts";

/** The demo ride as its rider's bike computer wrote it: the bytes of a FIT file. */
export function demoRideFile(truth: DemoTruth): Uint8Array {
  const { records: r, startUtcMs } = truth;
  return writeFit({
    records: Array.from({ length: r.count }, (_, k) => ({
      utcMs: startUtcMs + k * 1000,
      latDeg: r.latDeg[k]!,
      lonDeg: r.lonDeg[k]!,
      altitudeM: r.altitudeM[k]!,
      heartRateBpm: r.heartRateBpm[k]!,
      cadenceRpm: r.cadenceRpm[k]!,
      distanceM: r.distanceM[k]!,
      speedMps: r.speedMps[k]!,
      powerW: r.powerW[k]!,
    })),
    lapPressesUtcMs: truth.lapPressesS.map((s) => startUtcMs + s * 1000),
    utcOffsetMin: truth.utcOffsetMin,
  });
}
