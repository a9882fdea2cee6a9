import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { demoPlan } from "../../main/demo/demoPlan.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { DEMO_SEED } from "../../main/demo/makeDemo.edge.ts";
import { demoClips } from "../../main/demo/demoClips.ts";
import { motionAt } from "../../main/demo/demoTruth.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { judgeRide, readLines } from "../../main/journey/judge.ts";
import { parsePlan } from "../../main/reading/plan/parsePlan.ts";
import { read } from "../../main/reading/read.ts";
import { parseRide } from "../../main/ride/parseRide.ts";

const truth = demoRide(DEMO_SEED);
const ride = parseRide(demoRideFile(truth), "ride.fit");
const [mainFromS, mainToS] = [truth.warmUpS, truth.durationS - truth.coolDownS];
const reading = read(ride, parsePlan(demoPlan(truth), "plan.json"), []);

describe("the demo, read by the ordinary rules", () => {
  it("is an ordinary ride: no warning from the file, its start and zone known", () => {
    expect(ride.warnings).toEqual([]);
    expect(ride.startUtcMs).toBe(truth.startUtcMs);
    expect(ride.utcOffsetMin).toBe(truth.utcOffsetMin);
    expect(ride.mode).toBe("every second");
  });

  it("finds the 40 s lapse as one that nothing excuses", () => {
    const lapse = truth.events.find((e) => e.kind === "lapse")!;
    const found = reading.breaks.filter((b) => b.startS < lapse.endS && b.endS > lapse.startS);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ lapse: true, excused: false });
    expect(Math.abs(found[0]!.startS - lapse.startS)).toBeLessThanOrEqual(2);
    expect(Math.abs(found[0]!.endS - lapse.endS)).toBeLessThanOrEqual(2);
    expect(reading.moments.some((m) => m.kind === "lapse" && m.startS === found[0]!.startS)).toBe(true);
  });

  it("excuses the stop at the level crossing and every corner", () => {
    const stops = truth.events.filter(
      (e) => (e.kind === "give way" || e.kind === "level crossing") && e.startS > mainFromS,
    );
    expect(stops.length).toBeGreaterThanOrEqual(2);
    // A corner right after a give-way is rolled through too slowly and briefly to be a break of its own.
    const corners = truth.events.filter(
      (e) =>
        e.kind === "corner" &&
        e.startS > mainFromS + 20 &&
        e.startS < mainToS - 20 &&
        !stops.some((s) => e.startS > s.endS && e.startS < s.endS + 20),
    );
    expect(corners.length).toBeGreaterThan(7);
    for (const e of [...stops, ...corners]) {
      const middle = (e.startS + e.endS) / 2;
      const off = reading.breaks.find((b) => b.startS <= middle + 1 && b.endS >= middle - 1);
      expect(off, `${e.kind} at ${e.startS} s`).toBeDefined();
      expect(off!.excused, `${e.kind} at ${e.startS} s`).toBe(true);
    }
  });

  it("tells of rises taken above the plan with no pressure over the top, with the true count, and the filmed rise shows it", () => {
    const farM = (s: number) => motionAt(truth.motion, truth.motion.distanceM, s);
    const rises = truth.course.rises.filter((r) => r.startM > farM(mainFromS) && r.topM < farM(mainToS));
    const hard = rises.filter((r) => r.offOverTopS !== null).length;
    const moment = reading.moments.find((m) => m.kind === "riseThenOff")!;
    expect(moment.numbers).toMatchObject({ times: hard, rises: rises.length });
    const clip = demoClips(truth)[1]!;
    expect(moment.startS).toBeGreaterThanOrEqual(clip.startS);
    expect(moment.endS).toBeLessThanOrEqual(clip.startS + clip.durationS);
  });

  it("sees the surges at the foot of the hard rises", () => {
    for (const e of truth.events.filter((one) => one.kind === "surge")) {
      expect(
        reading.surges.some((s) => s.startS < e.endS + 2 && s.endS > e.startS - 2),
        `${e.note} at ${e.startS} s`,
      ).toBe(true);
    }
  });

  it("holds the band for most of the main part", () => {
    const { inBandS, belowS, aboveS, offS, unknownS } = reading.pressure;
    expect(inBandS / (inBandS + belowS + aboveS + offS + unknownS)).toBeGreaterThan(0.6);
  });

  it("claims the onset of drift, with the truth inside its interval", () => {
    expect(reading.drift.verdict).toBe("began");
    expect(reading.drift.onsetLowS!).toBeLessThanOrEqual(truth.onsetS);
    expect(reading.drift.onsetHighS!).toBeGreaterThanOrEqual(truth.onsetS);
    // Quoted in minutes, never in seconds: within a quarter of an hour is what one ride can show.
    expect(Math.abs(reading.drift.onsetS! - truth.onsetS)).toBeLessThan(15 * 60);
    const endMin = (truth.durationS - truth.coolDownS - truth.onsetS) / 60;
    expect(Math.abs(reading.drift.driftBeats! - truth.driftPerMin * (endMin - 2.5))).toBeLessThan(
      reading.drift.uncertaintyBeats!,
    );
  });
});

it("the README's example of a reading is what the program says of the demo", () => {
  const example = /shortened here:\n```\n([\s\S]*?)\n```/.exec(readFileSync("README.md", "utf8"))![1]!.split("\n");
  expect(example.length).toBeGreaterThan(15);
  const lines = readLines(judgeRide(ride, parsePlan(demoPlan(truth), "plan.json"), []), "en");
  expect(example.filter((line) => !lines.includes(line))).toEqual([]);
});
