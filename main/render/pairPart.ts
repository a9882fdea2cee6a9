import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Cover } from "../contract/framing.ts";
import type { PairCard, PairSide } from "../contract/pair.ts";
import { coversOf } from "../../overlay/instant/coversOf.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { stateKey } from "../../overlay/instant/stateKey.ts";
import { threadFrame, threadStepFrames } from "../../overlay/instant/threadSteps.ts";
import { paceAt, pairNumbersAt, type PairTimes } from "../../overlay/pair/pairAt.ts";
import { pacedFrames, type PacedFrames } from "./pacedFrames.ts";

/** Footage of a side of a pair. */
interface PairFootage extends PacedFrames {
  readonly clip: Clip;
  readonly covers: readonly Cover[];
}

/** What a pair's layer shows from one frame of a part on. */
export interface PairPicture {
  readonly frame: number;
  /** Of the source frames on the picture; where a side has none, of the pace. */
  readonly times: PairTimes;
  /** Where the threads end; they grow in steps. */
  readonly drawn: PairTimes;
}

export interface PairPlan {
  readonly card: PairCard;
  readonly footage: readonly [PairFootage | null, PairFootage | null];
  /** One for each change, in order; the first is for frame 0. */
  readonly pictures: readonly PairPicture[];
}

/** A stretch of a pair with its source frames and pictures reckoned. @param firstFrame of the card, in output frames */
export function planPair(
  film: Pick<Film, "frameRate" | "items">,
  card: PairCard,
  clipOf: (side: PairSide) => Clip | null,
  threadStepsPerSecond: number,
  firstFrame: number,
  frames: number,
): PairPlan {
  const rate = film.frameRate;
  const frameS = rate.den / rate.num;
  const asked = (frame: number): PairTimes => paceAt(card.pace, (firstFrame + frame) * frameS);
  const paced = card.sides.map((side, which) => {
    const clip = clipOf(side);
    if (clip === null || side.footage === null) return null;
    const { offsetS, rate: clockRate } = side.footage.clock;
    const key = which === 0 ? "firstS" : "secondS";
    const mediaS = Float64Array.from({ length: frames }, (_, frame) => (asked(frame)[key] - offsetS) / clockRate);
    const covers = coversOf(film, clip.id, null, { startS: mediaS[0]!, endS: mediaS.at(-1)! });
    return { clip, covers, clock: side.footage.clock, ...pacedFrames(clip, mediaS, frameS) };
  });
  const shownAt = (frame: number): PairTimes => {
    const at = asked(frame);
    const of = (which: number, otherwise: number): number => {
      const one = paced[which];
      if (!one) return otherwise;
      return rideTimeAt(one.clock, one.clip.frames.ticks[one.source[frame]!]! / one.clip.frames.timescale);
    };
    return { firstS: of(0, at.firstS), secondS: of(1, at.secondS) };
  };
  const stepFrames = threadStepFrames(rate, threadStepsPerSecond);
  const pictures: PairPicture[] = [];
  let lastKey = "";
  for (let frame = 0; frame < frames; frame += 1) {
    const times = shownAt(frame);
    const step = Math.max(firstFrame, threadFrame(firstFrame + frame, stepFrames, 1));
    const { values, difference } = pairNumbersAt(card, times);
    const key = [
      ...values.map((one) => stateKey(one, step)),
      difference.gainedS,
      difference.powerW,
      difference.heartRateBpm,
    ].join("|");
    if (key !== lastKey) pictures.push({ frame, times, drawn: shownAt(step - firstFrame) });
    lastKey = key;
  }
  const footage = paced.map(
    (one) => one && { clip: one.clip, covers: one.covers, timing: one.timing, source: one.source },
  );
  return { card, footage: footage as [PairFootage | null, PairFootage | null], pictures };
}
