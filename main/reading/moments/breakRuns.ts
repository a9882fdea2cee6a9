import type { Break } from "../../contract/reading.ts";
import { lengthS } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { candidate, type Candidate, type MomentContext } from "./momentContext.ts";

/** Runs of three or more breaks within five minutes, none of them excused: one moment each, as long as the run lasts. */
export function breakRuns({ breaks }: MomentContext): Candidate[] {
  const { runBreaks, runWithinS } = thresholds.moment;
  const runs: Break[][] = [];
  let run: Break[] = [];
  // An excused break ends a run: riding through traffic is no pattern.
  for (const one of breaks) {
    const first = run[0];
    if (one.excused !== false) {
      run = [];
    } else if (first && one.endS - first.startS <= runWithinS) {
      run.push(one);
    } else {
      run = [one];
    }
    if (run.length === runBreaks) runs.push(run);
  }
  return runs.map((found) => {
    const startS = found[0].startS;
    const endS = (found.at(-1) as Break).endS;
    const offS = found.reduce((sum, one) => sum + lengthS(one), 0);
    return candidate(
      "breakRun",
      { startS, endS },
      {
        reason: "breaks in a row",
        excused: false,
        numbers: { breaks: found.length, offS, durationS: endS - startS },
        weight: Math.min(1, found.length / 10),
      },
    );
  });
}
