import { claimedStart, type CreationMark } from "./claimedStart.ts";
import type { ClockGroup } from "./clockGroups.ts";
import { notPlaced, overlapShare, type RecordingPlacement } from "./placement.ts";
import type { Recording } from "./recordings.ts";
import { placedBecause } from "../contract/notices/placement.ts";

/** Recordings of one camera whose clocks differ by more than this do not share a clock, s. */
const SAME_CLOCK_S = 2;

const MARKS: readonly CreationMark[] = ["start", "end"];

/** Camera clock minus ride time at the first frame, s, if the creation time marks `mark`. */
function clockErrorS(placed: RecordingPlacement, mark: CreationMark): number | null {
  const claimed = claimedStart(placed.recording.clips[0]!, mark);
  return claimed === null || !placed.clock ? null : claimed - placed.clock.offsetS;
}

function nameOf(recording: Recording): string {
  return recording.clips[0]!.fileName;
}

/** Which marks make all the placed recordings agree on one clock. */
function agreeingMarks(group: ClockGroup, sources: readonly RecordingPlacement[]): CreationMark[] {
  const marks = group.mark ? [group.mark] : MARKS;
  return marks.filter((mark) => {
    const errors = sources.map((source) => clockErrorS(source, mark)).filter((e): e is number => e !== null);
    return Math.max(...errors) - Math.min(...errors) <= SAME_CLOCK_S;
  });
}

/**
 * Places the recordings of a group that nothing places by themselves through the camera's clock, as fixed by the
 * recordings in `sources` (all sure). Each says from which clip it inherits. Where it stays open whether the clock marks
 * a clip's start or end, and that matters by more than 2 s, or where the sources do not agree on one clock, the result is
 * not sure.
 */
export function inheritClock(
  group: ClockGroup,
  sources: readonly RecordingPlacement[],
  rideElapsedS: number,
): RecordingPlacement[] {
  const clocked = sources.filter((source) => clockErrorS(source, "start") !== null);
  const rest = group.recordings.filter((recording) => !sources.some((source) => source.recording === recording));
  const marks = agreeingMarks(group, clocked);
  return rest.map((recording): RecordingPlacement => {
    const claimed = claimedStart(recording.clips[0]!, "start");
    const nearest = [...clocked].sort((a, b) => {
      const away = (p: RecordingPlacement) => Math.abs(claimedStart(p.recording.clips[0]!, "start")! - (claimed ?? 0));
      return away(a) - away(b);
    })[0];
    if (claimed === null || !nearest)
      return notPlaced(recording, "not sure", placedBecause("no-clock-to-tie", { fileName: nameOf(recording) }));
    const startAt = (mark: CreationMark) => claimedStart(recording.clips[0]!, mark)! - clockErrorS(nearest, mark)!;
    const open = marks.length > 0 ? marks : MARKS;
    const starts = open.map(startAt);
    const spreadS = Math.max(...starts) - Math.min(...starts);
    const clock = { offsetS: starts[0]!, rate: 1 };
    const exact = recording.clips[0]!.timecode !== null && nearest.recording.clips[0]!.timecode !== null;
    // Two whole-second times differ by up to one second from the truth; timecodes by a frame.
    const ownS = exact ? 0.1 : 1;
    const uncertaintyS = Math.hypot(nearest.uncertaintyS ?? 0, ownS) + spreadS;
    const from = nearest.recording.clips[0]!;
    const base = { recording, clock, method: nearest.method, inheritedFrom: from.id, uncertaintyS };
    const candidates = [...new Set(starts)].map((rideStartS, k) => ({ rideStartS, score: k === 0 ? 0.8 : 0.2 }));
    if (overlapShare(recording, clock, rideElapsedS) === 0) {
      const side = clock.offsetS < 0 ? "before the ride" : "after the ride";
      return {
        ...base,
        verdict: "no match",
        confidence: nearest.confidence,
        candidates: [],
        reason: placedBecause("clock-of-outside", { fileName: nameOf(recording), sourceName: from.fileName, side }),
      };
    }
    if (marks.length === 0) {
      return {
        ...base,
        verdict: "conflict",
        confidence: 0.3,
        candidates,
        reason: placedBecause("clocks-disagree", { fileName: nameOf(recording), sourceName: from.fileName }),
      };
    }
    if (spreadS > SAME_CLOCK_S) {
      return {
        ...base,
        verdict: "not sure",
        confidence: 0.6,
        candidates,
        reason: placedBecause("clock-mark-open", { sourceName: from.fileName, spreadS }),
      };
    }
    return {
      ...base,
      verdict: "sure",
      confidence: Math.min(nearest.confidence, 0.95),
      candidates: [],
      reason: placedBecause("clock-of", { sourceName: from.fileName, trimS: null }),
    };
  });
}
