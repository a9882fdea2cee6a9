import type { Clip } from "../../main/contract/footage.ts";
import type { Lineup } from "../../main/contract/lineup.ts";
import type { Plan } from "../../main/contract/plan.ts";
import { PressureState, type Moment, type Reading } from "../../main/contract/reading.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { tellStory } from "../../main/film/tellStory.ts";
import { debriefFacts } from "../../main/reading/facts/debriefFacts.ts";
import type { DebriefStory } from "../../overlay/words/debriefStory.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { makeRide } from "../support/makeRide.ts";
import { placedBecause } from "../../main/contract/notices/placement.ts";

/** Two hours at about `targetW`, a lapse of 42 s at 0:50:00, three hard rises, a heart that climbs from 1:20:00. */
export function madeRide(targetW = 230, beatsMore = 0): Ride {
  const seconds = 7200;
  const at = (f: (t: number) => number): number[] => Array.from({ length: seconds }, (_, t) => f(t));
  const hard = [1800, 4200, 6000];
  return makeRide({
    powerW: at((t) => {
      if (t >= 3000 && t < 3042) return 0;
      for (const start of hard) {
        if (t >= start && t < start + 60) return targetW + 95;
        if (t >= start + 60 && t < start + 72) return 0;
      }
      return targetW + Math.round(8 * Math.sin(t / 7));
    }),
    heartRateBpm: at((t) => beatsMore + 138 + Math.round(Math.sin(t / 50)) + Math.max(0, Math.round((t - 4800) / 240))),
    cadenceRpm: at((t) => 88 + Math.round(2 * Math.sin(t / 11))),
    speedMps: at(() => 9),
    altitudeM: at((t) => 100 + 10 * Math.sin(t / 300)),
    latDeg: at((t) => 47.123456 + t * 1e-5),
    lonDeg: at((t) => 11.654321 + t * 1e-5),
    fileName: "evening-loop.fit",
  });
}

/** The plan the made ride was asked for. */
export function madePlan(targetW = 230): Plan {
  return {
    ...defaultPlan(),
    title: "Base ride",
    rider: "Ines Falk",
    targetW,
    toleranceW: 15,
    eventS: 4 * 3600,
    eventName: "Three Valleys",
  };
}

function moment(kind: string, startS: number, endS: number, rank: number, more: Partial<Moment> = {}): Moment {
  return {
    kind,
    startS,
    endS,
    reason: "unexplained",
    excused: false,
    rank,
    numbers: {},
    setBy: "computed",
    coachOnly: false,
    ...more,
  };
}

/** A reading of the made ride, written by hand, for what film and page do with any reading. */
export function madeReading(ride: Ride, more: Partial<Reading> = {}, targetW = 230): Reading {
  const state = new Uint8Array(ride.grid.seconds).fill(PressureState.in);
  const power = ride.grid.power?.value;
  state.forEach((_, t) => {
    if (t < 600 || t >= 6600) state[t] = PressureState.unknown;
    else if (power?.[t] === 0) state[t] = PressureState.off;
    else if ((power?.[t] ?? 0) > targetW + 60) state[t] = PressureState.above;
  });
  const seconds = (wanted: number): number => state.filter((one) => one === wanted).length;
  const hard = [1800, 4200, 6000];
  return {
    setting: "road",
    bandW: { low: targetW - 15, high: targetW + 15, target: targetW },
    counted: { startS: 600, endS: 6600, source: "default minutes", stretches: [{ startS: 600, endS: 6600 }] },
    pressure: {
      inBandS: seconds(PressureState.in),
      belowS: 0,
      aboveS: seconds(PressureState.above),
      offS: seconds(PressureState.off),
      unknownS: 0,
      excusedOffS: 0,
      cannotTellOffS: 0,
      breaks: 4,
      lapses: 4,
      surges: 3,
      surgeFrom: { lengthS: 5, overTarget: 0.25 },
      longestUnbrokenS: 1158,
      longestUnbrokenStrictS: 1158,
      byGradient: null,
      swing: 0.11,
      swingPedalling: 0.09,
      judgedBy: "power",
      cranksKnown: true,
    },
    cadence: { meanRpm: 88, lowRpm: 86, highRpm: 90 },
    drift: {
      firstBpm: 138.2,
      firstAtS: 1350,
      firstPowerW: 184,
      lastBpm: 145.1,
      lastAtS: 6450,
      lastPowerW: 183,
      riseBeats: 6.9,
      risePercent: 5,
      driftBeats: 7.3,
      driftPercent: 5.3,
      uncertaintyBeats: 3,
      isShown: true,
      correctedForPower: true,
      differsByPowerStepW: -6,
      powerToHeartHalvesPercent: 2.4,
      halvesPowerStepW: -2,
      onsetS: 4830,
      onsetLowS: 4380,
      onsetHighS: 5220,
      verdict: "began",
      confounds: [],
    },
    base: {
      meanW: 184,
      meanBpm: 142,
      meanRpm: 88,
      workKj: 1100,
      hours: [],
      fadePercent: null,
      exposure: null,
      steadiestHour: null,
    },
    parts: [],
    target: {
      eventS: 14_400,
      minimumS: 14_400,
      aimS: 18_000,
      heldLowS: 3780,
      heldHighS: 4620,
      held: { kind: "between", lowS: 3780, highS: 4620, whole: true },
    },
    targetDoubt: null,
    breaks: [
      { startS: 3000, endS: 3042, reason: "unexplained", excused: false, lapse: true, setBy: "computed" },
      ...hard.map((start) => ({
        startS: start + 60,
        endS: start + 72,
        reason: "unexplained" as const,
        excused: false,
        lapse: true,
        setBy: "computed" as const,
      })),
    ],
    surges: hard.map((start) => ({ startS: start, endS: start + 60, meanW: targetW + 95, peakW: targetW + 95 })),
    moments: [
      ...hard.map((start, index) => moment("riseThenOff", start, start + 72, 1 + index, { numbers: { coastS: 12 } })),
      moment("lapse", 3000, 3042, 4),
      moment("driftOnset", 4830, 4830, 5, { excused: null }),
      moment("steadyStretch", 3042, 4200, 6, { excused: null }),
      moment("oddHeart", 5000, 5005, 7, { excused: null, coachOnly: true }),
      moment("turn", 2500, 2515, 8, { excused: null }),
    ],
    overrides: [],
    unsureOverrides: [],
    columns: {
      pressureState: state,
      surge: new Uint8Array(ride.grid.seconds),
      countedS: new Float64Array(ride.grid.seconds),
      likePowerBeats: new Float64Array(ride.grid.seconds),
    },
    warnings: [],
    ...more,
  };
}

/** What the made ride has to teach, its facts made of it first. */
export function madeStory(ride: Ride, plan: Plan, reading: Reading): DebriefStory {
  return tellStory(ride, plan, reading, debriefFacts(ride, plan, reading));
}

/** A clip of 30 frames a second, by its essentials. */
export function madeClip(id: string, durationS: number, more: Partial<Clip> = {}): Clip {
  return {
    id,
    path: `/footage/${id}.mp4`,
    fileName: `${id}.mp4`,
    bytes: 1,
    fingerprint: id,
    durationS,
    widthPx: 1920,
    heightPx: 1080,
    codedWidthPx: 1920,
    codedHeightPx: 1080,
    rotationDeg: 0,
    mirrored: false,
    pixelAspect: { num: 1, den: 1 },
    frameRate: { num: 30_000, den: 1001 },
    variableRate: false,
    frames: {
      timescale: 30_000,
      ticks: Float64Array.of(0),
      keyframes: Uint32Array.of(0),
      endTicks: durationS * 30_000,
    },
    videoCodec: "h264",
    colour: { range: "tv", primaries: null, transfer: null, matrix: null, bitDepth: 8, hdr: false },
    audio: null,
    createdUtcMs: null,
    timecode: null,
    camera: null,
    hasTelemetry: false,
    warnings: [],
    ...more,
  };
}

/** Clips placed at these ride times, all of them sure by an anchor; those named, by nothing but their clock. */
export function madeLineup(starts: Readonly<Record<string, number>>, unsure: readonly string[] = []): Lineup {
  return {
    clips: Object.entries(starts).map(([clipId, offsetS]) => ({
      clipId,
      found: { offsetS, rate: 1 },
      method: unsure.includes(clipId) ? "clock" : "anchor",
      verdict: unsure.includes(clipId) ? "not sure" : "sure",
      sure: !unsure.includes(clipId),
      confidence: 1,
      uncertaintyS: 0.5,
      clockGroup: "a",
      inheritedFrom: null,
      candidates: [],
      reason: placedBecause("clock-of", { sourceName: "a.mp4", trimS: null }),
    })),
    rides: [],
    deviceDelayS: 0,
    warnings: [],
  };
}
