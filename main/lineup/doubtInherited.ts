import { SIGNAL_STEP_S } from "../contract/signals.ts";
import type { RecordingPlacement } from "./placement.ts";
import { clockWasReset } from "./clockWasReset.ts";
import { toldAsOneCamera } from "./clockGroups.ts";
import { hasAny, recordingSeries, type SensedSignals } from "./recordingSeries.ts";
import { recordingScore, type RecordingScore } from "./signals/featureScores.ts";
import type { RideForSignals } from "./signals/memberPlaces.ts";
import { placedBecause, type InheritDoubt } from "../contract/notices/placement.ts";

/** One camera films one thing at a time: recordings of it may overlap by this much of whole-second clocks, s. */
const MOST_OVERLAP_S = 2;
/** What is seen and heard is asked of recordings of at least this length, s: shorter ones agree anywhere. */
const LEAST_HEARD_S = 180;
/**
 * A place that more than this share of all places beat is doubted. Of 200 simulated clips at their right place, this
 * doubts 6 % of those of 4 min, 3 % of 8 and none of 20; of those slowed fourfold or at a wrong place about 88 %.
 */
const MOST_BEATEN_BY = 0.1;
/** A place by the clock is looked at with the seconds about it, s: clocks of whole seconds, and what a turn may lead. */
const SLACK_S = 2;

/**
 * Share of the places in the ride whose evidence beats that of `offsetS` (and of the places `SLACK_S` about it), 0 to 1;
 * null where there is nothing to compare. Blocks of equal length are compared, the best of each, as the place has a choice too.
 */
function beatenBy(score: RecordingScore, offsetS: number): number | null {
  const reach = Math.round(SLACK_S / SIGNAL_STEP_S);
  const bestAbout = (centre: number) => {
    let best = NaN;
    for (let k = Math.max(0, centre - reach); k <= Math.min(score.evidence.length - 1, centre + reach); k++)
      if (!(score.evidence[k]! <= best) && Number.isFinite(score.evidence[k])) best = score.evidence[k]!;
    return best;
  };
  const here = Math.round(offsetS / SIGNAL_STEP_S) - score.firstLag;
  const own = bestAbout(here);
  if (!Number.isFinite(own)) return null;
  let [better, all] = [0, 0];
  for (let centre = reach; centre < score.evidence.length; centre += 2 * reach + 1) {
    const other = bestAbout(centre);
    if (!Number.isFinite(other) || Math.abs(centre - here) <= 2 * reach) continue;
    all += 1;
    if (other > own) better += 1;
  }
  return all === 0 ? null : better / all;
}

function span(placed: RecordingPlacement): readonly [number, number] {
  const { offsetS, rate } = placed.clock!;
  return [offsetS, offsetS + rate * placed.recording.durationS];
}

/** Which other recording of the camera runs while this one would, and for how long; null when none does. */
function overlapping(
  placed: RecordingPlacement,
  all: readonly RecordingPlacement[],
): { readonly fileName: string; readonly overlapS: number } | null {
  const [from, to] = span(placed);
  for (const other of all) {
    if (other === placed || !other.clock || other.verdict === "no match") continue;
    const [otherFrom, otherTo] = span(other);
    const s = Math.min(to, otherTo) - Math.max(from, otherFrom);
    if (s > MOST_OVERLAP_S + (placed.uncertaintyS ?? 0))
      return { fileName: other.recording.clips[0]!.fileName, overlapS: s };
  }
  return null;
}

/** A trim takes off as much as this as a rule, and leaves the file's times as they were, s (common practice, no source). */
const TRIM_S = 10;

/** Whether a program wrote this clip, or the one whose clock it follows, anew. */
function mayBeTrimmed(p: RecordingPlacement, all: readonly RecordingPlacement[]): boolean {
  const source = all.find(({ recording }) => recording.clips.some(({ id }) => id === p.inheritedFrom));
  return [p, source].some((one) => one?.recording.clips.some(({ rewritten }) => rewritten === true) ?? false);
}

/** A place by a clock that may have outlived a trim: sure only to within that. */
function withTrim(p: RecordingPlacement): RecordingPlacement {
  const { code, facts } = p.reason;
  return {
    ...p,
    // All one way: it does not average out with the rest.
    uncertaintyS: (p.uncertaintyS ?? 0) + TRIM_S,
    reason: code === "clock-of" ? placedBecause(code, { ...facts, trimS: TRIM_S }) : p.reason,
  };
}

/**
 * Looks again at recordings that are sure by nothing but their camera's clock, as another recording fixes it. That clock
 * tells nothing of a clip that does not run at the speed of life, and camera names do not tell two cameras of one make
 * apart. A doubt makes them a `conflict`: they would run while the camera filmed another clip; they have no sound where
 * the other has one, as slow motion and time lapse are written (common practice, no source); or what they show and let
 * hear fits most other places in the ride better, where `signals` hold it. A clip that is not told to be of that very camera,
 * or whose clock was never set, is not sure, unless what it shows and lets hear bears the place out. Where a program wrote a file anew, its times may
 * have outlived a trim: then the printed error covers one, unless what the clip shows and lets hear bears the place out.
 */
export function doubtInherited(
  placed: readonly RecordingPlacement[],
  signals: readonly SensedSignals[],
  ride: () => RideForSignals,
  rideStartUtcMs: number | null,
): RecordingPlacement[] {
  const beatenShare = (p: RecordingPlacement): number | null => {
    if (p.recording.durationS < LEAST_HEARD_S) return null;
    const series = recordingSeries(p.recording, signals);
    const score = hasAny(series) ? recordingScore(series, ride().prepared) : null;
    return score && beatenBy(score, p.clock!.offsetS);
  };
  const firsts = placed.map(({ recording }) => recording.clips[0]!);
  const doubtOf = (p: RecordingPlacement): InheritDoubt | null => {
    const source = placed.find(({ recording }) => recording.clips.some(({ id }) => id === p.inheritedFrom));
    const overlap = overlapping(p, placed);
    if (overlap) return { kind: "camera filmed another", ...overlap };
    if (source && source.recording.clips[0]!.audio !== null && p.recording.clips[0]!.audio === null)
      return { kind: "no sound", sourceName: source.recording.clips[0]!.fileName };
    const beaten = beatenShare(p);
    if (beaten !== null && beaten > MOST_BEATEN_BY) return { kind: "fits elsewhere" };
    // Else what it shows and lets hear bears the place out.
    if (!source || beaten !== null) return null;
    const [clip, other] = [p.recording.clips[0]!, source.recording.clips[0]!];
    const sourceName = other.fileName;
    if (!toldAsOneCamera(other, clip, firsts)) return { kind: "camera not told", sourceName };
    return rideStartUtcMs !== null && clip.createdUtcMs !== null && clockWasReset(clip.createdUtcMs, rideStartUtcMs)
      ? { kind: "clock was reset", sourceName }
      : null;
  };
  const confirmed = (p: RecordingPlacement): boolean => {
    const beaten = beatenShare(p);
    return beaten !== null && beaten <= MOST_BEATEN_BY;
  };
  return placed.map((p) => {
    if (p.inheritedFrom === null || p.verdict !== "sure" || !p.clock) return p;
    const doubt = doubtOf(p);
    if (doubt === null) return mayBeTrimmed(p, placed) && !confirmed(p) ? withTrim(p) : p;
    const open = doubt.kind === "camera not told" || doubt.kind === "clock was reset";
    const candidates = [{ rideStartS: p.clock.offsetS, score: p.confidence }];
    return {
      ...p,
      verdict: open ? ("not sure" as const) : ("conflict" as const),
      confidence: open ? 0.6 : 0.4,
      candidates,
      reason: placedBecause("inherited-doubted", { own: p.reason, atS: p.clock.offsetS, doubt }),
    };
  });
}
