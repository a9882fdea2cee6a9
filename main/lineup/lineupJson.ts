import type { Clip } from "../contract/footage.ts";
import type { Lineup } from "../contract/lineup.ts";
import { placementReasonText } from "../../overlay/words/notices/placementReason.ts";
import type { Language } from "../contract/languageAndUnits.ts";

function rounded(value: number, decimals: number): number {
  const f = 10 ** decimals;
  return Math.round(value * f) / f;
}

/** A line-up as `followcar lineup --json` prints it; the keys are a contract. Unknown values are null. */
export interface LineupJson {
  readonly clips: readonly {
    readonly file: string;
    readonly startTime: string | null;
    readonly durationS: number;
    readonly rideStartS: number | null;
    readonly clockRate: number | null;
    readonly method: string;
    readonly verdict: string;
    readonly clockGroup: string;
    readonly inheritedFrom: string | null;
    readonly candidates: readonly { readonly rideStartS: number; readonly score: number }[];
    readonly confidence: number;
    readonly sure: boolean;
    readonly uncertaintyS: number | null;
    /** Seconds by which another rider's camera was ahead of the shown ride; null where it is the rider's own. */
    readonly leadS: number | null;
    readonly reason: string;
  }[];
  readonly rides: readonly {
    readonly file: string;
    readonly shown: boolean;
    readonly offsetS: number;
    readonly uncertaintyS: number | null;
  }[];
}

/** The line-up in its printed form; `clips` are those it was made from, by id. Times to the millisecond. */
export function lineupJson(lineup: Lineup, clips: readonly Clip[], language: Language): LineupJson {
  const byId = new Map(clips.map((clip) => [clip.id, clip]));
  return {
    clips: lineup.clips.map((placed) => {
      const clip = byId.get(placed.clipId)!;
      const from = placed.inheritedFrom === null ? null : (byId.get(placed.inheritedFrom)?.fileName ?? null);
      return {
        file: clip.path,
        startTime: clip.createdUtcMs === null ? null : new Date(clip.createdUtcMs).toISOString(),
        durationS: rounded(clip.durationS, 3),
        rideStartS: placed.found && rounded(placed.found.offsetS, 3),
        clockRate: placed.found && rounded(placed.found.rate, 9),
        method: placed.method,
        verdict: placed.verdict,
        clockGroup: placed.clockGroup,
        inheritedFrom: from,
        candidates: placed.candidates.map((c) => ({
          rideStartS: rounded(c.rideStartS, 3),
          score: rounded(c.score, 4),
        })),
        confidence: rounded(placed.confidence, 3),
        sure: placed.sure,
        uncertaintyS: placed.uncertaintyS === null ? null : rounded(placed.uncertaintyS, 3),
        leadS: placed.leadS === undefined ? null : rounded(placed.leadS, 1),
        reason: placementReasonText(placed.reason, language),
      };
    }),
    rides: lineup.rides.map((ride) => ({
      file: ride.file,
      shown: ride.shown,
      offsetS: rounded(ride.offsetS, 3),
      uncertaintyS: ride.uncertaintyS === null ? null : rounded(ride.uncertaintyS, 3),
    })),
  };
}
