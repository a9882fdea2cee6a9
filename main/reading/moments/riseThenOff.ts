import { PressureState, type Break } from "../../contract/reading.ts";
import type { Span } from "../../contract/ride.ts";
import { joinSpans, lengthS, runsOf, sharedS } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { candidate, type Candidate, type MomentContext } from "./momentContext.ts";

const limits = thresholds.moment;

/** Rises of the counted part: at least 8 m gained at 2 % or more; easings of a few seconds do not end one. */
export function risesOf({ ride, counted }: Pick<MomentContext, "ride" | "counted">): Span[] {
  const { gradientPercent, altitude } = ride.grid;
  if (!gradientPercent || !altitude) return [];
  const up = (s: number) => gradientPercent[s] >= limits.risePercent;
  const rises: Span[] = [];
  for (const stretch of counted.stretches) {
    for (const span of joinSpans(runsOf(up, stretch.startS, stretch.endS), 8)) {
      const gainedM = altitude.value[span.endS - 1] - altitude.value[span.startS];
      if (gainedM >= limits.riseM) rises.push(span);
    }
  }
  return rises;
}

/**
 * The pattern "above the plan uphill, no pressure over the top": above the band on a rise, and a break that nothing excuses within a minute of its top.
 *
 * Told once, at its clearest place, with its count; from three such rises on.
 */
export function riseThenOff(context: MomentContext): Candidate[] {
  const { states, breaks } = context;
  const rises = risesOf(context);
  const found: { rise: Span; coast: Break }[] = [];
  let hard = 0;
  for (const rise of rises) {
    let above = 0;
    for (let s = rise.startS; s < rise.endS; s++) if (states[s] === PressureState.above) above++;
    if (above < 5) continue;
    hard++;
    const over = { startS: rise.endS - 5, endS: rise.endS + limits.overTopWithinS };
    const coast = breaks.find(
      (one) =>
        one.excused !== true &&
        lengthS(one) >= limits.overTopBreakS &&
        one.startS >= over.startS &&
        sharedS(one, over) > 0,
    );
    if (coast) found.push({ rise, coast });
  }
  if (found.length < limits.overTopLeast) return [];
  const clearest = found.reduce((best, next) => (lengthS(next.coast) > lengthS(best.coast) ? next : best));
  const fromS = Math.max(clearest.rise.startS, clearest.rise.endS - 60);
  return [
    candidate(
      "riseThenOff",
      { startS: fromS, endS: clearest.coast.endS },
      {
        reason: "above the plan uphill, no pressure over the top",
        excused: false,
        numbers: { times: found.length, rises: rises.length, risesRiddenHard: hard, coastS: lengthS(clearest.coast) },
        weight: Math.min(1, found.length / rises.length),
      },
    ),
  ];
}
