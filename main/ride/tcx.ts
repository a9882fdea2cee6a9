import type { Lap } from "../contract/ride.ts";
import { decimal } from "./decimal.ts";
import { onlyRidden, type SessionSpan } from "./onlyRidden.ts";
import { RecordTable, type ColumnName, type DecodedRide, type SpanMs } from "./rideRecords.ts";
import { FileTimes } from "./xml/fileTimes.ts";
import { scanXml } from "./xml/scanXml.ts";
import { note } from "../contract/notice.ts";

/** Values of a track point by local name in lower case (TCX v2 schema and its activity extension v2). */
const POINT_VALUES: Readonly<Record<string, ColumnName>> = {
  latitudedegrees: "latDeg",
  longitudedegrees: "lonDeg",
  altitudemeters: "altitudeM",
  distancemeters: "distanceM",
  cadence: "cadenceRpm",
  runcadence: "cadenceRpm",
  speed: "speedMps",
  watts: "powerW",
};

/**
 * A break between the tracks of one lap is a pause when longer than the first; between laps, which a track change
 * alone does not stop, when longer than the second, ms.
 */
const PAUSE_IN_LAP_MS = 1500;
const PAUSE_AT_LAP_MS = 10_000;

/** Reads the activities of a TCX text. The table stays empty when no track point has a time. */
export function decodeTcx(text: string, fileName: string): DecodedRide {
  const table = new RecordTable(fileName);
  const times = new FileTimes();
  const pauses: SpanMs[] = [];
  const laps: { startMs: number; endMs: number; trigger: Lap["trigger"] }[] = [];
  let point: Partial<Record<ColumnName, number>> | null = null;
  let timeMs = NaN;
  let untimed = 0;
  let inHeart = false;
  let pauseAfterMs = Infinity;
  let tracksInLap = 0;
  const activities: { readonly sport: string; readonly firstRow: number }[] = [];
  let isCourse = false;
  let lap: { startMs: number; seconds: number; trigger: Lap["trigger"] } | null = null;

  const finish = () => {
    if (!point) return;
    if (timeMs === timeMs) {
      const before = table.timeMs[table.count - 1];
      const paused = before !== undefined && timeMs - before > pauseAfterMs;
      if (paused) pauses.push({ startMs: before, endMs: timeMs });
      table.add(timeMs, point, paused);
      pauseAfterMs = Infinity;
    } else untimed++;
    point = null;
  };
  const finishLap = () => {
    if (!lap) return;
    const lastMs = table.timeMs[table.count - 1] ?? -Infinity;
    const endMs = Math.max(lap.startMs + (lap.seconds > 0 ? lap.seconds * 1000 : 0), lastMs);
    if (endMs > lap.startMs) laps.push({ startMs: lap.startMs, endMs, trigger: lap.trigger });
    lap = null;
  };

  const faultLine = scanXml(text, {
    abandon() {
      point = null;
      inHeart = false;
    },
    open(name, attribute) {
      if (name === "trackpoint") {
        finish();
        timeMs = NaN;
        point = {};
      } else if (name === "track") {
        finish();
        pauseAfterMs = Math.min(pauseAfterMs, tracksInLap > 0 ? PAUSE_IN_LAP_MS : PAUSE_AT_LAP_MS);
        tracksInLap++;
      } else if (name === "lap") {
        finish();
        finishLap();
        tracksInLap = 0;
        lap = { startMs: times.read(attribute("starttime") ?? ""), seconds: NaN, trigger: "unknown" };
      } else if (name === "heartratebpm") inHeart = true;
      else if (name === "activity") {
        finish();
        // Of the schema's three, Other says nothing against a bike ride.
        const sport = attribute("sport");
        const name = sport === "Running" ? "running" : sport === "Biking" ? "cycling" : "unknown";
        activities.push({ sport: name, firstRow: table.count });
      } else if (name === "course") isCourse = true;
    },
    close(name, content) {
      if (name === "trackpoint") finish();
      else if (name === "heartratebpm") inHeart = false;
      else if (name === "lap") finishLap();
      else if (point) {
        if (name === "time") timeMs = times.read(content);
        else if (name === "value" && inHeart) point.heartRateBpm = decimal(content);
        else {
          const column = POINT_VALUES[name];
          if (column && content) point[column] = decimal(content);
        }
      } else if (lap) {
        if (name === "totaltimeseconds") lap.seconds = decimal(content);
        else if (name === "triggermethod") lap.trigger = content.toLowerCase() === "manual" ? "manual" : "auto";
      }
    },
  });
  const warnings = [...times.warnings];
  if (untimed > 0) warnings.push(note("ride-untimed-points", { untimed, points: table.count + untimed }));
  const sessions = sessionSpans(activities, table.timeMs);
  const sports = sessions.map(({ sport }) => sport);
  const ridden = onlyRidden(fileName, table, sessions, pauses, laps);
  if (ridden) warnings.push(note("ride-only-ridden", { count: sports.length, sports: sports.slice(0, 8) }));
  else {
    if (activities.length > 1) warnings.push(note("ride-several-activities", { count: activities.length }));
    if (sports.includes("running")) warnings.push(note("ride-other-sport", { sport: "running" }));
  }
  if (isCourse) warnings.push(note("ride-is-course", {}));
  if (faultLine !== null) warnings.push(note("ride-text-damaged", { line: faultLine }));
  return { table, pauses, laps, ...ridden, utcOffsetMin: times.utcOffsetMin, gradientWindowM: 150, warnings };
}

/** When each activity was recorded: from its first to its last record; one without records is none. */
function sessionSpans(
  activities: readonly { readonly sport: string; readonly firstRow: number }[],
  timeMs: readonly number[],
): SessionSpan[] {
  return activities.flatMap(({ sport, firstRow }, i) => {
    const times = timeMs.slice(firstRow, activities[i + 1]?.firstRow);
    if (times.length === 0) return [];
    const startMs = times.reduce((least, ms) => Math.min(least, ms));
    return [{ sport, startMs, endMs: times.reduce((most, ms) => Math.max(most, ms)) }];
  });
}
