import type { Film, Shot } from "../../main/contract/film.ts";
import type { Clip } from "../../main/contract/footage.ts";
import type { JobContext } from "../../main/contract/job.ts";
import type { RideColumns } from "../../main/contract/rideColumns.ts";
import { defaultLayoutOptions, type LayoutOptions } from "../../overlay/layout/layout.ts";

/** A ride whose every second has a power of its own, so that a picture tells its second. */
export function countingRide(seconds: number): RideColumns {
  const state = new Uint8Array(seconds).fill(1);
  const column = (of: (k: number) => number): Float64Array => Float64Array.from({ length: seconds }, (_, k) => of(k));
  return {
    seconds,
    mode: "every second",
    setting: "road",
    lateS: null,
    power3s: { value: column((k) => 100 + ((k * 37) % 800)), state },
    heartRate: { value: column((k) => 100 + (k % 80)), state },
    cadence: { value: column((k) => 60 + (k % 50)), state },
    speed: { value: column((k) => 5 + (k % 70) / 10), state },
    gradientPercent: column((k) => (k % 20) / 2 - 4),
    altitudeM: column((k) => 100 + 10 * Math.sin(k / 20)),
    latDeg: null,
    lonDeg: null,
    pressureState: new Uint8Array(seconds).fill(5),
    surge: new Uint8Array(seconds),
    countedS: column((k) => k),
    likePowerBeats: new Float64Array(seconds).fill(Number.NaN),
    bandW: { low: 200, high: 240, target: 220 },
    countedStartS: 0,
    countedEndS: seconds,
  };
}

/** Panels of a film of this size; all channels there. */
export function layoutOptionsFor(widthPx: number, heightPx: number): LayoutOptions {
  return defaultLayoutOptions(widthPx, heightPx, {
    power: true,
    heartRate: true,
    cadence: true,
    speed: true,
    gradient: true,
    position: false,
    mainPart: true,
    likePower: false,
    band: true,
    pressure: true,
    variable: false,
    tenHours: false,
  });
}

/** A shot of a clip at ride time = `offsetS` + clip time. */
export function shotOf(clip: Clip, mediaStartS: number, mediaEndS: number, more: Partial<Shot> = {}): Shot {
  const clock = more.clock ?? { offsetS: 100, rate: 1 };
  return {
    type: "shot",
    id: `${clip.id}@${mediaStartS}`,
    clipId: clip.id,
    mediaStartS,
    mediaEndS,
    speed: 1,
    freezes: [],
    captions: [],
    drawings: [],
    pageStartS: clock.offsetS + clock.rate * mediaStartS - 60,
    pageEndS: clock.offsetS + clock.rate * mediaEndS,
    clock,
    moment: null,
    riderName: null,
    why: "a test",
    commentPath: null,
    crossfadeS: 0,
    ...more,
  };
}

/** A film of these items at a clip's size and rate. */
export function filmOf(clip: Clip, items: Film["items"], more: Partial<Film> = {}): Film {
  return { widthPx: clip.widthPx, heightPx: clip.heightPx, frameRate: clip.frameRate, items, leftOut: [], ...more };
}

/** A job that nobody watches or ends. */
export function quietContext(): JobContext {
  return { signal: new AbortController().signal, report: () => undefined };
}
