import { readdirSync } from "node:fs";
import { join } from "node:path";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { rideSeries } from "../../main/lineup/signals/rideSeries.ts";
import { rideForSignals, type RideForSignals } from "../../main/lineup/signals/memberPlaces.ts";
import { recordingScore } from "../../main/lineup/signals/featureScores.ts";
import { beatenBy } from "../../main/lineup/doubtInherited.ts";
import { seeded, simulateClip } from "../lineup/simulateSignals.ts";
const folder = "/work/shared/data";
const rides: RideForSignals[] = [];
for (const name of readdirSync(join(folder, "fit")).filter((n) => !n.startsWith("bad") && !n.startsWith("odd")).sort()) {
  try { const ride = await readRide(join(folder, "fit", name)); const series = rideSeries(ride);
    if (ride.elapsedS > 2400 && series.speedMps.filter(Number.isFinite).length > 0.3 * series.speedMps.length && series.turning.some(Number.isFinite)) rides.push(rideForSignals(series, ride.elapsedS)); } catch {}
}
const out: Record<string, { right: number[]; wrong: number[]; slow: number[] }> = {};
const n = Number(process.env.PAIRS ?? 200), s0 = Number(process.env.SEED ?? 9001);
for (let k = 0; k < n; k++) {
  const min = [1, 2, 4, 8, 20][k % 5];
  const next = seeded(s0 * 100_003 + k);
  const ride = rides[Math.floor(next() * rides.length)];
  const clip = simulateClip(ride.series, Math.min(min * 60, 0.8 * ride.elapsedS), s0 * 100_000 + k);
  const row = (out[min] ??= { right: [], wrong: [], slow: [] });
  const score = recordingScore(clip.series, ride.prepared);
  if (!score) { row.right.push(NaN); continue; }
  row.right.push(beatenBy(score, clip.startS) ?? NaN);
  row.wrong.push(beatenBy(score, next() * (ride.elapsedS - min * 60)) ?? NaN);
  // slow: 4 times; filmed min/4
  const T = 4; const s = simulateClip(ride.series, min * 60 / T, s0 * 100_000 + 50_000 + k);
  const d = (c: Float64Array | null) => c && Float64Array.from({ length: c.length * T }, (_, i) => c[Math.floor(i / T)]);
  const sc = recordingScore({ motion: d(s.series.motion), sound: null, turning: d(s.series.turning) }, ride.prepared);
  row.slow.push(sc ? beatenBy(sc, s.startS) ?? NaN : NaN);
}
for (const [min, r] of Object.entries(out)) for (const kind of ["right", "wrong", "slow"] as const) {
  const v = r[kind].filter(Number.isFinite).sort((a, b) => a - b);
  const sh = (x: number) => (v.filter((y) => y > x).length / v.length).toFixed(2);
  console.log(min, kind, v.length, "of", r[kind].length, "median", v[v.length >> 1]?.toFixed(3), "share > .05", sh(.05), ".1", sh(.1), ".2", sh(.2), ".3", sh(.3), ".5", sh(.5));
}
