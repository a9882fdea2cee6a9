import type { Span } from "../../contract/ride.ts";

/** A ride's heart and power in 60 s blocks; the columns have one entry per block that is whole enough. */
export interface HeartBlocks {
  /** Middle of each block, minutes of ride time. */
  readonly tMin: Float64Array;
  /** Mean heart rate, bpm. */
  readonly bpm: Float64Array;
  /** Mean lagged power less the reference, W; all 0 without power. */
  readonly overW: Float64Array;
  /** Blocks from the one before, 1 where none is missing. */
  readonly gaps: Float64Array;
  /** Blocks of the window, and of those lost how many to stops and how many to missing data. */
  readonly asked: number;
  readonly lostToStops: number;
  readonly lostToData: number;
}

/** Columns on the 1 s grid, NaN where missing. */
export interface BlockInput {
  readonly heartBpm: Float64Array;
  /** Lagged power, W; null without power. */
  readonly laggedW: Float64Array | null;
  /** Power as recorded, W: a block needs it; null without power. */
  readonly powerW: Float64Array | null;
  readonly referenceW: number;
  readonly window: Span;
  /** Stops of more than 30 s. */
  readonly stops: readonly Span[];
}

const blockS = 60;
/** A block needs so many seconds with heart rate and power. Own choice. */
const validS = 45;
/** After a stop, as many blocks are dropped as it lasted minutes, at most so many: the heart recovers and comes back. */
const mostAfterStop = 3;

/** Cuts the window into 60 s blocks; those that a stop touches, and as many after it as it lasted minutes, are dropped. */
export function heartBlocks(input: BlockInput): HeartBlocks {
  const { heartBpm, laggedW, powerW, referenceW, window, stops } = input;
  const asked = Math.floor((window.endS - window.startS) / blockS);
  const stopped = new Uint8Array(Math.max(0, asked));
  for (const stop of stops) {
    const first = Math.floor((stop.startS - window.startS) / blockS);
    const last = Math.floor((stop.endS - 1 - window.startS) / blockS);
    const after = Math.min(mostAfterStop, Math.ceil((stop.endS - stop.startS) / blockS));
    stopped.fill(1, Math.max(0, first), Math.max(0, Math.min(asked, last + 1 + after)));
  }
  const columns = { t: [] as number[], bpm: [] as number[], overW: [] as number[], gaps: [] as number[] };
  let before = -1;
  let lostToStops = 0;
  let lostToData = 0;
  for (let block = 0; block < asked; block++) {
    if (stopped[block] === 1) {
      lostToStops++;
      continue;
    }
    const fromS = window.startS + block * blockS;
    let beats = 0;
    let watts = 0;
    let count = 0;
    for (let s = fromS; s < fromS + blockS; s++) {
      const bpm = heartBpm[s];
      const lag = laggedW ? laggedW[s] : referenceW;
      if (!Number.isFinite(bpm) || !Number.isFinite(lag) || (powerW && !Number.isFinite(powerW[s]))) continue;
      beats += bpm;
      watts += lag - referenceW;
      count++;
    }
    if (count < validS) {
      lostToData++;
      continue;
    }
    columns.t.push((fromS + blockS / 2) / 60);
    columns.bpm.push(beats / count);
    columns.overW.push(watts / count);
    columns.gaps.push(before < 0 ? 1 : block - before);
    before = block;
  }
  return {
    tMin: Float64Array.from(columns.t),
    bpm: Float64Array.from(columns.bpm),
    overW: Float64Array.from(columns.overW),
    gaps: Float64Array.from(columns.gaps),
    asked: Math.max(0, asked),
    lostToStops,
    lostToData,
  };
}
