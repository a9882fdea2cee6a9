import { describe, expect, it } from "vitest";
import type { Anchor } from "../../main/contract/lineup.ts";
import { lineupJson } from "../../main/lineup/lineupJson.ts";
import { placeClips } from "../../main/lineup/placeClips.ts";
import { placementReasonText } from "../../overlay/words/notices/placementReason.ts";
import { madeClip } from "./madeClip.ts";
import { madeRide } from "./madeRide.ts";
import { said } from "../support/said.ts";

const rideStart = Date.UTC(2024, 5, 1, 8, 0, 0);
const ride = madeRide(7201);
/** The camera's clock when its clip began at `rideS`: off by `errorS`, in a zone `zoneMin` from UTC. */
const stamp = (rideS: number, zoneMin = 120, errorS = 37.4) =>
  rideStart + Math.round(rideS + errorS) * 1000 + zoneMin * 60_000;
const place = (clips: Parameters<typeof madeClip>[], anchors: Anchor[] = []) =>
  placeClips({ ride, clips: clips.map((c) => madeClip(...c)), anchors, deviceDelayS: 0 });

describe("placeClips by anchors", () => {
  const three: Parameters<typeof madeClip>[] = [
    ["a", 80, { createdUtcMs: stamp(600) }],
    ["b", 80, { createdUtcMs: stamp(2000) }],
    ["c", 80, { createdUtcMs: stamp(5000) }],
  ];
  it("sets the clock of all clips of the camera by one anchor", () => {
    const { clips, warnings } = place(three, [{ clipId: "b", mediaS: 10, rideS: 2010, sigmaS: 0.1 }]);
    expect(clips.map((c) => c.sure)).toEqual([true, true, true]);
    expect(clips[0]!.found!.offsetS).toBeCloseTo(600, 1);
    expect(clips[2]!.found!.offsetS).toBeCloseTo(5000, 1);
    expect(clips.map((c) => c.inheritedFrom)).toEqual(["b", null, "b"]);
    expect(warnings).toEqual([]);
  });

  it("does not carry an anchor to another camera", () => {
    const { clips } = place(
      [three[0]!, ["x", 80, { createdUtcMs: stamp(2000), camera: "Bar 2" }]],
      [{ clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 }],
    );
    expect(clips[1]).toMatchObject({ sure: false, method: "clock", inheritedFrom: null });
    expect(clips[1]!.clockGroup).not.toBe(clips[0]!.clockGroup);
  });

  it("does not carry an anchor to another camera of the same model, nor to a clip of another kind of name", () => {
    const anchor = [{ clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 }];
    const other = (a: object, x: object) =>
      place(
        [
          ["a", 80, { createdUtcMs: stamp(600), ...a }],
          ["x", 80, { createdUtcMs: stamp(2000), ...x }],
        ],
        anchor,
      ).clips[1];
    expect(other({ serial: "17" }, { serial: "17" })).toMatchObject({ sure: true, inheritedFrom: "a" });
    expect(other({ serial: "17" }, { serial: "18" })).toMatchObject({ sure: false, inheritedFrom: null });
    const unnamed = (fileName: string) => ({ camera: null, fileName });
    expect(other(unnamed("DSC_0001.mp4"), unnamed("DSC_0004.mp4"))).toMatchObject({ sure: true });
    expect(other(unnamed("DSC_0001.mp4"), unnamed("VID_0004.mp4"))).toMatchObject({ sure: false, inheritedFrom: null });
  });

  it("hands a clock on among clips of one camera model only where coding and names are one", () => {
    const anchor = [{ clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 }];
    const other = (x: object) =>
      place(
        [
          ["a", 80, { createdUtcMs: stamp(600), camera: "Bar 9", fileName: "GX0117.mp4" }],
          ["x", 80, { createdUtcMs: stamp(2000), camera: "Bar 9", fileName: "GX0118.mp4", ...x }],
        ],
        anchor,
      ).clips[1]!;
    expect(other({})).toMatchObject({ sure: true, inheritedFrom: "a" });
    for (const told of [{ codedWidthPx: 3840, codedHeightPx: 2160 }, { fileName: "clip-7.mp4" }]) {
      expect(other(told)).toMatchObject({
        verdict: "not sure",
        inheritedFrom: "a",
        reason: { facts: { doubt: { kind: "camera not told", sourceName: "GX0117.mp4" } } },
      });
      expect(other(told).found!.offsetS).toBeCloseTo(2000, 1);
    }
  });

  it("hands no clock on between two cameras of one model, firmware and settings: their names don't count on", () => {
    const alike = { camera: "Bar 9", firmware: "B9.01.10", audio: null };
    const anchor = [{ clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 }];
    const second = (fileName: string, at = 2000) =>
      place(
        [
          ["a", 80, { ...alike, createdUtcMs: stamp(600), fileName: "GX010117.mp4" }],
          // The other camera's clock is 40 s off the first one's.
          ["x", 80, { ...alike, createdUtcMs: stamp(at + 40), fileName }],
        ],
        anchor,
      ).clips[1]!;
    // Another count, the same name in another folder, a count that runs against the clock, and a name given by hand.
    for (const name of ["GX010842.mp4", "GX010117.mp4", "GX010116.mp4", "lap 2.mp4"])
      expect(second(name)).toMatchObject({ sure: false, verdict: "not sure" });
    expect(second("GX010116.mp4", 100)).toMatchObject({ sure: true });
    // Clips between two tell that the count goes on.
    const chain = (...numbers: number[]) =>
      place(
        numbers.map((n, k) => [`${n}`, 80, { ...alike, createdUtcMs: stamp(600 + 300 * k), fileName: `C${n}.mp4` }]),
        [{ clipId: `${numbers[0]}`, mediaS: 0, rideS: 600, sigmaS: 0.1 }],
      ).clips.map(({ sure }) => sure);
    expect(chain(97, 99, 102, 105)).toEqual([true, true, true, true]);
    expect(chain(97, 105)).toEqual([true, false]);
  });

  it("doubts a clip whose file names a point far from the ride, and names another ride that passes there", () => {
    const { clips: plain } = place(three, [{ clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 }]);
    expect(plain[1]).toMatchObject({ sure: true, inheritedFrom: "a" });
    // The made ride stands at one place; a second one of the outing 40 km north of it.
    const at = (latDeg: number, lonDeg: number) => ({
      ...ride,
      fileName: `${latDeg}.fit`,
      raw: { ...ride.raw, latDeg: ride.raw.latDeg.map(() => latDeg), lonDeg: ride.raw.lonDeg.map(() => lonDeg) },
    });
    const withPoint = (latDeg: number, anchored = false) =>
      placeClips({
        ride: at(47, 7),
        others: [{ ride: at(47.36, 7), offsetS: 0, uncertaintyS: 1 }],
        clips: three.map(([id, lengthS, more]) =>
          madeClip(id, lengthS, { ...more, ...(id === "b" ? { filmedAt: { latDeg, lonDeg: 7 } } : {}) }),
        ),
        anchors: [
          { clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 },
          ...(anchored ? [{ clipId: "b", mediaS: 0, rideS: 2000, sigmaS: 0.1 }] : []),
        ],
        deviceDelayS: 0,
      }).clips[1]!;
    expect(withPoint(47.02)).toMatchObject({ sure: true });
    expect(withPoint(47.35)).toMatchObject({
      sure: false,
      verdict: "conflict",
      candidates: [{ rideStartS: expect.closeTo(2000, 1) as number }],
      reason: { code: "filmed-elsewhere", facts: { rideName: "47.36.fit" } },
    });
    expect(withPoint(48).reason).toMatchObject({ facts: { rideName: null } });
    // A person who has seen the picture knows more than the point.
    expect(withPoint(48, true)).toMatchObject({ sure: true });
  });

  it("is not sure of a place by a clock that was never set: it may have begun anew", () => {
    const { clips } = place(
      [
        ["a", 80, { createdUtcMs: Date.UTC(2016, 0, 1, 0, 3, 0) }],
        ["b", 80, { createdUtcMs: Date.UTC(2016, 0, 1, 0, 30, 0) }],
      ],
      [{ clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 }],
    );
    expect(clips[0]!.sure).toBe(true);
    expect(clips[1]).toMatchObject({ verdict: "not sure", reason: { facts: { doubt: { kind: "clock was reset" } } } });
  });

  it("is sure of an inherited place only within a trim where a program wrote the file anew", () => {
    const clips = (rewritten?: true) =>
      place(
        [
          ["a", 80, { createdUtcMs: stamp(600) }],
          ["b", 80, { createdUtcMs: stamp(2000), ...(rewritten ? { rewritten } : {}) }],
        ],
        [{ clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 }],
      ).clips[1];
    expect(clips()!.uncertaintyS).toBeLessThan(2);
    expect(clips(true)).toMatchObject({ sure: true, reason: { code: "clock-of", facts: { trimS: 10 } } });
    expect(clips(true)!.uncertaintyS).toBeGreaterThan(10);
  });

  it("is not sure while the clock may mark a clip's start or its end, until a second anchor settles it", () => {
    // this camera stamps the end
    const ends: Parameters<typeof madeClip>[] = [
      ["a", 80, { createdUtcMs: stamp(680) }],
      ["b", 300, { createdUtcMs: stamp(2300) }],
      ["c", 150, { createdUtcMs: stamp(5150) }],
    ];
    const first = { clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 };
    const one = place(ends, [first]).clips;
    expect(one[1]).toMatchObject({ sure: false, verdict: "not sure" });
    expect(one[1]!.candidates.some((c) => Math.abs(c.rideStartS - 2000) < 1.5)).toBe(true);
    const two = place(ends, [first, { clipId: "b", mediaS: 0, rideS: 2000, sigmaS: 0.1 }]).clips;
    expect(two[2]!.sure).toBe(true);
    expect(Math.abs(two[2]!.found!.offsetS - 5000)).toBeLessThan(1.5);
  });

  it("says so when two anchored clips do not share a clock", () => {
    const { clips } = place(three, [
      { clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 },
      { clipId: "b", mediaS: 0, rideS: 2030, sigmaS: 0.1 },
    ]);
    expect(clips[2]).toMatchObject({ sure: false, inheritedFrom: "b" });
  });

  it("joins chapters and lets them share the anchor exactly", () => {
    const chapters: Parameters<typeof madeClip>[] = [
      ["q2", 500.5, { fileName: "GX020044.mp4", createdUtcMs: stamp(600 + 500.5) }],
      ["q1", 500.5, { fileName: "GX010044.mp4", createdUtcMs: stamp(600) }],
    ];
    const { clips } = place(chapters, [{ clipId: "q2", mediaS: 100, rideS: 1200.5, sigmaS: 0.1 }]);
    expect(clips[1]!.found!.offsetS).toBeCloseTo(600, 6);
    expect(clips[1]!.inheritedFrom).toBeNull();
  });

  it("names a clip of the camera that was filmed outside the ride", () => {
    const { clips, warnings } = place(
      [three[0]!, ["late", 80, { createdUtcMs: stamp(9000) }]],
      [{ clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 }],
    );
    expect(clips[1]!.verdict).toBe("no match");
    expect(said(warnings).join(" ")).toContain("late.mp4 shows nothing of the ride");
  });
});

describe("anchors that need a second look", () => {
  it("makes two that contradict each other a conflict, with nothing for the other clips", () => {
    const { clips } = place(
      [
        ["a", 300, { createdUtcMs: stamp(600) }],
        ["b", 80, { createdUtcMs: stamp(2000) }],
      ],
      [
        { clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.3 },
        { clipId: "a", mediaS: 300, rideS: 750, sigmaS: 0.3 },
      ],
    );
    expect(clips.map((c) => c.sure)).toEqual([false, false]);
    expect(clips[0]!.verdict).toBe("conflict");
    expect(placementReasonText(clips[0]!.reason, "en")).toContain("marks 1 and 2 disagree by 150.0 s");
  });

  it("takes another speed from a plain word of the coach", () => {
    const { clips } = place(
      [["a", 300, { createdUtcMs: stamp(600) }]],
      [{ clipId: "a", mediaS: 100, rideS: 625, sigmaS: 0.3, rate: 0.25 }],
    );
    expect(clips[0]).toMatchObject({ sure: true, found: { offsetS: 600, rate: 0.25 } });
  });

  it("warns of one far from where the camera's clock puts the clip, in the ride's zone, UTC or another", () => {
    const warned = (createdUtcMs: number, rideS: number) =>
      place([["a", 80, { createdUtcMs }]], [{ clipId: "a", mediaS: 0, rideS, sigmaS: 0.3 }]).warnings;
    const [far] = warned(Date.UTC(2024, 6, 3), 600);
    expect(said([far!])[0]).toMatch(/filmed on 3 July 2024, and the ride is of .*: is it the right clip/);
    // 20 and 42 min off by a clock that is right, in the camera's zone or read as UTC.
    for (const zoneMin of [0, 120])
      for (const offS of [1200, -1200, 2557, 5100]) {
        const [off] = warned(stamp(5500, zoneMin), 5500 - offS);
        expect(off?.code, `${zoneMin} ${offS}`).toBe("anchor-against-clock");
        expect(said([off!])[0]).toMatch(/lies \d:\d\d:\d\d(\.\d)? from where the camera's clock puts the clip:/);
      }
    // Right, 9 min off, and right in a zone that the ride is not in.
    expect(warned(stamp(600), 605)).toEqual([]);
    expect(warned(stamp(600, 120), 1140)).toEqual([]);
    expect(warned(stamp(600, -480), 600)).toEqual([]);
  });
});

describe("placeClips by the clock alone", () => {
  it("undoes the zone by the ride's place and is never sure", () => {
    for (const zone of [120, 60, 345, -480]) {
      const { clips } = place([["a", 80, { createdUtcMs: stamp(600, zone, 12) }]]);
      expect(clips[0]).toMatchObject({ method: "clock", verdict: "not sure", sure: false });
      const near = [clips[0]!.found!.offsetS, ...clips[0]!.candidates.map((c) => c.rideStartS)];
      if (zone === 120 || zone === 60) expect(near.some((s) => Math.abs(s - 612) < 1)).toBe(true);
    }
  });

  it("keeps the clips of a camera together: one zone for all", () => {
    const { clips } = place([
      ["a", 80, { createdUtcMs: stamp(100, 120, 5) }],
      ["b", 80, { createdUtcMs: stamp(7000, 120, 5) }],
    ]);
    expect(clips[1]!.found!.offsetS - clips[0]!.found!.offsetS).toBeCloseTo(6900, 6);
    expect(clips[0]!.found!.offsetS).toBeCloseTo(105, 6);
  });

  it("says no match for another month, and nothing by a clock that was never set or that is not there", () => {
    const { clips } = place([
      ["a", 80, { createdUtcMs: 86_400_000 }],
      ["b", 80, { createdUtcMs: Date.UTC(2080, 0, 1) }],
      ["c", 80, {}],
      ["d", 80, { createdUtcMs: Date.UTC(2016, 0, 1, 0, 3, 0), camera: "Bar 2" }],
      ["e", 80, { createdUtcMs: Date.UTC(2024, 2, 11, 8, 0, 0), camera: "Bar 3" }],
    ]);
    expect(clips.map((c) => c.verdict)).toEqual(["not sure", "not sure", "not sure", "not sure", "no match"]);
    expect(clips[3]!.reason.code).toBe("clock-was-reset");
    expect(clips.every((c) => c.found === null)).toBe(true);
  });

  it("reads a timecode track to the frame", () => {
    const timeOfDayS = 10 * 3600 + 600.52;
    const { clips } = place([
      ["a", 80, { createdUtcMs: stamp(600, 120, 0), timecode: { frameNumber: 1, timeOfDayS, dropFrame: false } }],
    ]);
    expect(clips[0]!.found!.offsetS).toBeCloseTo(600.52, 6);
  });
});

it("prints the JSON contract", () => {
  const clip = madeClip("a", 80, { createdUtcMs: stamp(600) });
  const lineup = placeClips({
    ride,
    clips: [clip],
    anchors: [{ clipId: "a", mediaS: 0, rideS: 600, sigmaS: 0.1 }],
    deviceDelayS: 0,
  });
  const json = lineupJson(lineup, [clip], "en");
  expect(Object.keys(json.clips[0]!)).toEqual([
    "file",
    "startTime",
    "durationS",
    "rideStartS",
    "clockRate",
    "method",
    "verdict",
    "clockGroup",
    "inheritedFrom",
    "candidates",
    "confidence",
    "sure",
    "uncertaintyS",
    "leadS",
    "reason",
  ]);
  expect(json.clips[0]).toMatchObject({
    rideStartS: 600,
    clockRate: 1,
    sure: true,
    startTime: "2024-06-01T10:10:37.000Z",
  });
  expect(json.rides).toEqual([{ file: "made.fit", shown: true, offsetS: 0, uncertaintyS: 0 }]);
});
