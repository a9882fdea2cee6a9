import { CellState } from "../../contract/ride.ts";
import { medianOf } from "../../maths/statistics.ts";
import { joinSpans, runsOf } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { candidate, type Candidate, type MomentContext } from "./momentContext.ts";

const limits = thresholds.moment;

/**
 * Heart readings that look odd: marked spikes of 15 beats or more, and a first reading far from those of five or more
 * earlier rides at like power. For the coach only: it may well be the strap.
 */
export function oddHeart(context: MomentContext): Candidate[] {
  return [...spikes(context), ...unusualLevel(context)];
}

function spikes({ ride }: MomentContext): Candidate[] {
  const heart = ride.grid.heartRate;
  if (!heart) return [];
  const rejected = joinSpans(
    runsOf((s) => heart.state[s] === CellState.rejected, 0, ride.grid.seconds),
    60,
  );
  return rejected.flatMap((span) => {
    const usual = medianOf(heart.value.slice(Math.max(0, span.startS - 60), span.endS + 60));
    let seen = NaN;
    for (let i = 0; i < ride.raw.count; i++) {
      const at = ride.raw.timeS[i];
      const bpm = ride.raw.heartRateBpm[i];
      if (at < span.startS || at >= span.endS || !Number.isFinite(bpm)) continue;
      if (!(Math.abs(bpm - usual) <= Math.abs(seen - usual))) seen = bpm;
    }
    const byBeats = Math.abs(seen - usual);
    if (!(byBeats >= limits.spikeBeats)) return [];
    return [
      candidate("oddHeart", span, {
        reason: "spike",
        coachOnly: true,
        numbers: { spikeBpm: seen, usualBpm: usual, byBeats: seen - usual },
        weight: Math.min(1, byBeats / 60),
      }),
    ];
  });
}

function unusualLevel({ drift, earlier }: MomentContext): Candidate[] {
  const { firstPowerW } = drift;
  if (drift.firstBpm === null || drift.firstAtS === null || firstPowerW === null) return [];
  const like = earlier.filter((one) => Math.abs(one.powerW - firstPowerW) <= thresholds.drift.likePowerW);
  if (like.length < limits.unusualRides) return [];
  const usualBpm = medianOf(like.map((one) => one.firstBpm));
  const byBeats = drift.firstBpm - usualBpm;
  if (Math.abs(byBeats) < limits.unusualBeats) return [];
  const half = thresholds.drift.readingS / 2;
  return [
    candidate(
      "oddHeart",
      { startS: drift.firstAtS - half, endS: drift.firstAtS + half },
      {
        reason: "unusual level",
        coachOnly: true,
        numbers: { firstBpm: drift.firstBpm, usualBpm, byBeats, earlierRides: like.length },
        weight: 1,
      },
    ),
  ];
}
