import FitParser from "fit-file-parser";
import { cleanFit } from "./cleanFit.ts";
import type { SideColumn } from "./sideValues.ts";
import { CompressedDistance } from "./compressedDistance.ts";
import { onlyRidden, type SessionSpan } from "../onlyRidden.ts";
import { RecordTable, type ColumnName, type DecodedRide, type SpanMs } from "../rideRecords.ts";
import { localOffsetMin } from "../localOffsetMin.ts";
import type { Lap } from "../../contract/ride.ts";
import { distinctNotices, note, type Note } from "../../contract/notice.ts";

/** Sub-sports that are ridden on a trainer (public FIT profile). */
const INDOORS = new Set(["spin", "indoor_cycling", "virtual_activity"]);
/** Sports that say nothing against a bike ride (public FIT profile, type sport). */
const MAY_BE_RIDDEN = new Set(["cycling", "e_biking", "generic", "all", "training", "fitness_equipment", "transition"]);

/** What is used of a message as the parser gives it. */
interface ParsedMessage {
  readonly timestamp?: Date;
  readonly [field: string]: unknown;
}

interface Parsed {
  readonly records: readonly ParsedMessage[];
  readonly laps: readonly ParsedMessage[];
  readonly events: readonly ParsedMessage[];
  readonly sessions: readonly ParsedMessage[];
  readonly file_ids: readonly ParsedMessage[];
  readonly activity?: ParsedMessage;
}

const STOPS = new Set(["stop", "stop_all", "stop_disable", "stop_disable_all"]);

/** Reads a FIT file, chained or damaged ones too; the records of all parts in file order. An empty table when none is whole. */
export function decodeFit(bytes: Uint8Array, fileName: string): DecodedRide {
  const { pieces, warnings } = cleanFit(bytes);
  const table = new RecordTable(fileName);
  const found = {
    pauses: [] as SpanMs[],
    laps: [] as (SpanMs & { trigger: Lap["trigger"] })[],
    sessions: [] as SessionSpan[],
    warnings: [...warnings],
  };
  let utcOffsetMin: number | null = null;
  let indoors = false;
  const recordings = pieces.filter((piece) => piece.records > 0).length;
  if (recordings > 1) found.warnings.push(note("ride-several-recordings", { count: recordings }));
  for (const piece of pieces) {
    const reader = new PieceReader(table, found.warnings);
    const events: ParsedMessage[] = [];
    let sessions: readonly ParsedMessage[] = [];
    for (const file of piece.files) {
      const parsed = parseFile(file);
      if (!parsed) {
        found.warnings.push(note("fit-part-undecoded", {}));
        break;
      }
      reader.add(parsed.records);
      events.push(...parsed.events);
      sessions = [...sessions, ...parsed.sessions];
      found.laps.push(...lapSpans(parsed.laps));
      const local = localTime(parsed.activity);
      if (local !== null) utcOffsetMin = local;
      if (parsed.file_ids.some((f) => f.type === "course")) found.warnings.push(note("ride-is-course", {}));
    }
    reader.finish(piece.sides);
    if (sessions.length > 0 && sessions.every(({ sub_sport }) => INDOORS.has(String(sub_sport)))) indoors = true;
    found.pauses.push(...timerPauses(events));
    found.sessions.push(...sessionSpans(sessions));
  }
  const sports = found.sessions.map(({ sport }) => sport.replaceAll("_", " "));
  const named = { count: sports.length, sports: sports.slice(0, 8) };
  const ridden = onlyRidden(fileName, table, found.sessions, found.pauses, found.laps);
  if (ridden) found.warnings.push(note("ride-only-ridden", named));
  else if (sports.length > 1) found.warnings.push(note("ride-several-sessions", named));
  // Where a ride is among several sports, the notes above name them.
  const [other] = sports;
  if (other && found.sessions.every(({ sport }) => !MAY_BE_RIDDEN.has(sport)))
    found.warnings.push(note("ride-other-sport", { sport: other }));
  // 0 is also what recorders write that do not know their zone: believed only near Greenwich.
  if (utcOffsetMin === 0 && !nearGreenwich(table.columns.lonDeg)) utcOffsetMin = null;
  return {
    table: ridden?.table ?? table,
    utcOffsetMin,
    indoors,
    pauses: ridden?.pauses ?? found.pauses,
    laps: ridden?.laps ?? found.laps,
    gradientWindowM: 60,
    warnings: distinctNotices(found.warnings),
  };
}

function parseFile(bytes: Uint8Array): Parsed | null {
  const parser = new FitParser({
    force: true,
    mode: "list",
    speedUnit: "m/s",
    lengthUnit: "m",
    temperatureUnit: "celsius",
  });
  let result: Parsed | null = null;
  try {
    // It takes any view of bytes, and calls back before it returns.
    parser.parse(bytes as Buffer<ArrayBuffer>, (error, data) => {
      if (!error && data) result = data as unknown as Parsed;
    });
  } catch {
    return null;
  }
  return result;
}

/** Takes in the records of one piece of a chain. */
class PieceReader {
  private readonly compressed = new CompressedDistance();
  private readonly first: number;
  /** Number in the piece of each record that went into the table. */
  private readonly rows: number[] = [];
  private seen = 0;

  constructor(
    private readonly table: RecordTable,
    private readonly warnings: Note[],
  ) {
    this.first = table.count;
  }

  add(records: readonly ParsedMessage[]): void {
    for (const r of records) {
      const record = this.seen++;
      const old = this.compressed.next(r.compressed_speed_distance);
      const timeMs = r.timestamp instanceof Date ? r.timestamp.getTime() : NaN;
      if (timeMs !== timeMs) continue;
      const balance = r.left_right_balance as { value?: unknown; right?: unknown } | undefined;
      const right = balance && balance.right === true ? number(balance.value) : NaN;
      this.rows.push(record);
      this.table.add(timeMs, {
        powerW: number(r.power),
        heartRateBpm: number(r.heart_rate),
        cadenceRpm: number(r.cadence) + (number(r.fractional_cadence) || 0),
        speedMps: number(r.enhanced_speed ?? r.speed ?? old?.speedMps),
        distanceM: number(r.distance ?? old?.distanceM),
        altitudeM: number(r.enhanced_altitude ?? r.altitude),
        latDeg: number(r.position_lat),
        lonDeg: number(r.position_long),
        temperatureC: number(r.temperature),
        leftPercent: right <= 100 ? 100 - right : NaN,
      });
    }
  }

  /** Adds what the parser could not give. A native sensor wins over a developer field, a native field of odd width comes first. */
  finish(sides: readonly SideColumn[]): void {
    const { table, rows, first, warnings } = this;
    const untimed = this.seen - rows.length;
    if (untimed > 0) warnings.push(note("ride-untimed-records", { count: untimed }));
    const known = new Set<ColumnName>();
    for (const side of [...sides].sort((a, b) => Number(a.developer) - Number(b.developer))) {
      const column = table.columns[side.column];
      if (known.has(side.column) || rows.some((_, k) => column[first + k] === column[first + k])) continue;
      known.add(side.column);
      if (side.developer) warnings.push(note("fit-developer-column", { column: side.column }));
      rows.forEach((record, k) => (column[first + k] = side.values[record] ?? NaN));
    }
  }
}

function number(value: unknown): number {
  return typeof value === "number" && Number.isFinite(value) ? value : NaN;
}

/** Spans from a stop of the timer to its next start. A stop that nothing follows ends the ride and is no pause. */
function timerPauses(events: readonly ParsedMessage[]): SpanMs[] {
  const pauses: SpanMs[] = [];
  let stoppedMs = NaN;
  for (const e of events) {
    if (e.event !== "timer" || !(e.timestamp instanceof Date)) continue;
    const timeMs = e.timestamp.getTime();
    if (e.event_type === "start") {
      if (timeMs > stoppedMs) pauses.push({ startMs: stoppedMs, endMs: timeMs });
      stoppedMs = NaN;
    } else if (typeof e.event_type === "string" && STOPS.has(e.event_type) && stoppedMs !== stoppedMs)
      stoppedMs = timeMs;
  }
  return pauses;
}

/** Sessions in the file's order; one without a start begins where the one before it ended. */
function sessionSpans(sessions: readonly ParsedMessage[]): SessionSpan[] {
  const ms = (value: unknown) => (value instanceof Date ? value.getTime() : NaN);
  let beforeMs = -Infinity;
  return sessions.map((session) => {
    const toldMs = ms(session.start_time);
    const startMs = toldMs === toldMs ? toldMs : beforeMs;
    const lastedMs = number(session.total_elapsed_time) * 1000;
    const endMs = toldMs === toldMs && lastedMs > 0 ? toldMs + lastedMs : ms(session.timestamp);
    beforeMs = endMs;
    return { startMs, endMs, sport: typeof session.sport === "string" ? session.sport : "unknown" };
  });
}

function lapSpans(laps: readonly ParsedMessage[]): (SpanMs & { trigger: Lap["trigger"] })[] {
  const spans: (SpanMs & { trigger: Lap["trigger"] })[] = [];
  for (const lap of laps) {
    if (!(lap.start_time instanceof Date)) continue;
    const startMs = lap.start_time.getTime();
    const elapsedS = number(lap.total_elapsed_time);
    const stampMs = lap.timestamp instanceof Date ? lap.timestamp.getTime() : NaN;
    const endMs = elapsedS > 0 ? startMs + elapsedS * 1000 : stampMs;
    if (!(endMs > startMs)) continue;
    const trigger = lap.lap_trigger === "manual" ? "manual" : typeof lap.lap_trigger === "string" ? "auto" : "unknown";
    spans.push({ startMs, endMs, trigger });
  }
  return spans;
}

function localTime(activity: ParsedMessage | undefined): number | null {
  const local = activity?.local_timestamp;
  if (!(local instanceof Date) || !(activity?.timestamp instanceof Date)) return null;
  return localOffsetMin((local.getTime() - activity.timestamp.getTime()) / 60_000);
}

function nearGreenwich(lonDeg: readonly number[]): boolean {
  const lon = lonDeg.find((v) => v === v);
  return lon !== undefined && Math.abs(lon) < 30;
}
