import type { RoadMatch, SharedStretch } from "../contract/roads.ts";
import type { Span } from "../contract/ride.ts";

/** What is asked for may pass a stretch's ends by so much, s: they are found to some 20 m. */
const EDGE_S = 15;

/** A stretch both rode, and what of it is asked for. */
export interface StretchAt {
  readonly stretch: SharedStretch;
  /** Ride time of A. */
  readonly span: Span;
}

/**
 * The passes of B along a span of A, by B's time; empty where B did not ride all of it in one go.
 *
 * @param asked ride time of A
 */
export function passesAlong({ stretches }: RoadMatch, asked: Span): StretchAt[] {
  return stretches
    .filter(({ a }) => a.startS <= asked.startS + EDGE_S && a.endS >= asked.endS - EDGE_S)
    .map((stretch) => ({
      stretch,
      span: {
        startS: Math.max(asked.startS, stretch.a.startS),
        endS: Math.min(asked.endS, stretch.a.endS),
      },
    }))
    .filter(({ span }) => span.endS > span.startS)
    .sort((one, other) => one.stretch.b.startS - other.stretch.b.startS);
}

/** The parts of A's ride that B rode too, in order, overlapping ones joined. */
export function sharedSpans({ stretches }: RoadMatch): Span[] {
  const spans = stretches.map(({ a }) => a).sort((one, other) => one.startS - other.startS);
  const joined: { startS: number; endS: number }[] = [];
  for (const { startS, endS } of spans) {
    const last = joined.at(-1);
    if (last !== undefined && startS <= last.endS) last.endS = Math.max(last.endS, endS);
    else joined.push({ startS, endS });
  }
  return joined;
}
