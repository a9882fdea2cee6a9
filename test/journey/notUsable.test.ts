import { describe, expect, test } from "vitest";
import type { ClipPlacement, Lineup } from "../../main/contract/lineup.ts";
import { anchorWarnings, notSure, notUsable, nowhere } from "../../main/journey/clipDoubts.ts";
import { ExitCode, exitCodeOf } from "../../main/cli/exitCode.ts";
import { parseAnchor } from "../../main/lineup/parseAnchor.ts";
import { madeClip } from "../lineup/madeClip.ts";
import { madeRide } from "../lineup/madeRide.ts";
import { placedBecause } from "../../main/contract/notices/placement.ts";
import { note } from "../../main/contract/notice.ts";
import { failureSaid } from "../support/said.ts";

function placement(clipId: string, more: Partial<ClipPlacement>): ClipPlacement {
  return {
    clipId,
    found: { offsetS: 100, rate: 1 },
    method: "anchor",
    verdict: "sure",
    sure: more.verdict === undefined || more.verdict === "sure",
    confidence: 0.9,
    uncertaintyS: 1,
    clockGroup: "camera 1",
    inheritedFrom: null,
    candidates: [],
    reason: placedBecause("anchors", { count: 1, agreeToS: null, rate: null, trouble: null }),
    ...more,
  };
}

const clips = [madeClip("a", 60), madeClip("b", 90)];
const lineup = (...placements: ClipPlacement[]): Lineup => ({
  clips: placements,
  rides: [],
  deviceDelayS: 0,
  warnings: [],
});
const open: Partial<ClipPlacement> = {
  verdict: "not sure",
  inheritedFrom: "a",
  reason: placedBecause("clock-mark-open", { sourceName: "a", spreadS: 12 }),
};

describe("which clips a debrief may use", () => {
  test("one anchor sets the clock of all clips of its camera, and a doubt that stays is said", () => {
    const made = lineup(placement("a", {}), placement("b", open));
    expect(notUsable(clips, made)).toBeNull();
    expect(notSure(clips, made)?.code).toBe("lineup-not-sure");
    expect(anchorWarnings(clips, made)).toEqual([
      note("clip-by-anchored-clock", { fileName: "b.mp4", reason: made.clips[1]!.reason }),
    ]);
  });

  test("a clip by its clock alone, or whose camera's anchors disagree, may not be used", () => {
    expect(notUsable(clips, lineup(placement("a", {}), placement("b", { ...open, method: "clock" })))?.code).toBe(
      "lineup-not-sure",
    );
    expect(notUsable(clips, lineup(placement("a", {}), placement("b", { ...open, verdict: "conflict" })))?.code).toBe(
      "lineup-not-sure",
    );
  });

  test("a clip that shows nothing of the ride is left out, unless none is left", () => {
    const none: Partial<ClipPlacement> = { verdict: "no match" };
    expect(notUsable(clips, lineup(placement("a", {}), placement("b", none)))).toBeNull();
    expect(notUsable(clips, lineup(placement("a", none), placement("b", none)))?.code).toBe("lineup-not-sure");
  });

  test("nobody can agree to a place that there is not, unless another clip has one", () => {
    const none: Partial<ClipPlacement> = { verdict: "no match" };
    const unplaced: Partial<ClipPlacement> = { verdict: "not sure", found: null };
    expect(nowhere(clips, lineup(placement("a", none), placement("b", unplaced)))?.code).toBe("lineup-not-sure");
    expect(nowhere(clips, lineup(placement("a", none), placement("b", open)))).toBeNull();
    expect(nowhere([], lineup())).toBeNull();
  });

  test("anchors that contradict each other end with exit code 4", () => {
    const trouble = placement("a", { verdict: "conflict", candidates: [{ rideStartS: 100, score: 1 }] });
    for (const doubt of [notUsable, notSure])
      expect(exitCodeOf(doubt([clips[0]!], lineup(trouble))!.code)).toBe(ExitCode.notSure);
  });

  test("the remedy's instant lies inside the clip, however short; typed as it stands it is no anchor", () => {
    for (const durationS of [0.4, 3, 12, 23.9, 24.1, 600]) {
      const clip = madeClip("a", durationS);
      const remedy = failureSaid(notSure([clip], lineup(placement("a", { verdict: "not sure" })))).remedy;
      const anchor = /--anchor "([^"]+)"/.exec(remedy)![1]!;
      expect(() => parseAnchor(anchor, [clip], madeRide(60))).toThrow("ride-time-form");
      expect(parseAnchor(anchor.replace("RIDE_TIME", "0:00:30"), [clip], madeRide(60)).mediaS).toBeLessThan(durationS);
    }
  });

  test("the remedy names the places that could be, in a form that a camera's file name may break no more", () => {
    const clip = { ...madeClip("a", 60), fileName: "bar cam 1.mp4" };
    const candidates = [2551, 2575].map((rideStartS) => ({ rideStartS, score: 1 }));
    const open = placement("a", { verdict: "not sure", candidates });
    const { remedy } = failureSaid(notSure([clip], lineup(open)));
    expect(remedy).toContain("It could begin at 0:42:31 or 0:42:55 of the ride.");
    expect(remedy).toContain('--anchor "bar cam 1.mp4@12=RIDE_TIME"');
  });
});
