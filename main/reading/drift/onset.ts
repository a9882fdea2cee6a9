import type { Span } from "../../contract/ride.ts";
import { leastSquares } from "../../maths/leastSquares.ts";
import { whitened } from "../../maths/autoregression.ts";
import { thresholds } from "../thresholds.ts";
import { heartBlocks, type HeartBlocks } from "./heartBlocks.ts";
import { hingeFit, indexOfLeast, psiGrid, type HingeFit } from "./hingeFit.ts";
import { hingeProfile } from "./hingeProfile.ts";
import { laggedPowerW } from "./laggedPower.ts";
import { onsetWeights, type OnsetWeights } from "./onsetWeights.ts";
import { note, type Note } from "../../contract/notice.ts";

const limits = thresholds.onset;

/** What the onset is found from: columns on the 1 s grid, NaN where missing. */
export interface OnsetInput {
  readonly heartBpm: Float64Array;
  /** Null: the answer is not corrected for power. */
  readonly powerW: Float64Array | null;
  /** 1 in seconds in which the rider stands still. */
  readonly standing: Uint8Array;
  /** Stops of more than 30 s. */
  readonly stops: readonly Span[];
  /** The judged stretch. */
  readonly stretch: Span;
  /** Power that the correction refers to, W. */
  readonly referenceW: number;
  /** The recorder chose its own steps: no onset is claimed. */
  readonly variable: boolean;
}

/** What the fit says about this ride's heart, used for the correction and the uncertainty too. */
interface OnsetFit {
  /** Lag of the heart behind power, s. */
  readonly tauS: number;
  readonly beatsPerWatt: number;
  /** Standard error of it; of the usual figure where that stands in. */
  readonly beatsPerWattError: number;
  /** SD of the 60 s noise, beats, and its correlation from block to block. */
  readonly sigmaBeats: number;
  readonly rho: number;
}

/** One of the five answers. `notes` say what it rests on. */
export type Onset =
  | { readonly verdict: "not enough data"; readonly notes: readonly Note[] }
  | {
      readonly verdict: "no drift shown" | "rose from the start";
      readonly fit: OnsetFit;
      /** End of the last minute that was looked at, ride time, s. */
      readonly seenUntilS: number;
      readonly notes: readonly Note[];
    }
  | {
      readonly verdict: "start unclear" | "began";
      readonly fit: OnsetFit;
      readonly seenUntilS: number;
      /** Ride time, s, to the minute. */
      readonly onsetS: number;
      readonly lowS: number;
      readonly highS: number;
      readonly notes: readonly Note[];
    };

/**
 * When the drift began, if this ride can tell.
 *
 * Sixty-second blocks of heart rate are laid against lagged power. Whether there is a drift at all comes from a
 * flat-then-rise fit with autocorrelated noise; where it began from the weight of every corner over all kinds of noise,
 * with a slow rise before it allowed for. An onset is claimed only when its interval is short and a rise from the start is
 * unlikely. How often that is right is measured by test/bench/calibration.bench.ts.
 */
export function findOnset(input: OnsetInput): Onset {
  const { blocks, tauS } = bestLag(input);
  const notes = notesOf(blocks);
  const n = blocks.bpm.length;
  if (n < limits.leastBlocks) {
    return {
      verdict: "not enough data",
      notes: [...notes, note("onset-too-few-minutes", { minutes: n, needed: limits.leastBlocks })],
    };
  }
  const ones = new Float64Array(n).fill(1);
  const prepared = withPower(input, blocks, ones);
  if (!prepared) return { verdict: "not enough data", notes };
  const { flat, bpm, powerColumn, beatsPerWatt, beatsPerWattError } = prepared;
  if (prepared.note) notes.push(prepared.note);
  const sigmaBeats = Math.sqrt(flat.variance);
  const fit: OnsetFit = { tauS, beatsPerWatt, beatsPerWattError, sigmaBeats, rho: flat.rho };

  const lastMin = blocks.tMin[n - 1];
  const seenUntilS = Math.round(lastMin * 60 + 30);
  const riseBeats = flat.slopePerMin * (lastMin - flat.psiMin);
  if (!(flat.gainOverNone > limits.gainOverNone && flat.slopePerMin > 0 && riseBeats >= thresholds.drift.shownBeats)) {
    return { verdict: "no drift shown", fit, seenUntilS, notes };
  }
  const weights = onsetWeights({
    blocks,
    bpm,
    powerColumn,
    psiMin: psiGrid(blocks),
    noiseSd: sigmaBeats,
    priors: limits.priors,
  });
  const long = blocks.asked > limits.longStretchMin;
  const placed = placeOf(weights, long ? limits.longIntervalShare : limits.intervalShare);
  const printed = placeOf(weights, long ? limits.longPrintedShare : limits.printedShare);
  if (placed.inside < limits.startBelowShare) return { verdict: "rose from the start", fit, seenUntilS, notes };
  // Where a rise from the start is not ruled out, the interval reaches back to it.
  const ruledOut = placed.inside >= limits.insideShare;
  const clear =
    ruledOut &&
    weights.logOverNone >= limits.insideOverNone &&
    placed.highMin - placed.lowMin <= limits.widestMin &&
    !input.variable;
  return {
    verdict: clear ? "began" : "start unclear",
    fit,
    seenUntilS,
    notes,
    onsetS: Math.round(placed.middleMin) * 60,
    lowS: ruledOut ? Math.round(printed.lowMin * 60) : input.stretch.startS,
    highS: Math.round(printed.highMin * 60),
  };
}

/** Where the corner lies: the weighted middle and the interval, minutes, and how likely it lies inside at all, 0 to 1. */
function placeOf(
  { psiMin, weight }: OnsetWeights,
  intervalShare: number,
): { inside: number; middleMin: number; lowMin: number; highMin: number } {
  // Before looking, a rise from the start is as likely as all corners inside together.
  const inner = weight.slice(1).map((one) => one / (weight.length - 1));
  const total = inner.reduce((sum, one) => sum + one, 0);
  const start = weight[0];
  const at = (share: number) => {
    let sum = 0;
    for (let k = 0; k < inner.length; k++) {
      sum += inner[k];
      if (sum >= share * total) return psiMin[k + 1];
    }
    return psiMin.at(-1) as number;
  };
  const tail = (1 - intervalShare) / 2;
  return {
    inside: total / (total + start),
    middleMin: at(0.5),
    lowMin: Math.max(psiMin[0], at(tail) - 1),
    highMin: at(1 - tail) + 1,
  };
}

/** The lag that explains the heart best, by plain least squares; the usual one where the ride can't tell. */
function bestLag(input: OnsetInput): { blocks: HeartBlocks; tauS: number } {
  const { heartBpm, powerW, standing, stops, stretch, referenceW } = input;
  const window = { startS: stretch.startS + limits.settleS, endS: stretch.endS };
  const blocksAt = (tauS: number) =>
    heartBlocks({
      heartBpm,
      powerW,
      laggedW: powerW && laggedPowerW(powerW, tauS, standing),
      referenceW,
      window,
      stops,
    });
  const usual = { blocks: blocksAt(thresholds.drift.lagS), tauS: thresholds.drift.lagS };
  if (!powerW || usual.blocks.bpm.length < limits.leastBlocks) return usual;
  const tried = limits.lagsS.map((tauS) => {
    const blocks = tauS === usual.tauS ? usual.blocks : blocksAt(tauS);
    const ones = new Float64Array(blocks.bpm.length).fill(1);
    const coarse = psiGrid(blocks).filter((_, index) => index % 5 === 0);
    const profile = hingeProfile([ones, blocks.overW], blocks.bpm, blocks.tMin, blocks.gaps, coarse, 0);
    return { blocks, tauS, rss: profile ? profile.rss[indexOfLeast(profile.rss)] : Infinity };
  });
  const best = tried.reduce((least, next) => (next.rss < least.rss ? next : least));
  const worst = Math.max(...tried.map((one) => one.rss));
  return worst <= best.rss * limits.flatLag ? usual : best;
}

interface Prepared {
  readonly flat: HingeFit;
  /** Heart rate with a fixed power effect taken out, or as it is. */
  readonly bpm: Float64Array;
  readonly powerColumn: Float64Array | null;
  readonly beatsPerWatt: number;
  readonly beatsPerWattError: number;
  readonly note: Note | null;
}

/** The flat-then-rise fit with power's effect free where the ride shows it, else fixed at the usual figure. */
function withPower(input: OnsetInput, blocks: HeartBlocks, ones: Float64Array): Prepared | null {
  const plain = (bpm: Float64Array, said: Note | null): Prepared | null => {
    const flat = hingeFit({ ...blocks, bpm }, [ones]);
    return (
      flat && {
        flat,
        bpm,
        powerColumn: null,
        beatsPerWatt: thresholds.drift.beatsPerWatt,
        beatsPerWattError: thresholds.drift.beatsPerWattError,
        note: said,
      }
    );
  };
  if (!input.powerW) return plain(blocks.bpm, null);
  const free = hingeFit(blocks, [ones, blocks.overW]);
  if (free) {
    const hinge = blocks.tMin.map((t) => Math.max(0, t - free.psiMin));
    const white = [ones, blocks.overW, hinge].map((column) => whitened(column, blocks.gaps, free.rho));
    const fit = leastSquares(white, whitened(blocks.bpm, blocks.gaps, free.rho));
    const beatsPerWatt = fit?.coefficients[1] ?? NaN;
    const error = fit?.standardErrors[1] ?? NaN;
    if (
      error <= limits.powerErrorBpmPerW &&
      beatsPerWatt >= limits.beatsPerWattLow &&
      beatsPerWatt <= limits.beatsPerWattHigh
    ) {
      return {
        flat: free,
        bpm: blocks.bpm,
        powerColumn: blocks.overW,
        beatsPerWatt,
        beatsPerWattError: error,
        note: null,
      };
    }
  }
  const usual = thresholds.drift.beatsPerWatt;
  return plain(
    blocks.bpm.map((bpm, i) => bpm - usual * blocks.overW[i]),
    note("onset-usual-power-effect", { beatsPerWatt: usual }),
  );
}

function notesOf({ asked, lostToStops, lostToData }: HeartBlocks): Note[] {
  return lostToStops + lostToData > 0 ? [note("onset-minutes-left-out", { asked, lostToStops, lostToData })] : [];
}
