// What Line up works out by itself: what to look at, where else a clip would fit, how footage is moved.
import { describe, expect, it } from "vitest";
import type { ClipPlacement } from "../../main/contract/lineup.ts";
import { otherPlaces } from "../../renderer/lineup/ClipPlaces.tsx";
import { placedBecause } from "../../main/contract/notices/placement.ts";
import { confirmed, movesAlong, moveFootage, putFootage } from "../../renderer/lineup/moveFootage.ts";
import { plainReason } from "../../renderer/lineup/plainReason.ts";
import { placesToCheck } from "../../renderer/lineup/placesToCheck.ts";

describe("places that show at once whether a line-up is right", () => {
  /** Rolling at 8 m/s, a stop from 100 to 130 s, a hard braking at 200 s. */
  const speed = Float64Array.from({ length: 400 }, (_, k) => (k >= 100 && k < 130 ? 0 : k >= 200 && k < 215 ? 2.6 : 8));
  it("are the stop, the start and the braking, in order, with their time in the clip", () => {
    const places = placesToCheck(speed, { offsetS: 50, rate: 1 }, 300);
    expect(places.map(({ kind, rideS, mediaS }) => [kind, rideS, mediaS])).toEqual([
      ["stops", 100, 50],
      ["starts", 130, 80],
      ["slows", 200, 150],
    ]);
  });
  it("lie inside the clip, and no figure is made of missing speed", () => {
    expect(placesToCheck(speed, { offsetS: 140, rate: 1 }, 40)).toEqual([]);
    expect(placesToCheck(new Float64Array(400).fill(Number.NaN), { offsetS: 0, rate: 1 }, 300)).toEqual([]);
  });
});

describe("other places that would fit", () => {
  const placement = {
    candidates: [-1600, 20, 0.4, 5000, 9000].map((rideStartS) => ({ rideStartS })),
    found: { offsetS: 0, rate: 1 },
  } as unknown as ClipPlacement;
  it("are those where something of the ride would be seen, other than the place in force", () => {
    expect(otherPlaces(placement, 12, 8000).map(({ rideStartS }) => rideStartS)).toEqual([20, 5000]);
    expect(otherPlaces(placement, 1700, 8000).map(({ rideStartS }) => rideStartS)).toEqual([-1600, 20, 5000]);
    expect(otherPlaces(placement, 12, null)).toHaveLength(4);
  });
});

describe("footage that is moved", () => {
  const placement = (clipId: string, clockGroup: string, offsetS: number) =>
    ({ clipId, clockGroup, found: { offsetS, rate: 1 } }) as unknown as ClipPlacement;
  const placements = [placement("a", "one", 10), placement("b", "one", 500), placement("c", "two", 90)];
  it("takes the anchors of its whole camera along, and no other camera's", () => {
    const anchors = [
      { clipId: "b", mediaS: 0, rideS: 500, sigmaS: 0.5 },
      { clipId: "c", mediaS: 1, rideS: 91, sigmaS: 0.5 },
    ];
    expect(moveFootage(anchors, placements, "a", 3, 2.5, 0.3).map(({ rideS }) => rideS)).toEqual([502.5, 91]);
  });
  it("gets an anchor at the picture that was looked at, where its camera has none", () => {
    expect(moveFootage([], placements, "a", 3, -1, 0.3)).toMatchObject([
      { clipId: "a", mediaS: 3, rideS: 12, sigmaS: 0.3 },
    ]);
  });
  it("is a proposal once it lies beyond its error, and where it was not sure before, until it is confirmed", () => {
    const sure = [{ ...placements[0]!, sure: true, uncertaintyS: 0.1 }];
    const once = moveFootage([], sure, "a", 3, 0.06, 0.05);
    expect(once[0]!.byHand).toBeUndefined();
    // Small moves add up.
    const twice = moveFootage(once, sure, "a", 3, 0.06, 0.05);
    expect(twice[0]).toMatchObject({ byHand: true, movedS: 0.12 });
    expect(moveFootage([], placements, "a", 3, 0.01, 0.05)[0]!.byHand).toBe(true);
    const agreed = confirmed(twice, sure, sure[0]!, 7);
    // Twice the standard error is what is printed: never wider than before.
    expect(agreed).toEqual([
      { clipId: "a", mediaS: 3, rideS: expect.closeTo(13.12, 6) as number, sigmaS: 0.05 },
      { clipId: "a", mediaS: 7, rideS: 17, sigmaS: 0.05 },
    ]);
  });
  it("says which clips of its camera move along: those with an anchor, and those on its clock", () => {
    const group = ["a", "b", "c", "d"].map((id) => ({
      ...placement(id, "one", 0),
      inheritedFrom: null as string | null,
    }));
    group[1]!.inheritedFrom = "a";
    const anchors = [{ clipId: "c", mediaS: 0, rideS: 1, sigmaS: 0.5 }];
    expect(movesAlong(anchors, group, "a")).toEqual({ along: 2, stay: 1 });
  });
  it("put at a place of its own, it is held there by that anchor alone", () => {
    const next = { clipId: "a", mediaS: 0, rideS: 700, sigmaS: 0.5 };
    expect(
      putFootage(
        [
          { clipId: "b", mediaS: 0, rideS: 500, sigmaS: 0.5 },
          { clipId: "c", mediaS: 1, rideS: 91, sigmaS: 0.5 },
        ],
        placements,
        next,
      ).map(({ clipId }) => clipId),
    ).toEqual(["c", "a"]);
  });
});

describe("why a clip that is sure lies where it lies", () => {
  const positions = {
    rmsM: 3.3,
    movedM: 532,
    anotherFits: false,
    hardlyMoved: false,
    clockOffS: null,
    unlike: false,
  };
  const own = placedBecause("camera-positions", positions);
  const anchors = { count: 2, agreeToS: 0.1, rate: null, trouble: null };
  it("is folded where it says no more than what it was measured by", () => {
    for (const reason of [
      own,
      placedBecause("shared-clock", { own, others: 2 }),
      placedBecause("anchors", anchors),
      placedBecause("clock-of", { sourceName: "bars-1.mp4", trimS: null }),
    ])
      expect(plainReason(reason), reason.code).toBe(true);
  });
  it("stays open where anything is odd, doubted or has to be looked at", () => {
    const odd = placedBecause("camera-positions", { ...positions, clockOffS: 3600 });
    for (const reason of [
      odd,
      placedBecause("shared-clock", { own: odd, others: 2 }),
      ...(["anotherFits", "hardlyMoved", "unlike"] as const).map((doubt) =>
        placedBecause("camera-positions", { ...positions, [doubt]: true }),
      ),
      placedBecause("anchors", { ...anchors, rate: 0.25 }),
      placedBecause("anchors", { ...anchors, byHand: true }),
      placedBecause("anchors", { ...anchors, trouble: { kind: "one left out", mark: 2, byS: 9 } }),
      placedBecause("clock-of", { sourceName: "bars-1.mp4", trimS: 11 }),
      placedBecause("camera-on-another-rider", { leadS: 4, errorS: 1, unlike: false }),
      placedBecause("slow-motion", { own, times: 4 }),
      placedBecause("clock-unchecked", { zoneMin: 60 }),
    ])
      expect(plainReason(reason), JSON.stringify(reason)).toBe(false);
  });
});
