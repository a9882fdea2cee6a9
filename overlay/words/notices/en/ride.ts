import type { RideColumn, RideFailures, RideNotes } from "../../../../main/contract/notices/ride.ts";
import { clockText, durationText } from "../../numbers.ts";
import { counted, spansText, utcText } from "../parts.ts";
import type { FailureWords, NoteWords } from "../tables.ts";

const KINDS_OF_FILE = "Choose a FIT, GPX, TCX or CSV file of a recorded ride, plain or gzipped.";
const RECORDED = "Choose the file of a recorded ride.";

/** Columns of a ride as a sentence begins with them. */
const rideColumnWords: Readonly<Record<RideColumn, string>> = {
  powerW: "Power",
  heartRateBpm: "Heart rate",
  cadenceRpm: "Cadence",
  speedMps: "Speed",
  distanceM: "Distance",
  altitudeM: "Altitude",
  latDeg: "Latitude",
  lonDeg: "Longitude",
  temperatureC: "Temperature",
  leftPercent: "Left share",
};

const times = (facts: Parameters<typeof spansText>[0]) => spansText(facts, { to: "to", and: "and", more: "more" });
const isOrAre = (count: number) => (count === 1 ? "is" : "are");

export const rideFailures: FailureWords<RideFailures> = {
  "ride-empty": ({ fileName }) => [`${fileName} is empty.`, "Copy or export the ride again."],
  "ride-file-too-large": ({ fileName }) => [`${fileName} is larger than any ride file.`, KINDS_OF_FILE],
  "ride-packed-twice": ({ fileName }) => [`${fileName} is compressed more than once.`, "Unpack it once and try again."],
  "ride-zip-archive": ({ fileName }) => [`${fileName} is a zip archive.`, "Unpack it and choose the ride file inside."],
  "ride-no-ride-file": ({ fileName }) => [`${fileName} is not a ride file.`, KINDS_OF_FILE],
  "ride-without-records": ({ fileName }) => [
    `${fileName} holds no record of a ride.`,
    "Choose the file of a recorded ride, or export it again.",
  ],
  "ride-without-values": ({ fileName }) => [
    `${fileName} has times but no place and no sensor value.`,
    "Choose another export of the ride.",
  ],
  "ride-over-a-week": ({ fileName }) => [
    `${fileName} spans more than 7 days, which is no single ride.`,
    "Split it into rides, or export the ride again.",
  ],
  "ride-too-many-records": ({ fileName }) => [
    `${fileName} holds more than 2 million records, which is no ride.`,
    RECORDED,
  ],
  "ride-needs-memory": ({ fileName }) => [
    `Reading ${fileName} takes more memory than a ride does: it was stopped.`,
    RECORDED,
  ],
  "ride-one-record": ({ fileName }) => [
    `${fileName} holds one record only: there is no ride in it.`,
    "Choose the file of a whole ride, or export it again.",
  ],
  "ride-clock-stands": ({ fileName }) => [
    `All records of ${fileName} have one and the same time: there is no clock in it to read the ride by.`,
    "Export the ride with its times, for example as FIT.",
  ],
  "ride-gzip-damaged": ({ fileName }) => [
    `${fileName} is compressed, and damaged so that nothing can be unpacked.`,
    "Copy or export the ride again.",
  ],
  "ride-gzip-too-large": ({ fileName, limitMb }) => [
    `${fileName} unpacks to more than ${limitMb} MB, which is no ride.`,
    RECORDED,
  ],
  "gpx-without-points": ({ fileName }) => [
    `${fileName} holds no track point.`,
    "Choose the file of a recorded ride, not of waypoints, a route or a course.",
  ],
  "gpx-without-times": ({ fileName, timed, points }) => [
    timed === 0
      ? `No point of ${fileName} has a time.`
      : `Only ${timed} of the ${points} points of ${fileName} have a time.`,
    "Export the ride with its times, for example as FIT.",
  ],
  "csv-without-header": ({ fileName }) => [
    `${fileName} is not a ride file, or a CSV file without a header that names a time and a value.`,
    "Give the columns a header such as `time,power,heart rate,cadence,speed (km/h)`, or choose a FIT, GPX or TCX file.",
  ],
  "csv-without-times": ({ fileName }) => [
    `No line of ${fileName} has a time that can be read.`,
    "Write times as 2026-05-17T08:00:00Z, as seconds, or as h:mm:ss.",
  ],
  "ride-is-folder": ({ fileName }) => [`${fileName} is a folder.`, "Name a ride file, not its folder."],
  "ride-is-debrief": ({ name, rideName, ridePath }) => [
    `${name} is a debrief, not a ride file.`,
    ridePath === null
      ? `Name the ride file that it was made of: ${rideName}.`
      : `Name its ride file instead: ${ridePath}.`,
  ],
  "ride-no-ordinary-file": ({ fileName }) => [`${fileName} is not an ordinary file.`, "Copy the ride into a file."],
  "ride-file-missing": ({ path }) => [`${path} does not exist.`, "Check the name and the folder."],
  "ride-file-forbidden": ({ fileName }) => [
    `${fileName} may not be read.`,
    "Give yourself the right to read it, or copy it elsewhere.",
  ],
  "ride-file-unreadable": ({ fileName, error }) => [
    `${fileName} cannot be read (${error ?? "unknown reason"}).`,
    "Check the disk, or copy the file again.",
  ],
};

export const rideNotes: NoteWords<RideNotes> = {
  "ride-gzip-cut": () => "The compressed file is damaged or cut short; what could be unpacked is read.",
  "ride-very-short": ({ elapsedS, records }) =>
    `The ride is only ${Math.round(elapsedS)} s long (${counted(records, "record", "records")}).`,
  "ride-without-date": ({ why }) =>
    why === "none"
      ? "The file has no calendar date. It cannot be lined up with clips by the clock."
      : "The file has no calendar date: its clock counts from when it was switched on. It cannot be lined up with clips by the clock.",
  "ride-wrong-date": ({ year }) =>
    `The date in the file (${year}) cannot be right; the ride is read without one and cannot be lined up with clips by the clock.`,
  "ride-own-steps": () => "The recorder chose its own steps instead of 1 s: a value stands until the next one.",
  "ride-null-positions": ({ count }) =>
    `${counted(count, "position lies", "positions lie")} at exactly 0,0, where nobody rides: left out.`,
  "ride-dead-sensor": ({ column }) => `${rideColumnWords[column]} is 0 throughout: the sensor is taken as absent.`,
  "ride-records-out-of-order": () => "Some records are not in order of time; they are sorted.",
  "ride-times-jump": ({ left, more }) => {
    const named = left.map(
      ({ records, startMs }) => `${counted(records, "record", "records")} from ${utcText(startMs, "en")}`,
    );
    return `The times in the file jump: the longest piece is read; left out: ${named.join(", ")}${more > 0 ? ` and ${more} more` : ""}.`;
  },
  "ride-power-spikes": ({ count }) =>
    `${counted(count, "power value", "power values")} no rider makes ${isOrAre(count)} left out.`,
  "ride-power-dropouts": ({ seconds }) =>
    `${counted(seconds, "second", "seconds")} of power dropped to 0 while the pedals turned and ${isOrAre(seconds)} left out.`,
  "ride-heart-jumps": ({ seconds }) =>
    `${counted(seconds, "second", "seconds")} of heart rate jumped as no heart does and ${isOrAre(seconds)} left out.`,
  "ride-heart-follows-cadence": (facts) =>
    `Heart rate followed the cadence from ${times(facts)} and is left out there: the sensor may have counted pedal turns.`,
  "ride-heart-stuck": (facts) => `Heart rate stood still from ${times(facts)} and is left out there.`,
  "ride-heart-no-pulse": (facts) =>
    `The heart rate sensor had no pulse from ${times(facts)}: what it gave there is left out.`,
  "ride-power-zero-turning": (facts) =>
    `Power stayed at 0 with the pedals turning from ${times(facts)}: the meter gave no data there.`,
  "ride-power-frozen": (facts) =>
    `Power stood still at one value from ${times(facts)} while cadence and speed changed: it is left out there.`,
  "ride-cadence-zero-pressed": (facts) =>
    `Cadence stayed at 0 with pressure on the pedals from ${times(facts)}: it is left out there.`,
  "ride-sensor-silent": ({ column, ...facts }) => `${rideColumnWords[column]} is missing from ${times(facts)}.`,
  "ride-altitude-begins-wrong": ({ untilS }) =>
    `Altitude begins with values that no road has; before ${clockText(untilS)} it is left out.`,
  "ride-cadence-spikes": ({ seconds }) =>
    `${counted(seconds, "second", "seconds")} of cadence no legs turn ${isOrAre(seconds)} left out.`,
  "ride-absurd-sums": ({ distanceM, meanMps, powerW }) => {
    const km =
      distanceM === null ? [] : [`${Math.round(distanceM / 1000)} km, a mean of ${Math.round(meanMps! * 3.6)} km/h`];
    const watts = powerW === null ? [] : [`up to ${Math.round(powerW)} W`];
    return `The file is damaged: it says ${[...km, ...watts].join(" and ")}, which no rider makes. What is judged from it may be wrong.`;
  },
  "ride-speed-from-places": () => "Speed is not in the file; it is worked out from the distance between places.",
  "ride-times-without-zone": () => "Times in the file name no zone; they are taken as UTC.",
  "ride-untimed-points": ({ untimed, points }) => `${untimed} of ${points} points have no time and are left out.`,
  "ride-untimed-records": ({ count }) =>
    `${counted(count, "record has", "records have")} no time and ${isOrAre(count)} left out.`,
  "ride-untimed-lines": ({ left, lines }) => `Left out: ${left} of ${lines} lines, without a time or damaged.`,
  "ride-several-tracks": ({ count }) => `The file holds ${count} tracks; they are read as one ride.`,
  "ride-several-activities": ({ count }) => `The file holds ${count} activities; they are read as one ride.`,
  "ride-several-recordings": ({ count }) => `The file chains ${count} recordings; they are read as one ride.`,
  "ride-several-sessions": ({ count, sports }) =>
    `The file holds ${count} sessions (${sports.join(", ")}); all are read as one ride.`,
  "ride-only-ridden": ({ count, sports }) =>
    `The file holds ${count} sessions (${sports.join(", ")}); only what was ridden is read.`,
  "ride-mostly-unrecorded": ({ recordedS, elapsedS }) =>
    `Only ${durationText(recordedS)} of the ${durationText(elapsedS)} from the first to the last record are recorded; the rest is pauses and holes.`,
  "ride-other-sport": ({ sport }) =>
    `The file says "${sport}", not cycling: if so, what is said of pedals, pressure and cadence means nothing. Take the file of a ride.`,
  "ride-laps-automatic": ({ laps, by }) =>
    `The ${laps} laps are, but for the last, all of one ${by === "time" ? "duration" : "distance"}: they are taken as automatic, not as pressed by hand.`,
  "ride-text-damaged": ({ line }) => `The file is damaged (line ${line}); what is whole in it is read.`,
  "ride-is-course": () => "The file says that it is a course, not a ride.",
  "csv-guessed-unit": ({ column, unit }) => `The ${column} column names no unit; it is taken as ${unit}.`,
  "fit-part-undecoded": () => "A part of the file cannot be decoded; it is left out.",
  "fit-developer-column": ({ column }) =>
    `${rideColumnWords[column]} comes from a field that an add-on has described in the file.`,
  "fit-many-parts": ({ limit }) => `The file chains more than ${limit} parts; the rest is left out.`,
  "fit-foreign-end": () => "The file goes on after its ride with bytes that are no ride; they are left out.",
  "fit-ride-twice": () => "The file holds the same ride twice; the copy is left out.",
  "fit-bytes-damaged": ({ bytes }) => `${bytes} bytes of the file are damaged; the whole records around them are read.`,
  "fit-cut-short": () => "The file is shorter than it says; the records that are whole are read.",
  "fit-wrong-size": () => "The file's stated size is wrong; the records that are whole are read.",
  "fit-wrong-checksum": () =>
    "The file's checksum does not match: it was damaged or changed, and some values may be wrong.",
};
