import { decimal } from "./decimal.ts";
import { RecordTable, type ColumnName, type DecodedRide, type SpanMs } from "./rideRecords.ts";
import { Failure } from "../contract/failure.ts";
import { FileTimes } from "./xml/fileTimes.ts";
import { scanXml } from "./xml/scanXml.ts";
import { note } from "../contract/notice.ts";

/**
 * Values of a track point by local name in lower case, whatever prefix and however deep (GPX 1.1 schema; the common
 * track point extensions: hr, cad, atemp, speed; power has no standard).
 */
const POINT_VALUES: Readonly<Record<string, ColumnName>> = {
  ele: "altitudeM",
  speed: "speedMps",
  hr: "heartRateBpm",
  heartrate: "heartRateBpm",
  cad: "cadenceRpm",
  cadence: "cadenceRpm",
  atemp: "temperatureC",
  temp: "temperatureC",
  power: "powerW",
  watts: "powerW",
  powerinwatts: "powerW",
};

/** A break between segments of at least this long is a pause, ms. */
const PAUSE_MS = 1500;

/** Reads the tracks of a GPX 1.0 or 1.1 text. Failure `ride-not-usable` when most points have no time. */
export function decodeGpx(text: string, fileName: string): DecodedRide {
  const table = new RecordTable(fileName);
  const times = new FileTimes();
  const pauses: SpanMs[] = [];
  let point: Partial<Record<ColumnName, number>> | null = null;
  let timeMs = NaN;
  let untimed = 0;
  let newSegment = true;
  let newTrack = false;
  let tracks = 0;

  const finish = () => {
    if (!point) return;
    if (timeMs === timeMs) {
      const before = table.timeMs[table.count - 1];
      if (newSegment && before !== undefined && timeMs - before > PAUSE_MS)
        pauses.push({ startMs: before, endMs: timeMs });
      table.add(timeMs, point, newSegment);
      if (newTrack) tracks++;
      newTrack = false;
      newSegment = false;
    } else untimed++;
    point = null;
  };

  const faultLine = scanXml(text, {
    abandon() {
      point = null;
    },
    open(name, attribute) {
      if (name === "trkpt") {
        finish();
        timeMs = NaN;
        point = { latDeg: decimal(attribute("lat") ?? ""), lonDeg: decimal(attribute("lon") ?? "") };
      } else if (name === "trkseg" || name === "trk") {
        finish();
        newSegment = true;
        newTrack ||= name === "trk";
      }
    },
    close(name, content) {
      if (!point) return;
      if (name === "trkpt") finish();
      else if (name === "time") timeMs = times.read(content);
      else {
        const column = POINT_VALUES[name];
        if (column && content) point[column] = decimal(content);
      }
    },
  });
  const all = table.count + untimed;
  if (all === 0) {
    throw new Failure("gpx-without-points", { fileName });
  }
  if (untimed > 0 && untimed >= table.count) {
    throw new Failure("gpx-without-times", { fileName, timed: table.count, points: all });
  }
  const warnings = [...times.warnings];
  if (untimed > 0) warnings.push(note("ride-untimed-points", { untimed, points: all }));
  if (tracks > 1) warnings.push(note("ride-several-tracks", { count: tracks }));
  if (faultLine !== null) warnings.push(note("ride-text-damaged", { line: faultLine }));
  return { table, utcOffsetMin: times.utcOffsetMin, pauses, laps: [], gradientWindowM: 150, warnings };
}
