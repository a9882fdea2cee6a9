/** Below so long a span the eye looks for single breaks, which a mean of 30 s hides, s; common practice, no source. */
const SHORT_SPAN_S = 900;

/**
 * The column of power that a chart of a span draws: the mean of 3 s in a short one, where a break of a few seconds must
 * be seen to reach zero, else that of 30 s. Null where the ride has no power.
 */
export function chartPower(
  power3sW: Float64Array | null,
  power30sW: Float64Array | null,
  spanS: number,
): Float64Array | null {
  return spanS < SHORT_SPAN_S ? power3sW : power30sW;
}
