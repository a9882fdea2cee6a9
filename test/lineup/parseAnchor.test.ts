import { describe, expect, it } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import { parseAnchor, parseClipInstant } from "../../main/lineup/parseAnchor.ts";
import { madeClip } from "./madeClip.ts";
import { madeRide } from "./madeRide.ts";
import { failureSaid } from "../support/said.ts";

const clips = [
  madeClip("a", 60, { path: "/films/left/GX01.mp4", fileName: "GX01.mp4" }),
  madeClip("b", 60, { path: "/films/right/GX01.mp4", fileName: "GX01.mp4" }),
  madeClip("c", 60, { path: "/films/odd=name@home.mp4", fileName: "odd=name@home.mp4" }),
  madeClip("d", 60, { path: "/films/Ju\u0308rg.mp4", fileName: "Ju\u0308rg.mp4" }),
];
// 2 h from 08:00 UTC in Basel (UTC+2 in June), pause of 10 min from 1:00:00
const ride = madeRide(7201, { pause: { startS: 3600, endS: 4200 }, laps: [0, 1800, 5000] });
const at = (text: string) => parseAnchor(`odd=name@home.mp4@12.5=${text}`, clips, ride);

function failureOf(run: () => unknown): Failure {
  try {
    run();
  } catch (error) {
    expect(error).toBeInstanceOf(Failure);
    return error as Failure;
  }
  throw new Error("no failure");
}

describe("parseAnchor", () => {
  it.each(["./films/right/GX01.mp4", "/films//right/GX01.mp4", "/films/./right/GX01.mp4"])(
    "finds a clip however its path is written: %s",
    (name) => expect(parseAnchor(`${name}@1=0:01:00`, clips, ride).clipId).toBe("b"),
  );

  it("finds one that was given with a path of that kind", () => {
    const given = [madeClip("e", 60, { path: "./films//GX02.mp4", fileName: "GX02.mp4" })];
    expect(parseAnchor("films/GX02.mp4@1=0:01:00", given, ride).clipId).toBe("e");
  });

  it("splits at the last @ and the next =", () => {
    expect(at("1:08:05")).toMatchObject({ clipId: "c", mediaS: 12.5, rideS: 4085 });
    expect(at("4085.5")).toMatchObject({ rideS: 4085.5 });
    expect(parseAnchor("odd=name@home.mp4@0:00:07.25=68:05", clips, ride)).toMatchObject({ mediaS: 7.25, rideS: 4085 });
  });

  it("finds the clip by path, name or unique part", () => {
    expect(parseAnchor("/films/right/GX01.mp4@1=5", clips, ride).clipId).toBe("b");
    expect(parseAnchor("left@1=5", clips, ride).clipId).toBe("a");
    expect(parseAnchor("J\u00fcrg@1=5", clips, ride).clipId).toBe("d");
    expect(failureSaid(failureOf(() => parseAnchor("GX01.mp4@1=5", clips, ride))).sentence).toContain(
      "/films/left/GX01.mp4",
    );
    expect(failureSaid(failureOf(() => parseAnchor("nothing.mp4@1=5", clips, ride))).sentence).toContain("nothing.mp4");
  });

  it("means the clip where a name fits it and its camera's small copy, and the copy where only that is named", () => {
    const big = madeClip("big", 60, { path: "/films/DR_0007.mp4", fileName: "DR_0007.mp4" });
    const small = madeClip("small", 60, { path: "/films/DR_0007.lrv", fileName: "DR_0007.lrv" });
    const other = madeClip("other", 60, { path: "/films/DR_0017.mp4", fileName: "DR_0017.mp4" });
    const given = [small, big, other];
    const bigOf = new Map([["small", big]]);
    expect(parseAnchor("0007@1=5", given, ride, bigOf).clipId).toBe("big");
    expect(parseAnchor("DR_0007.lrv@1=5", given, ride, bigOf).clipId).toBe("small");
    expect(failureSaid(failureOf(() => parseAnchor("0007@1=5", given, ride))).sentence).toContain("DR_0007.lrv");
    const several = failureSaid(failureOf(() => parseAnchor("DR_00@1=5", given, ride, bigOf))).sentence;
    expect(several).toContain("DR_0017.mp4");
    expect(several).not.toContain(".lrv");
  });

  it("takes the middle of the second that a clock shows, and covers it to both ends", () => {
    for (const read of ["clock 10:42:17", "timer 0:30:00"]) expect(2 * at(read).sigmaS).toBeGreaterThan(0.5);
    expect(at("clock 10:42:17.5").rideS).toBeCloseTo(42 * 60 + 17.55, 6);
    expect(2 * at("clock 10:42:17.5").sigmaS).toBeLessThan(0.1);
  });

  it("names an instant of a clip without one of the ride", () => {
    expect(parseClipInstant("odd=name@home.mp4@0:07.5", clips)).toMatchObject({ clip: { id: "c" }, mediaS: 7.5 });
    expect(failureOf(() => parseClipInstant("left", clips)).code).toBe("usage");
    expect(failureOf(() => parseClipInstant("left@soon", clips)).code).toBe("usage");
    expect(failureOf(() => parseClipInstant("left@1:01", clips)).code).toBe("anchor-not-valid");
  });

  it("reads the timer with pauses out", () => {
    expect(at("timer 0:30:00").rideS).toBe(1800.5);
    expect(at("timer 1:00:10").rideS).toBe(4210.5);
    expect(at("timer 1:50:00").rideS).toBe(7200);
    expect(failureOf(() => at("timer 1:51:00")).code).toBe("anchor-not-valid");
  });

  it("reads the local time of day by the place's zone, and by the file's own offset first", () => {
    expect(at("clock 10:42:17").rideS).toBe(42 * 60 + 17.5);
    const away = madeRide(7201, { utcOffsetMin: -420 });
    expect(parseAnchor("left@1=clock 01:42:17", clips, away).rideS).toBe(42 * 60 + 17.5);
    const night = madeRide(7201, { startUtcMs: Date.UTC(2024, 5, 1, 21, 30), utcOffsetMin: 120 });
    expect(parseAnchor("left@1=clock 00:10:00", clips, night).rideS).toBe(2400.5);
    expect(failureSaid(failureOf(() => at("clock 8:42:17"))).sentence).toContain("10:00:00");
    const undated = madeRide(7201, { startUtcMs: null });
    expect(failureSaid(failureOf(() => parseAnchor("left@1=clock 10:00:00", clips, undated))).remedy).toContain(
      "timer",
    );
  });

  it("reads distance and laps", () => {
    // 8 m/s: 4 km after 500 s
    expect(at("4 km").rideS).toBeCloseTo(500, 6);
    expect(at("4.004 km").rideS).toBeCloseTo(500.5, 6);
    expect(at("lap 3").rideS).toBe(5000);
    expect(failureSaid(failureOf(() => at("lap 4"))).sentence).toContain("3 laps");
    expect(failureSaid(failureOf(() => at("99 km"))).sentence).toMatch(/52\.\d+ km long/);
  });

  it("refuses what lies outside the clip or the ride, or is no anchor", () => {
    expect(failureSaid(failureOf(() => parseAnchor("left@61=5", clips, ride))).sentence).toContain("GX01.mp4");
    expect(failureSaid(failureOf(() => at("2:30:00"))).sentence).toContain("2:00:00");
    for (const text of [
      "left",
      "left@5",
      "left@x=5",
      "@1=5",
      "left@1=",
      "left@1=-5",
      "left@1=1:75:00",
      "left@1=5 miles",
    ]) {
      expect(failureOf(() => parseAnchor(text, clips, ride)).code).toBe("usage");
    }
  });

  it("takes how the clip plays against life from a word behind it", () => {
    expect(parseAnchor("odd=name@home.mp4@12=0:10:00 slow 4", clips, ride).rate).toBe(0.25);
    expect(parseAnchor("odd=name@home.mp4@12=timer 0:10:00 fast 30", clips, ride).rate).toBe(30);
    expect(parseAnchor("odd=name@home.mp4@12=0:10:00", clips, ride).rate).toBeUndefined();
    expect(() => parseAnchor("odd=name@home.mp4@12=0:10:00 slow 0", clips, ride)).toThrow();
  });
});
