// Where signals leave a clip's place open, a person is offered where to look: by them, and by the camera's clock.
import { expect, it } from "vitest";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { placeClips } from "../../main/lineup/placeClips.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { placementReasonText } from "../../overlay/words/notices/placementReason.ts";
import { madeClip } from "./madeClip.ts";

const ride = parseRide(demoRideFile(demoRide(2)), "ride.fit");
/** A picture and a sound that tell nothing of any place: noise of their own. */
function noise(seed: number, count: number): Float64Array {
  let state = seed;
  return Float64Array.from({ length: count }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  });
}

it("the clock's likeliest place is among three at most, and no place of which signals tell nothing", () => {
  for (const [seed, rideS] of [
    [1, 900],
    [2, 2575],
    [3, 5200],
  ] as const) {
    const clip = madeClip("a", 60, { createdUtcMs: ride.startUtcMs! + 1000 * rideS });
    const signals = [
      {
        ...{ clipId: "a", count: 240, bytesRead: 0, lacks: [], turning: null },
        ...{ motion: noise(seed, 240), sound: noise(seed + 10, 240) },
      },
    ];
    const [placed] = placeClips({ ride, clips: [clip], signals, anchors: [], deviceDelayS: 0 }).clips;
    expect(placed!.method).toBe("signals");
    expect(placed!.verdict).not.toBe("sure");
    const places = placed!.candidates.map(({ rideStartS }) => rideStartS);
    expect(places.length).toBeLessThanOrEqual(3);
    expect(Math.min(...places.map((s) => Math.abs(s - rideS))), `${places.join(", ")}`).toBeLessThan(8);
    for (const { score } of placed!.candidates.slice(1, -1)) expect(score).toBeGreaterThan(0);
  }
});

it.each([
  [
    ["could be chance", "another place fits", "few moments", "too short", "not sharp"],
    /but two minutes of footage at least[^;]*$/,
  ],
  [["could be chance", "another place fits", "few moments"], /but the agreement could be chance; another place [^;]*$/],
] as const)("no more doubts are said than a person takes in: %s", (doubts, wanted) => {
  const reason = { code: "signals-open", facts: { used: ["motion"], doubts } } as const;
  expect(placementReasonText(reason, "en")).toMatch(wanted);
});
