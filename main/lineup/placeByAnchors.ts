import type { Anchor } from "../contract/lineup.ts";
import type { ClockGroup } from "./clockGroups.ts";
import { overlapShare, type RecordingPlacement } from "./placement.ts";
import { solveAnchors } from "./solveAnchors.ts";
import { placedBecause } from "../contract/notices/placement.ts";

/**
 * Places the recordings of a group that carry anchors. Anchors belong to the recording: those in any of its chapters
 * count together. Sure, unless the marks contradict each other (`conflict`). What was moved by hand is said; `doubtMoved` weighs it.
 */
export function placeByAnchors(
  group: ClockGroup,
  anchors: readonly Anchor[],
  rideElapsedS: number,
): RecordingPlacement[] {
  const placed: RecordingPlacement[] = [];
  for (const recording of group.recordings) {
    const marks = anchors.flatMap((anchor) => {
      const k = recording.clips.findIndex((clip) => clip.id === anchor.clipId);
      return k < 0
        ? []
        : [{ mediaS: recording.startS[k]! + anchor.mediaS, rideS: anchor.rideS, sigmaS: anchor.sigmaS }];
    });
    const byHand = anchors.some(
      ({ clipId, byHand: moved }) => moved === true && recording.clips.some(({ id }) => id === clipId),
    );
    if (marks.length === 0) continue;
    const { clock, uncertaintyS, residualsS, badMark, trouble } = solveAnchors(marks);
    const conflict = trouble !== null && badMark === null;
    const worst = Math.max(...residualsS.filter((_, k) => k !== badMark).map(Math.abs));
    placed.push({
      recording,
      clock,
      method: "anchor",
      verdict: conflict ? "conflict" : overlapShare(recording, clock, rideElapsedS) > 0 ? "sure" : "no match",
      confidence: conflict ? 0.2 : 0.99,
      uncertaintyS: conflict ? null : uncertaintyS,
      inheritedFrom: null,
      candidates: conflict ? marks.slice(0, 3).map((mark) => ({ rideStartS: mark.rideS - mark.mediaS, score: 1 })) : [],
      reason: placedBecause("anchors", {
        count: marks.length,
        agreeToS: marks.length > 1 && !conflict ? worst : null,
        rate: Math.abs(clock.rate - 1) > 1e-3 ? clock.rate : null,
        trouble,
        ...(byHand ? { byHand } : {}),
      }),
    });
  }
  return placed;
}

/**
 * The recordings of a group, with what hangs on an anchor that was moved by hand, and was not compared with the picture
 * since, no longer sure: it is a proposal, and so are the places that take their clock from it.
 */
export function doubtMoved(placed: readonly RecordingPlacement[], anchors: readonly Anchor[]): RecordingPlacement[] {
  const moved = new Set(anchors.filter(({ byHand }) => byHand === true).map(({ clipId }) => clipId));
  const held = placed.filter(({ recording }) => recording.clips.some(({ id }) => moved.has(id)));
  const doubted = new Set(held.flatMap(({ recording }) => recording.clips.map(({ id }) => id)));
  return placed.map((one) =>
    one.method === "anchor" && one.verdict === "sure" && (held.includes(one) || doubted.has(one.inheritedFrom ?? ""))
      ? { ...one, verdict: "not sure", confidence: Math.min(one.confidence, 0.5) }
      : one,
  );
}
