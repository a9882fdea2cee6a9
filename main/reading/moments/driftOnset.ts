import { candidate, type Candidate, type MomentContext } from "./momentContext.ts";

/** Where the drift began, when the reading claims it or the coach has set it. */
export function driftOnset({ drift, onsetSetBy }: MomentContext): Candidate[] {
  const { verdict, onsetS, onsetLowS, onsetHighS } = drift;
  if (verdict !== "began" || onsetS === null) return [];
  return [
    candidate(
      "driftOnset",
      { startS: Math.max(0, onsetS - 30), endS: onsetS + 30 },
      {
        reason: "drift began",
        setBy: onsetSetBy,
        numbers: {
          onsetS,
          onsetLowS,
          onsetHighS,
          driftBeats: drift.driftBeats,
          uncertaintyBeats: drift.uncertaintyBeats,
        },
        weight: 1,
      },
    ),
  ];
}
