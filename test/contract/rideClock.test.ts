// A ride clock means one thing everywhere: the recorder's delay is counted in.
import { expect, it } from "vitest";
import { proxyPlan } from "../../main/app/desk/proxyPlan.ts";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import { rideClockOf } from "../../main/contract/lineup.ts";
import type { Moment } from "../../main/contract/reading.ts";
import { placedClips } from "../../main/film/filmedSpan.ts";
import { clipsOnRide } from "../../main/journey/overlaidClips.ts";
import { placedClips as placedInWindow } from "../../renderer/player/placedClips.ts";
import { madeClip, madeLineup } from "../film/madeReading.ts";

const DELAY_S = 1.5;
/** One picture a second. */
const ticks = Float64Array.from({ length: 900 }, (_, second) => second);
const clip = madeClip("clip1", 900, {
  frames: { timescale: 1, ticks, keyframes: Uint32Array.of(0), endTicks: 900 },
});
const lineup = { ...madeLineup({ clip1: 600 }), deviceDelayS: DELAY_S };
const clock = { offsetS: 600 + DELAY_S, rate: 1 };

it("film, window, overlay and the desk's small pictures show a clip by the same clock, the delay in it once", () => {
  expect(rideClockOf(lineup, "clip1")).toEqual(clock);
  expect(placedClips([clip], lineup, false)[0]).toMatchObject({ clock, startS: 601.5, endS: 1501.5 });
  const view = { id: "clip1", durationS: 900 } as ClipView;
  expect(placedInWindow({ clips: [view], lineup })[0]).toMatchObject({ clock, startS: 601.5, endS: 1501.5 });
  expect(clipsOnRide([clip], lineup)).toEqual([{ clip, clock }]);
  const moment = { startS: 1001.5, endS: 1011.5, rank: 1 } as Moment;
  const [piece] = proxyPlan({ moments: [moment], clips: [clip], lineup, film: null });
  expect(ticks[piece!.firstFrame]).toBe(1001.5 - 601.5 - 20);
});

it("is null for a clip without a place, and the overlay leaves out one that does not match", () => {
  expect(rideClockOf(lineup, "clip9")).toBeNull();
  const apart = { ...lineup, clips: lineup.clips.map((one) => ({ ...one, verdict: "no match" as const })) };
  expect(clipsOnRide([clip], apart)).toEqual([]);
});
