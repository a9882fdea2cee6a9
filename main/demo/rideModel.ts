/**
 * The demo ride: an invented rider on the loop about Lake Ambel, moved by the road-cycling power model of Martin and others
 * (Journal of Applied Biomechanics 1998;14:276-291), with heart rate that follows power and drifts from a known minute.
 */
import { course, degreesAt } from "./course.ts";
import { motionAt, type DemoEvent, type DemoMotion, type DemoRecords, type DemoTruth } from "./demoTruth.ts";
import { bicycle } from "./bicycle.ts";
import { gearFor } from "./gears.ts";
import { rider } from "./rider.ts";
import { seededRandom, wandering } from "./seededRandom.ts";

const STEPS_A_SECOND = 10;

const HEART = {
  /** At target power, settled and fresh, bpm. */
  atTargetBpm: 146,
  /** Beats a watt, and the time constant of the lag, s. */
  beatsPerW: 0.33,
  lagS: 40,
  /** Wander: SD in beats and memory in s. */
  noiseSdBpm: 1.5,
  noiseMemoryS: 55,
};

/**
 * Rides the demo: 2 h 24 min, the same for the same seed.
 *
 * The rider leaves from a standstill at ride time 0 and is still rolling home at the end. The warm-up takes 18 min, the
 * easy way home 14; drift begins at 1 h 26 min with 0.16 beats a minute.
 */
export function demoRide(seed: number): DemoTruth {
  const road = course();
  const durationS = 8640;
  const plan = { targetW: 162, warmUpS: 1080, coolDownS: 840, durationS };
  const asked = rider(plan, road, seed);
  const bike = bicycle(road);
  const steps = durationS * STEPS_A_SECOND;
  const motion: DemoMotion = {
    stepS: 1 / STEPS_A_SECOND,
    distanceM: new Float64Array(steps + 1),
    speedMps: new Float64Array(steps + 1),
    crankTurns: new Float64Array(steps + 1),
    freewheelTurns: new Float64Array(steps + 1),
    brakingMps2: new Float64Array(steps + 1),
  };
  const powerW = new Float64Array(durationS + 1);
  const events = new EventLog();
  let gear = 0;
  for (let second = 0; second < durationS; second++) {
    const effort = asked(second, motion.distanceM[second * STEPS_A_SECOND]!);
    events.note(effort.doing, second);
    let joules = 0;
    for (let sub = 0; sub < STEPS_A_SECOND; sub++) {
      const i = second * STEPS_A_SECOND + sub;
      const moved = bike.step(effort.powerW, motion.stepS, i * motion.stepS);
      motion.distanceM[i + 1] = moved.distanceM;
      motion.speedMps[i + 1] = moved.speedMps;
      motion.brakingMps2[i + 1] = moved.brakingMps2;
      joules += moved.powerW * motion.stepS;
      const way = moved.distanceM - motion.distanceM[i]!;
      gear = gearFor(moved.speedMps, moved.powerW, gear);
      const cranks = moved.powerW > 0 ? way / gear : 0;
      motion.crankTurns[i + 1] = motion.crankTurns[i]! + cranks;
      motion.freewheelTurns[i + 1] = motion.freewheelTurns[i]! + (moved.powerW > 0 ? 0 : way / 2.1);
    }
    powerW[second + 1] = Math.round(joules);
  }
  const onsetS = 86 * 60;
  const driftPerMin = 0.16;
  // He marks the minute in which it began to feel harder.
  const lapPressesS = [onsetS + 12];
  const all: DemoEvent[] = [
    ...events.closed(durationS),
    ...bike.events(),
    {
      kind: "drift onset",
      startS: onsetS,
      endS: onsetS,
      note: `heart rate rises ${driftPerMin} beats a minute from here`,
    },
    ...lapPressesS.map((s): DemoEvent => ({ kind: "lap press", startS: s, endS: s, note: "it begins to feel harder" })),
  ];
  return {
    seed,
    rider: "Teo Marrick",
    course: road,
    startUtcMs: Date.UTC(2026, 3, 12, 2, 34, 46),
    utcOffsetMin: 300,
    ...plan,
    toleranceW: 11,
    eventS: 165 * 60,
    onsetS,
    driftPerMin,
    motion,
    records: recorded(seed, road, motion, powerW, { onsetS, driftPerMin, targetW: plan.targetW }),
    events: all.sort((a, b) => a.startS - b.startS),
    lapPressesS,
  };
}

function recorded(
  seed: number,
  road: DemoTruth["course"],
  motion: DemoMotion,
  powerW: Float64Array,
  heart: { readonly onsetS: number; readonly driftPerMin: number; readonly targetW: number },
): DemoRecords {
  const count = powerW.length;
  const out = {
    count,
    powerW,
    heartRateBpm: new Float64Array(count),
    cadenceRpm: new Float64Array(count),
    speedMps: new Float64Array(count),
    distanceM: new Float64Array(count),
    altitudeM: new Float64Array(count),
    latDeg: new Float64Array(count),
    lonDeg: new Float64Array(count),
  };
  const random = seededRandom(seed + 71);
  const beats = wandering(random, HEART.noiseSdBpm, HEART.noiseMemoryS);
  const pressure = wandering(random, 1.2, 900);
  const fixEast = wandering(random, 1.6, 90);
  const fixNorth = wandering(random, 1.6, 90);
  let lagged = 0;
  for (let k = 0; k < count; k++) {
    lagged += (1 - Math.exp(-1 / HEART.lagS)) * (powerW[k]! - lagged);
    const drift = (heart.driftPerMin * Math.max(0, k - heart.onsetS)) / 60;
    out.heartRateBpm[k] = Math.round(HEART.atTargetBpm + HEART.beatsPerW * (lagged - heart.targetW) + drift + beats());
    const distanceM = motionAt(motion, motion.distanceM, k);
    out.distanceM[k] = distanceM;
    out.speedMps[k] = motionAt(motion, motion.speedMps, k);
    const turns = motionAt(motion, motion.crankTurns, k) - motionAt(motion, motion.crankTurns, k - 1);
    out.cadenceRpm[k] = k === 0 ? 0 : Math.round(turns * 60);
    out.altitudeM[k] = road.elevationMAt(distanceM) + pressure() + 0.12 * random.normal();
    const fix = degreesAt(
      road.eastMAt(distanceM) + fixEast() + 0.15 * random.normal(),
      road.northMAt(distanceM) + fixNorth() + 0.15 * random.normal(),
    );
    out.latDeg[k] = fix.latDeg;
    out.lonDeg[k] = fix.lonDeg;
  }
  return out;
}

/** Turns what the rider does each second into spans. */
class EventLog {
  private readonly done: DemoEvent[] = [];
  private open: { kind: DemoEvent["kind"]; note: string; startS: number } | null = null;

  note(doing: { readonly kind: DemoEvent["kind"]; readonly note: string } | null, second: number): void {
    if (this.open && doing && doing.kind === this.open.kind && doing.note === this.open.note) return;
    this.close(second);
    if (doing) this.open = { ...doing, startS: second };
  }

  closed(endS: number): readonly DemoEvent[] {
    this.close(endS);
    return this.done;
  }

  private close(endS: number): void {
    if (this.open) this.done.push({ ...this.open, endS });
    this.open = null;
  }
}
