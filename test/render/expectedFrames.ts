// Which source frame a film has to show at each of its own, worked out from the film's definition alone.
import type { Film, Shot } from "../../main/contract/film.ts";

export interface Expected {
  /** Source frames that may be seen; more than one where the instant lies in the middle between two. */
  readonly allowed: readonly number[];
  readonly fading: boolean;
  /** Source frames that a step to the next film frame passes over, at an even rate; null where the picture is held. */
  readonly step: number | null;
}

/** So far off its place may a picture stand that a clock's jitter moved, frames. */
const JITTER_FRAMES = 0.3;

/**
 * The film's frames from its definition alone: at each output instant the nearest source frame, or the last that has
 * come where each stands for several output frames; the shot's start may move to its own nearest frame. In shots of
 * keyframes the last of those that has come.
 */
export function expectedFrames(
  film: Film,
  items: readonly Shot[],
  pts: readonly number[],
  variable: boolean,
  uneven: boolean,
): Expected[] {
  const frameS = film.frameRate.den / film.frameRate.num;
  const steps = pts.slice(1).map((time, k) => time - pts[k]!);
  const intervalS = uneven
    ? steps.sort((a, b) => a - b)[Math.floor(steps.length / 2)]!
    : (pts.at(-1)! - pts[0]!) / (pts.length - 1);
  const expected: Expected[] = [];
  for (const shot of items) {
    const heldS = shot.freezes.reduce((sum, freeze) => sum + freeze.durationS, 0);
    const frames = Math.round(((shot.mediaEndS - shot.mediaStartS) / shot.speed + heldS) / frameS);
    const fading = Math.round(shot.crossfadeS / frameS);
    const start = expected.length - fading;
    const stepS = frameS * shot.speed;
    for (let k = 0; k < frames; k += 1) {
      const atS = mediaAt(shot, k * frameS);
      const held = [k - 1, k, k + 1].some((near) =>
        shot.freezes.some(({ atMediaS }) => mediaAt(shot, near * frameS) === atMediaS),
      );
      const allowed: number[] = [];
      if (shot.speed >= 15) {
        const shown = pts.findLastIndex((time, index) => index % 4 === 0 && time <= atS + 2e-5);
        allowed.push(Math.max(0, shown));
      } else {
        const soonerS = Math.min(stepS, intervalS) / 2;
        const slackS = intervalS * (0.5 + (variable ? JITTER_FRAMES : 0)) + (held ? stepS / 2 : 0) + 1e-3;
        for (let n = 0; n < pts.length; n += 1) {
          const comesS = pts[n]! - soonerS;
          const goesS = (pts[n + 1] ?? Infinity) - soonerS;
          if (comesS <= atS + slackS && goesS > atS - slackS) allowed.push(n);
        }
      }
      const one = { allowed, fading: k < fading, step: held || shot.speed >= 15 ? null : stepS / intervalS };
      if (k < fading) expected[start + k] = one;
      else expected.push({ ...one, step: k === frames - 1 ? null : one.step });
    }
  }
  return expected;
}

/**
 * Steps from a picture to the next that are not one of the two whole numbers about the rates' own; where the rates are
 * the same but for a clock that runs a little fast or slow, more of them than that alone asks.
 */
export function unevenSteps(
  numbers: readonly number[],
  expected: readonly Expected[],
  lastSource: number,
  uneven: boolean,
): number {
  if (uneven) return 0;
  let [odd, asked] = [0, 0];
  expected.forEach(({ step, fading }, k) => {
    if (step === null || fading || (expected[k + 1]?.fading ?? true)) return;
    const next = numbers[k + 1]!;
    // Past the clip's end its last frame stands.
    if (next >= lastSource) return;
    const made = next - numbers[k]!;
    const near = Math.round(step);
    if (near > 0 && Math.abs(step - near) < 0.02) {
      asked += Math.abs(step - near);
      if (made !== near) odd += 1;
    } else if (made < Math.floor(step) || made > Math.ceil(step)) odd += 1;
  });
  return Math.max(0, odd - Math.ceil(asked - 1e-3));
}

function mediaAt(shot: Shot, itemS: number): number {
  let atS = shot.mediaStartS;
  let leftS = itemS;
  for (const freeze of shot.freezes) {
    const untilS = (freeze.atMediaS - atS) / shot.speed;
    if (leftS <= untilS) break;
    leftS = Math.max(untilS, leftS - freeze.durationS);
    if (leftS === untilS) return freeze.atMediaS;
    leftS -= untilS;
    atS = freeze.atMediaS;
  }
  return atS + leftS * shot.speed;
}
