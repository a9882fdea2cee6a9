/** The part of the ride that the strip shows, ride s. */
export interface StripSpan {
  readonly fromS: number;
  readonly toS: number;
}

/** No closer than this, s across the strip. */
const CLOSEST_S = 60;

/** Closer or wider about a ride time that keeps its place; never past the ride's ends. */
export function zoomed(span: StripSpan, factor: number, aboutS: number, rideEndS: number): StripSpan {
  const lengthS = Math.min(rideEndS, Math.max(Math.min(CLOSEST_S, rideEndS), (span.toS - span.fromS) * factor));
  const share = (aboutS - span.fromS) / (span.toS - span.fromS);
  return within(aboutS - Math.max(0, Math.min(1, share)) * lengthS, lengthS, rideEndS);
}

/** The same length moved so that a ride time is in it, with some room ahead; the span itself where it is. */
export function following(span: StripSpan, rideS: number, rideEndS: number): StripSpan {
  if (rideS >= span.fromS && rideS <= span.toS) return span;
  return within(rideS - 0.15 * (span.toS - span.fromS), span.toS - span.fromS, rideEndS);
}

/** Moved by a time. */
export function movedBy(span: StripSpan, byS: number, rideEndS: number): StripSpan {
  return within(span.fromS + byS, span.toS - span.fromS, rideEndS);
}

function within(fromS: number, lengthS: number, rideEndS: number): StripSpan {
  const start = Math.max(0, Math.min(rideEndS - lengthS, fromS));
  return { fromS: start, toS: start + lengthS };
}
