import {
  PressureState,
  type Break,
  type PressureReading,
  type StateShares,
  type Surge,
} from "../../contract/reading.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { meanOf, standardDeviationOf } from "../../maths/statistics.ts";
import { lengthS } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { Cranks, cranksKnown } from "./cranks.ts";
import type { JudgedBy } from "./pressureStates.ts";
import { surgeFrom } from "./surges.ts";

/** What the sums are made from. */
export interface PressureParts {
  readonly ride: Ride;
  readonly stretches: readonly Span[];
  readonly states: Uint8Array;
  readonly cranks: Uint8Array;
  readonly breaks: readonly Break[];
  readonly surges: readonly Surge[];
  readonly judgedBy: JudgedBy;
  readonly roadKnown: boolean;
}

/** Sums over the judged stretches. In, below, above, off and unknown add up to their length. */
export function pressureReading(parts: PressureParts): PressureReading {
  const { ride, stretches, states, cranks, breaks, surges } = parts;
  const all = emptyShares();
  const byClass = { up: emptyShares(), flat: emptyShares(), down: emptyShares() };
  let unknownS = 0;
  let excusedOffS = 0;
  let cannotTellOffS = 0;
  const watts: number[] = [];
  const wattsPressed: number[] = [];
  const grade = ride.grid.gradientPercent;
  const limit = thresholds.pressure.gradeClassPercent;
  for (const stretch of stretches) {
    for (let s = stretch.startS; s < stretch.endS; s++) {
      const state = states[s] as PressureState;
      if (state === PressureState.unknown) unknownS++;
      if (state === PressureState.offExcused) excusedOffS++;
      if (state === PressureState.offUnclear) cannotTellOffS++;
      add(all, state);
      const percent = grade?.[s] ?? NaN;
      if (Number.isFinite(percent))
        add(percent > limit ? byClass.up : percent < -limit ? byClass.down : byClass.flat, state);
      const value = ride.grid.power?.value[s] ?? NaN;
      if (Number.isFinite(value)) {
        watts.push(value);
        if (cranks[s] === Cranks.pressed) wattsPressed.push(value);
      }
    }
  }
  return {
    ...all,
    unknownS,
    excusedOffS,
    cannotTellOffS,
    breaks: breaks.length,
    lapses: breaks.filter((one) => one.lapse).length,
    surges: surges.length,
    surgeFrom: surgeFrom(ride),
    longestUnbrokenS: lengthS(longestUnbroken(parts, false)),
    longestUnbrokenStrictS: lengthS(longestUnbroken(parts, true)),
    byGradient: grade && parts.roadKnown ? byClass : null,
    swing: swingOf(watts),
    swingPedalling: swingOf(wattsPressed),
    judgedBy: parts.judgedBy,
    cranksKnown: cranksKnown(ride, cranks, stretches),
  };
}

/** Mutable sums while counting. */
type Sums = { -readonly [Key in keyof StateShares]: StateShares[Key] };

function emptyShares(): Sums {
  return { inBandS: 0, belowS: 0, aboveS: 0, offS: 0 };
}

function add(sums: Sums, state: PressureState): void {
  if (state === PressureState.in) sums.inBandS++;
  else if (state === PressureState.below) sums.belowS++;
  else if (state === PressureState.above) sums.aboveS++;
  else if (state !== PressureState.unknown) sums.offS++;
}

function swingOf(watts: readonly number[]): number | null {
  const mean = meanOf(watts);
  const swing = standardDeviationOf(watts) / mean;
  return mean > 0 && Number.isFinite(swing) ? swing : null;
}

/**
 * The longest span without a break, inside one stretch. It passes over off seconds too short to be a break and over up to
 * 3 s without data, and over excused breaks of up to 30 s (a corner, not a closed crossing); a pause or a longer hole ends
 * it. The strict one ends at every break. Empty when there is none.
 */
export function longestUnbroken(parts: PressureParts, strict: boolean): Span {
  const { ride, stretches, breaks, cranks } = parts;
  const ends = new Uint8Array(ride.grid.seconds);
  const excused = new Uint8Array(ride.grid.seconds);
  for (const one of breaks) {
    const passedOver = one.excused === true && !strict && lengthS(one) <= thresholds.pressure.passOverS;
    (passedOver ? excused : ends).fill(1, one.startS, one.endS);
  }
  let best: Span = { startS: 0, endS: 0 };
  for (const stretch of stretches) {
    let startS = -1;
    let lastOnS = -1;
    let unknownS = 0;
    for (let s = stretch.startS; s < stretch.endS; s++) {
      const over = excused[s] === 1;
      const unknown = cranks[s] === Cranks.unknown && !over;
      unknownS = unknown ? unknownS + 1 : 0;
      if (ends[s] === 1 || ride.grid.paused[s] === 1 || unknownS > thresholds.pressure.bridgeS) {
        startS = -1;
        continue;
      }
      if (cranks[s] === Cranks.pressed) {
        if (startS < 0) startS = s;
        lastOnS = s;
        if (lastOnS + 1 - startS > lengthS(best)) best = { startS, endS: lastOnS + 1 };
      }
    }
  }
  return best;
}
