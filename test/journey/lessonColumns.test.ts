// What a lesson with percent hands on to panels and thread: nothing from which the watts can be worked out.
import { expect, test } from "vitest";
import { PLAIN_LOOK } from "../../main/contract/filmLook.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { columnsOf, filmJob } from "../../main/journey/filmJob.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { read } from "../../main/reading/read.ts";
import { madeClip } from "../film/madeReading.ts";
import { rideOf, set, steadyColumns } from "../reading/testRides.ts";
import { filmOf } from "../render/filmFixtures.ts";

/** A ride and its columns in a film; all power, the plan's too, so many times as much. */
function ridden(times: number, asPercent: boolean) {
  const columns = steadyColumns(4200);
  set(columns.powerW, 1500, 1520, 0);
  set(columns.powerW, 2400, 2430, 320);
  const ride = rideOf({ ...columns, powerW: columns.powerW.map((watts) => watts * times) });
  const plan = defaultPlan({ targetW: 185 * times, toleranceW: 12 * times, warmUpS: 600, coolDownS: 600 });
  const made = { ride, plan, reading: read(ride, plan, []) };
  const clip = madeClip("one", 100);
  const settings = { language: "en", forWhom: "lesson", asPercent, look: PLAIN_LOOK } as const;
  const job = filmJob({ ...made, clips: [clip], film: filmOf(clip, []) }, PRESETS.share, settings, "film.mp4", "cache");
  return { job, whole: columnsOf(made) };
}

const rounded = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (_, one: unknown) =>
      ArrayBuffer.isView(one)
        ? Array.from(one as unknown as Float64Array)
        : typeof one === "number"
          ? Math.round(one * 1e6) / 1e6
          : one,
    ),
  );

test("two rides of the same shares of their targets are one and the same in a lesson with percent", () => {
  const one = ridden(1, true);
  const stronger = ridden(1.5, true);
  // The rides themselves are told apart, or the rest says nothing.
  expect(rounded(stronger.whole)).not.toEqual(rounded(one.whole));
  expect(stronger.whole.bandW?.target).toBe(277.5);
  for (const name of Object.keys(one.whole) as (keyof typeof one.whole)[]) {
    // Beats: in which seconds they are told hangs on what is like power, which is a number of watts.
    if (name === "likePowerBeats") continue;
    expect(rounded(stronger.job.columns[name]), name).toEqual(rounded(one.job.columns[name]));
  }
  expect(stronger.job.columns.bandW?.target).toBeCloseTo(100, 9);
  expect(stronger.job.columns.power3s?.value[2420]).toBeCloseTo((100 * 320) / 185, 9);
});

test("nothing is lost on the way, and without percent nothing is changed", () => {
  const { job, whole } = ridden(1, true);
  expect(Object.keys(job.columns).sort()).toEqual(Object.keys(whole).sort());
  expect(rounded(ridden(1, false).job.columns)).toEqual(rounded(whole));
});
