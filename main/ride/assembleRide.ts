import { Failure } from "../contract/failure.ts";
import type { RawRecords, Ride, RideFormat, Span } from "../contract/ride.ts";
import { arrangeRecords } from "./arrangeRecords.ts";
import { findGaps } from "./findGaps.ts";
import { gridRide } from "./gridRide.ts";
import { recordingMode } from "./recordingMode.ts";
import { COLUMN_NAMES } from "./rideRecords.ts";
import type { ColumnName, DecodedRide, SpanMs } from "./rideRecords.ts";

/** Dates outside are faults: FIT values below 0x10000000 (July 1998) are seconds since power-on, and no ride is from the far future. */
const EARLIEST_MS = Date.UTC(1998, 6, 3);
const LATEST_MS = Date.UTC(2060, 0, 1);
/** Longer than any ride; a grid beyond it would only cost memory, s. */
const LONGEST_S = 7 * 24 * 3600;

const SENSORS: readonly { readonly column: ColumnName; readonly name: string }[] = [
  { column: "powerW", name: "Power" },
  { column: "heartRateBpm", name: "Heart rate" },
  { column: "cadenceRpm", name: "Cadence" },
  { column: "speedMps", name: "Speed" },
  { column: "distanceM", name: "Distance" },
  { column: "altitudeM", name: "Altitude" },
];

/**
 * Makes the one `Ride` from what a decoder found: checks positions and clock, sorts, drops sensors that never spoke, and
 * puts all on the grid. Failure `ride-not-usable` when nothing in it can be shown.
 */
export function assembleRide(decoded: DecodedRide, fileName: string, format: RideFormat): Ride {
  const { table } = decoded;
  if (table.count === 0) {
    throw new Failure(
      "ride-not-usable",
      `${fileName} holds no record of a ride.`,
      "Choose the file of a recorded ride, or export it again.",
    );
  }
  const arranged = arrangeRecords(table);
  const { startsSegment, startMs } = arranged;
  const warnings = new Set([...decoded.warnings, ...arranged.warnings]);
  const raw = arranged.raw;
  cleanColumns(raw, warnings);
  if (COLUMN_NAMES.every((name) => raw[name].every((v) => v !== v))) {
    throw new Failure(
      "ride-not-usable",
      `${fileName} has times but no place and no sensor value.`,
      "Choose another export of the ride.",
    );
  }
  const elapsedS = raw.timeS[raw.count - 1];
  if (elapsedS > LONGEST_S) {
    throw new Failure(
      "ride-not-usable",
      `${fileName} spans more than 7 days, which is no single ride.`,
      "Split it into rides, or export the ride again.",
    );
  }
  if (elapsedS < 10)
    warnings.add(
      `The ride is only ${Math.round(elapsedS)} s long (${raw.count} ${raw.count === 1 ? "record" : "records"}).`,
    );

  const dated = startMs >= EARLIEST_MS && startMs < LATEST_MS;
  if (!dated) {
    const year = new Date(startMs).getUTCFullYear();
    warnings.add(
      format === "fit" && startMs < EARLIEST_MS
        ? "The file has no calendar date: its clock counts from when it was switched on. It cannot be lined up by clock."
        : year === 1970
          ? "The file has no calendar date. It cannot be lined up by clock."
          : `The date in the file (${year}) cannot be right; the ride is read without one and cannot be lined up by clock.`,
    );
  }
  const toSpan = (s: SpanMs): Span => ({
    startS: clamp((s.startMs - startMs) / 1000, elapsedS),
    endS: clamp((s.endMs - startMs) / 1000, elapsedS),
  });
  const pauses = mergeSpans(decoded.pauses.map(toSpan));
  const mode = recordingMode(raw.timeS, startsSegment, pauses);
  if (mode === "variable")
    warnings.add(
      "The recorder chose its own steps instead of 1 s: a value stands until the next one, and short breaks cannot be told.",
    );
  const { grid, warnings: conditioned } = gridRide({
    raw,
    startsSegment,
    pauses,
    mode,
    gradientWindowM: decoded.gradientWindowM,
  });
  for (const w of conditioned) warnings.add(w);
  const laps = decoded.laps
    .map((lap) => ({ ...toSpan(lap), trigger: lap.trigger }))
    .filter((lap) => lap.endS > lap.startS)
    .sort((a, b) => a.startS - b.startS);
  return {
    fileName,
    format,
    startUtcMs: dated ? startMs : null,
    utcOffsetMin: dated ? decoded.utcOffsetMin : null,
    mode,
    elapsedS,
    raw,
    grid,
    gaps: findGaps(raw.timeS, pauses, mode),
    laps,
    warnings: [...warnings],
  };
}

/** Empties, in place, what is no value: places at 0,0 or off the globe, impossible readings, sensors that never spoke. */
function cleanColumns(raw: RawRecords, warnings: Set<string>): void {
  const { latDeg, lonDeg } = raw;
  let nullIsland = 0;
  for (let i = 0; i < raw.count; i++) {
    const lat = latDeg[i];
    const lon = lonDeg[i];
    const zero = lat === 0 && lon === 0;
    if (zero) nullIsland++;
    if (zero || !(Math.abs(lat) <= 90) || !(Math.abs(lon) <= 180)) latDeg[i] = lonDeg[i] = NaN;
  }
  if (nullIsland > 0)
    warnings.add(`${nullIsland} ${nullIsland === 1 ? "position is" : "positions are"} exactly 0,0 and no position.`);
  for (const { column, name } of SENSORS) {
    const values = raw[column];
    let any = false;
    let nonZero = false;
    for (const v of values) {
      if (v === v) any = true;
      if (v === v && v !== 0) nonZero = true;
    }
    if (!any || nonZero) continue;
    values.fill(NaN);
    warnings.add(`${name} is 0 throughout: the sensor is taken as absent.`);
  }
}

function clamp(s: number, elapsedS: number): number {
  return Math.min(Math.max(s, 0), elapsedS);
}

function mergeSpans(spans: readonly Span[]): Span[] {
  const merged: { startS: number; endS: number }[] = [];
  for (const s of [...spans].sort((a, b) => a.startS - b.startS)) {
    const last = merged[merged.length - 1];
    if (s.endS <= s.startS) continue;
    if (last && s.startS <= last.endS) last.endS = Math.max(last.endS, s.endS);
    else merged.push({ ...s });
  }
  return merged;
}
