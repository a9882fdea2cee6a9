import { Failure } from "../contract/failure.ts";
import type { RawRecords, Ride, RideFormat, Span } from "../contract/ride.ts";
import { automaticLaps } from "./automaticLaps.ts";
import { startOffsetMin } from "./startOffsetMin.ts";
import { arrangeRecords } from "./arrangeRecords.ts";
import { findGaps } from "./findGaps.ts";
import { gridRide } from "./gridRide.ts";
import { recordingMode } from "./recordingMode.ts";
import { COLUMN_NAMES, type ColumnName, type DecodedRide, type SpanMs } from "./rideRecords.ts";
import { distinctNotices, note, type Note } from "../contract/notice.ts";

/** Dates outside are faults: FIT values below 0x10000000 (July 1998) are seconds since power-on, and no ride is from the far future. */
const EARLIEST_MS = Date.UTC(1998, 6, 3);
const LATEST_MS = Date.UTC(2060, 0, 1);
/** Longer than any ride; a grid beyond it would only cost memory, s. */
const LONGEST_S = 7 * 24 * 3600;

const SENSORS: readonly ColumnName[] = ["powerW", "heartRateBpm", "cadenceRpm", "speedMps", "distanceM", "altitudeM"];

/**
 * Makes the one `Ride` from what a decoder found: checks positions and clock, sorts, drops sensors that never spoke, and
 * puts all on the grid. Failure `ride-not-usable` when nothing in it can be shown.
 */
export function assembleRide(decoded: DecodedRide, fileName: string, format: RideFormat): Ride {
  const { table } = decoded;
  if (table.count === 0) {
    throw new Failure("ride-without-records", { fileName });
  }
  const arranged = arrangeRecords(table);
  const { startsSegment, startMs } = arranged;
  const warnings: Note[] = [...decoded.warnings, ...arranged.warnings];
  const raw = arranged.raw;
  cleanColumns(raw, warnings);
  if (COLUMN_NAMES.every((name) => raw[name].every((v) => v !== v))) {
    throw new Failure("ride-without-values", { fileName });
  }
  const elapsedS = raw.timeS[raw.count - 1];
  if (elapsedS === 0 && raw.count > 1) throw new Failure("ride-clock-stands", { fileName });
  if (elapsedS > LONGEST_S) {
    throw new Failure("ride-over-a-week", { fileName });
  }
  if (elapsedS < 10) warnings.push(note("ride-very-short", { elapsedS, records: raw.count }));

  const dated = startMs >= EARLIEST_MS && startMs < LATEST_MS;
  if (!dated) {
    const year = new Date(startMs).getUTCFullYear();
    warnings.push(
      format === "fit" && startMs < EARLIEST_MS
        ? note("ride-without-date", { why: "counts from switch-on" })
        : year === 1970
          ? note("ride-without-date", { why: "none" })
          : note("ride-wrong-date", { year }),
    );
  }
  const toSpan = (s: SpanMs): Span => ({
    startS: clamp((s.startMs - startMs) / 1000, elapsedS),
    endS: clamp((s.endMs - startMs) / 1000, elapsedS),
  });
  const pauses = mergeSpans(decoded.pauses.map(toSpan));
  const mode = recordingMode(raw.timeS, startsSegment, pauses);
  if (mode === "variable") warnings.push(note("ride-own-steps", {}));
  const { grid, warnings: conditioned } = gridRide({
    raw,
    startsSegment,
    pauses,
    mode,
    gradientWindowM: decoded.gradientWindowM,
  });
  warnings.push(...conditioned, ...absurdSums(raw, grid.distanceM, elapsedS));
  const pressed = decoded.laps
    .map((lap) => ({ ...toSpan(lap), trigger: lap.trigger }))
    .filter((lap) => lap.endS > lap.startS)
    .sort((a, b) => a.startS - b.startS);
  const rule = automaticLaps(pressed, grid.distanceM);
  const laps = rule === null ? pressed : pressed.map((lap) => ({ ...lap, trigger: "auto" as const }));
  if (rule !== null && pressed.some(({ trigger }) => trigger === "manual"))
    warnings.push(note("ride-laps-automatic", { laps: laps.length, by: rule }));
  const gaps = findGaps(raw.timeS, pauses, mode);
  warnings.push(...mostlyUnrecorded(gaps, elapsedS));
  return {
    fileName,
    format,
    startUtcMs: dated ? startMs : null,
    utcOffsetMin: dated ? startOffsetMin(decoded.utcOffsetMin, startMs, raw) : null,
    mode,
    indoors: decoded.indoors ?? false,
    elapsedS,
    raw,
    grid,
    gaps,
    laps,
    warnings: distinctNotices(warnings),
  };
}

/** Mean speed over a whole ride that no rider reaches, m/s (90 km/h), and power of a single record, W. Our own bounds; no source. */
const ABSURD_MEAN_MPS = 25;
const ABSURD_W = 4000;
/** A mean over less than this is none, s. */
const SHORT_S = 60;

/** Names sums that no rider makes: the sign of damage that the file's own checks did not show. */
function absurdSums(raw: RawRecords, distanceM: Float64Array | null, elapsedS: number): Note[] {
  const lengthM = distanceM?.findLast((m) => m === m) ?? 0;
  const meanMps = elapsedS >= SHORT_S ? lengthM / elapsedS : 0;
  const mostW = raw.powerW.reduce((most, w) => (w > most ? w : most), 0);
  const far = meanMps > ABSURD_MEAN_MPS;
  const strong = mostW > ABSURD_W;
  if (!far && !strong) return [];
  return [
    note("ride-absurd-sums", {
      distanceM: far ? lengthM : null,
      meanMps: far ? meanMps : null,
      powerW: strong ? mostW : null,
    }),
  ];
}

/** Named where less than half of a ride holds records. */
function mostlyUnrecorded(gaps: readonly Span[], elapsedS: number): Note[] {
  const emptyS = mergeSpans(gaps).reduce((sum, { startS, endS }) => sum + endS - startS, 0);
  const recordedS = elapsedS - emptyS;
  return elapsedS >= SHORT_S && recordedS < elapsedS / 2
    ? [note("ride-mostly-unrecorded", { recordedS, elapsedS })]
    : [];
}

/** Empties, in place, what is no value: places at 0,0 or off the globe, impossible readings, sensors that never spoke. */
function cleanColumns(raw: RawRecords, warnings: Note[]): void {
  const { latDeg, lonDeg } = raw;
  let nullIsland = 0;
  for (let i = 0; i < raw.count; i++) {
    const lat = latDeg[i];
    const lon = lonDeg[i];
    const zero = lat === 0 && lon === 0;
    if (zero) nullIsland++;
    if (zero || !(Math.abs(lat) <= 90) || !(Math.abs(lon) <= 180)) latDeg[i] = lonDeg[i] = NaN;
  }
  if (nullIsland > 0) warnings.push(note("ride-null-positions", { count: nullIsland }));
  for (const column of SENSORS) {
    const values = raw[column];
    let any = false;
    let nonZero = false;
    for (const v of values) {
      if (v === v) any = true;
      if (v === v && v !== 0) nonZero = true;
    }
    if (!any || nonZero) continue;
    values.fill(NaN);
    warnings.push(note("ride-dead-sensor", { column }));
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
