import { degreesAt } from "./course.ts";
import type { DemoClip } from "./demoClips.ts";
import { motionAt, type DemoTruth } from "./demoTruth.ts";
import { gpmfNest, gpmfNumbers, gpmfTexts } from "./gpmfBytes.ts";
import { seededRandom, wandering } from "./seededRandom.ts";

/** Each payload covers this long of the clip, s, and holds so many positions. */
export const PAYLOAD_S = 1.001;
const FIXES_A_PAYLOAD = 18;

/**
 * What the camera's receiver adds of its own: places that wander by metres over minutes, smoothly, since its filter holds
 * them to its speed; speeds good to about 0.1 m/s (receivers' data sheets say 2.5 m and 0.05 m/s; from memory).
 */
const WANDER = { sdM: 2.2, memoryS: 60, smoothS: 4 };
const JITTER_M = 0.05;
const SPEED = { sdMps: 0.1, memoryS: 1 };
/** It writes its time this late (real files have been seen to), the first payload's as the receiver had it before. */
const TIME_LATE_S = 1.2;
const FIRST_STALE_S = 1.4;
/** The first clip begins before the receiver has found its satellites, s. */
const FIRST_FIX_S = 6;

/**
 * The payloads of a clip's telemetry track, in order: where and how fast the camera's own satellite receiver saw itself,
 * on the camera's media time (GPS5 stream of GPMF). The receiver's errors are its own, not those of the bike computer.
 */
export function cameraTelemetry(truth: DemoTruth, clip: DemoClip, durationS: number): readonly Uint8Array[] {
  const random = seededRandom(truth.seed + 900 + Math.round(clip.startS));
  const stepS = PAYLOAD_S / FIXES_A_PAYLOAD;
  const east = smooth(wandering(random, WANDER.sdM, WANDER.memoryS, stepS), stepS);
  const north = smooth(wandering(random, WANDER.sdM, WANDER.memoryS, stepS), stepS);
  const height = wandering(random, 4, 120, stepS);
  const tooFast = wandering(random, SPEED.sdMps, SPEED.memoryS, stepS);
  const { motion, course } = truth;
  const fixS = clip.fileName === "bars-0001.mp4" ? FIRST_FIX_S : 0;
  return Array.from({ length: Math.ceil(durationS / PAYLOAD_S) }, (_, payload) => {
    const mediaS = payload * PAYLOAD_S;
    const values: number[] = [];
    for (let k = 0; k < FIXES_A_PAYLOAD; k++) {
      const rideS = clip.startS + mediaS + k * stepS;
      const distanceM = motionAt(motion, motion.distanceM, rideS);
      const speedMps = Math.max(0, motionAt(motion, motion.speedMps, rideS) + tooFast());
      const place = degreesAt(
        course.eastMAt(distanceM) + east() + JITTER_M * random.normal(),
        course.northMAt(distanceM) + north() + JITTER_M * random.normal(),
      );
      values.push(
        place.latDeg * 1e7,
        place.lonDeg * 1e7,
        (course.elevationMAt(distanceM) + height()) * 1e3,
        speedMps * 1e3,
        speedMps * 1e2,
      );
    }
    const found = mediaS >= fixS;
    const writtenMs =
      truth.startUtcMs + (clip.startS + mediaS + TIME_LATE_S - (payload === 0 ? FIRST_STALE_S : 0)) * 1000;
    return gpmfNest("DEVC", [
      gpmfNumbers("DVID", "L", [1]),
      gpmfTexts("DVNM", ["Camera of the demo"]),
      gpmfNest("STRM", [
        gpmfNumbers("TSMP", "L", [(payload + 1) * FIXES_A_PAYLOAD]),
        gpmfTexts("STNM", ["GPS (Lat., Long., Alt., 2D speed, 3D speed)"]),
        gpmfNumbers("GPSF", "L", [found ? 3 : 0]),
        gpmfTexts("GPSU", [dateText(writtenMs)], "U"),
        gpmfNumbers("GPSP", "S", [found ? 160 : 9999]),
        gpmfTexts("UNIT", ["deg", "deg", "m", "m/s", "m/s"]),
        gpmfNumbers("SCAL", "l", [1e7, 1e7, 1e3, 1e3, 1e2]),
        gpmfNumbers("GPS5", "l", values.map(Math.round), 5),
      ]),
    ]);
  });
}

/** What a filter of `WANDER.smoothS` leaves of a wandering value. */
function smooth(next: () => number, stepS: number): () => number {
  const take = 1 - Math.exp(-stepS / WANDER.smoothS);
  let value = next();
  return () => (value += take * (next() - value));
}

/** `yymmddhhmmss.sss` of an instant, UTC. */
function dateText(utcMs: number): string {
  return new Date(Math.round(utcMs))
    .toISOString()
    .replace(/[-:TZ]/g, "")
    .slice(2);
}
