/** Metres that one turn of the cranks takes the bike: 50 and 34 teeth against a wide cassette, 2.1 m of tyre. */
const DEVELOPMENTS_M = [
  34 / 30,
  34 / 27,
  34 / 24,
  34 / 21,
  34 / 19,
  34 / 17,
  50 / 21,
  50 / 19,
  50 / 17,
  50 / 15,
  50 / 14,
  50 / 13,
  50 / 12,
  50 / 11,
].map((ratio) => ratio * 2.1);

/**
 * The gear of a rider who likes 88 turns a minute (78 when pushing hard uphill) and shifts only when well off it.
 *
 * @param currentM metres a turn of the gear in use; 0 when none yet.
 * @returns metres a turn.
 */
export function gearFor(speedMps: number, powerW: number, currentM: number): number {
  const wishedRpm = powerW > 210 ? 78 : 88;
  const cadence = currentM > 0 ? (speedMps / currentM) * 60 : 0;
  if (currentM > 0 && Math.abs(cadence - wishedRpm) < 8) return currentM;
  let best = DEVELOPMENTS_M[0]!;
  for (const d of DEVELOPMENTS_M) {
    if (Math.abs((speedMps / d) * 60 - wishedRpm) < Math.abs((speedMps / best) * 60 - wishedRpm)) best = d;
  }
  return best;
}
