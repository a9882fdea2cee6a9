import { Failure } from "../contract/failure.ts";
import type { RideInstant } from "../contract/lineup.ts";
import type { Ride } from "../contract/ride.ts";
import { displayStepS, readingErrorS, secondsOf } from "./timeText.ts";
import type { RideTimeFault } from "../contract/notices/lineup.ts";

function outside(text: string, ride: Ride, fault: RideTimeFault): Failure {
  return new Failure("ride-time-outside", { text, rideName: ride.fileName, fault });
}

function fromTimer(text: string, seconds: number, ride: Ride): number {
  const { timerS, paused } = ride.grid;
  const total = timerS.length > 0 ? timerS[timerS.length - 1]! + (paused[timerS.length - 1] ? 0 : 1) : 0;
  if (seconds > total) throw outside(text, ride, { kind: "timer ends", atS: total });
  for (let k = 0; k < timerS.length; k++) {
    const runs = paused[k] ? 0 : 1;
    if (seconds <= timerS[k]! + runs) return Math.min(ride.elapsedS, k + Math.max(0, seconds - timerS[k]!));
  }
  return ride.elapsedS;
}

function fromClock(text: string, timeOfDayS: number, ride: Ride): number {
  const offsetMin = ride.utcOffsetMin;
  if (ride.startUtcMs === null || offsetMin === null) {
    const lack = ride.startUtcMs === null ? "date" : "zone and place";
    throw new Failure("ride-time-without-clock", { text, rideName: ride.fileName, lack });
  }
  const startOfDayS = (((ride.startUtcMs / 1000 + offsetMin * 60) % 86_400) + 86_400) % 86_400;
  const rideS = (((timeOfDayS - startOfDayS) % 86_400) + 86_400) % 86_400;
  if (timeOfDayS >= 86_400 || rideS > ride.elapsedS) {
    const toS = Math.floor((startOfDayS + ride.elapsedS) % 86_400);
    throw outside(text, ride, { kind: "ran", fromS: Math.floor(startOfDayS), toS });
  }
  return rideS;
}

function fromDistance(text: string, km: number, decimals: number, ride: Ride): RideInstant {
  const column = ride.grid.distanceM;
  if (!column) {
    throw new Failure("ride-time-without-distance", { text, rideName: ride.fileName });
  }
  const target = km * 1000;
  let before = -1;
  for (let k = 0; k < column.length; k++) {
    const here = column[k]!;
    if (!Number.isFinite(here)) continue;
    if (here >= target) {
      if (before < 0) {
        if (here - target > 1) break;
        return { rideS: k, sigmaS: 1 };
      }
      const stepM = here - column[before]!;
      const rideS = before + (stepM > 0 ? ((target - column[before]!) / stepM) * (k - before) : k - before);
      const speedMps = Math.max(0.5, stepM / (k - before));
      return { rideS, sigmaS: Math.max(0.3, (1000 * 10 ** -decimals) / Math.sqrt(12) / speedMps) };
    }
    before = k;
  }
  throw outside(
    text,
    ride,
    before < 0 ? { kind: "distance unknown there" } : { kind: "long in km", km: column[before]! / 1000 },
  );
}

function fromLap(text: string, number: number, ride: Ride): number {
  const lap = ride.laps[number - 1];
  if (!lap) throw outside(text, ride, { kind: "laps", count: ride.laps.length });
  return lap.startS;
}

/**
 * Ride time, the middle of what a display shows, of an instant given as ride time (`1:08:05`), `timer 1:06:30` (pauses out), `clock 10:42:17` (local time of
 * day), `32.41 km` or `lap 3` (its beginning). Throws a `Failure` for another form and for an instant outside the ride.
 */
export function parseRideTime(text: string, ride: Ride): RideInstant {
  const words = text.trim();
  const lap = /^lap\s*(\d+)$/i.exec(words);
  if (lap) return { rideS: fromLap(text, Number(lap[1]), ride), sigmaS: 0.3 };
  const km = /^(\d+(?:\.(\d+))?)\s*km$/i.exec(words);
  if (km) return fromDistance(text, Number(km[1]), km[2]?.length ?? 0, ride);
  const named = /^(timer|clock)\s+(.+)$/i.exec(words);
  const seconds = secondsOf(named?.[2] ?? words);
  if (seconds === null) throw new Failure("ride-time-form", { text });
  const sigmaS = readingErrorS(words);
  if (named) {
    const at = (named[1]!.toLowerCase() === "timer" ? fromTimer : fromClock)(text, seconds, ride);
    // A display shows a second from its first instant to its last: what is read off it is half a step old on average.
    return { rideS: Math.min(ride.elapsedS, at + displayStepS(words) / 2), sigmaS };
  }
  if (seconds > ride.elapsedS) throw outside(text, ride, { kind: "long", elapsedS: ride.elapsedS });
  return { rideS: seconds, sigmaS };
}
