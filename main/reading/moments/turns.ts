import { joinSpans, runsOf } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { candidate, meanOrNull, type Candidate, type MomentContext } from "./momentContext.ts";

/** U-turns and tight turns, worth practising: heading changes by 120 degrees or more within 15 s at a radius of 15 m or less. */
export function turns({ ride, plan }: MomentContext): Candidate[] {
  const { headingDeg, turnRadiusM, seconds, speed } = ride.grid;
  if (!headingDeg || !turnRadiusM || plan.setting === "trainer") return [];
  const limits = thresholds.moment;
  const half = Math.floor(limits.turnWithinS / 2);
  const change = (s: number) => {
    const turned = headingDeg[Math.min(seconds - 1, s + half)] - headingDeg[Math.max(0, s - half)];
    return Number.isFinite(turned) ? turned : 0;
  };
  const tight = (s: number) => turnRadiusM[s] <= limits.turnRadiusM && Math.abs(change(s)) >= limits.turnDeg;
  return joinSpans(runsOf(tight, 0, seconds), half).map((span) => {
    const middle = Math.floor((span.startS + span.endS) / 2);
    const turnedDeg = change(middle);
    const around = { startS: Math.max(0, span.startS - half), endS: Math.min(seconds, span.endS + half) };
    const slowest = speed
      ? speed.value.slice(around.startS, around.endS).reduce((least, v) => (v < least ? v : least), Infinity)
      : NaN;
    return candidate("turn", around, {
      reason: Math.abs(turnedDeg) >= 150 ? "U-turn" : "tight turn",
      numbers: {
        turnedDeg: Math.abs(turnedDeg),
        slowestMps: Number.isFinite(slowest) ? slowest : null,
        speedBeforeMps: meanOrNull(speed?.value, around.startS - 5, around.startS),
      },
      weight: 0.5,
    });
  });
}
