import type { Parting } from "./trackParting.ts";

/** Below these, receivers' own noise is all there is: m, and m/s. */
const LEAST_M = 0.3;
const LEAST_MPS = 0.03;
const LEAST_SPAN_S = 5;
/** No fit is taken to say more than this either way: the model is ours, receivers are others'. */
const MOST = 9;

/**
 * Of a logistic regression, in this order: constant; logs of along, across, change along, change across, m; log of the
 * length over a minute; that times along, and times change along; log of the speeds' difference, m/s; the length times it.
 */
type Weights = readonly number[];

/**
 * What tells one bike seen by two receivers from two passes over one road (another day, another lap), and from another
 * rider of the same outing; each with speeds and without. Fitted on 1,500 made pairs of seeds kept for tuning, with 1.5 to
 * 4 m of correlated noise in each receiver; `npm run bench -- lineup` shows what they do on seeds never used for it.
 */
const AGAINST: Readonly<Record<"anotherTime" | "anotherRider", { readonly speeds: Weights; readonly none: Weights }>> =
  {
    anotherTime: {
      speeds: [-4.23, -1.43, 1.13, -0.98, -0.23, 1.74, -0.93, -0.22, -4.22, -0.44],
      none: [4.62, -2.59, 1.41, -1.42, -0.2, 2.74, 0.14, -1.41],
    },
    anotherRider: {
      speeds: [-7.34, 0.13, 0.04, -0.67, -0.04, -2.36, 0.01, -0.22, -3.6, -1.43],
      none: [0.63, -0.25, 0.24, -0.87, -0.09, 0.44, -0.05, -0.48],
    },
  };

function logOf(value: number, least: number): number {
  return Math.log(Number.isFinite(value) ? Math.max(value, least) : least);
}

/** How much likelier two tracks that part like this are one bike at one time than the other thing, natural log, -9 to 9. */
export function oneBikeEvidence(parting: Parting, against: keyof typeof AGAINST): number {
  const along = logOf(parting.alongM, LEAST_M);
  const change = logOf(parting.alongChangeM, LEAST_M);
  const span = Math.log(Math.max(parting.spanS, LEAST_SPAN_S) / 60);
  const told = [1, along, logOf(parting.acrossM, LEAST_M), change, logOf(parting.acrossChangeM, LEAST_M)];
  told.push(span, span * along, span * change);
  const known = Number.isFinite(parting.speedMps);
  const speed = logOf(parting.speedMps, LEAST_MPS);
  const weights = known ? AGAINST[against].speeds : AGAINST[against].none;
  const sum = [...told, speed, span * speed].slice(0, weights.length).reduce((s, x, k) => s + x * weights[k]!, 0);
  return Math.max(-MOST, Math.min(MOST, sum));
}
