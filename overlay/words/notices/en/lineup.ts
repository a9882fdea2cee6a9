import type { LineupFailures, LineupNotes, RideTimeFault } from "../../../../main/contract/notices/lineup.ts";
import { counted, exactClockText, listed, otherDays } from "../parts.ts";
import { clockText } from "../../numbers.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import { placementReasonEn } from "./placement.ts";

const FORMS = "Write a ride time (1:08:05), `timer 1:06:30`, `clock 10:42:17`, `32.41 km` or `lap 3`.";

function rideFact(fault: RideTimeFault): string {
  switch (fault.kind) {
    case "timer ends":
      return `whose timer ends at ${exactClockText(fault.atS)}`;
    case "ran":
      return `which ran from ${exactClockText(fault.fromS)} to ${exactClockText(fault.toS)} local time`;
    case "long in km":
      return `which is ${fault.km.toFixed(2)} km long`;
    case "distance unknown there":
      return "whose distance is not known there";
    case "laps":
      return fault.count === 0 ? "which has no laps" : `which has ${counted(fault.count, "lap", "laps")}`;
    case "long":
      return `which is ${exactClockText(fault.elapsedS)} long`;
  }
}

export const lineupFailures: FailureWords<LineupFailures> = {
  "placing-broke-off": () => ["Placing the clips was broken off.", "Run it again, or set an anchor."],
  "anchor-form": ({ text }) => [
    `"${text}" is no anchor.`,
    "Write CLIP@T=RIDE_T, for example `ride.mp4@12.5=1:08:05`: this instant of the clip is this instant of the ride.",
  ],
  "clip-instant-form": ({ text }) => [
    `"${text}" is no instant of a clip.`,
    "Write CLIP@T, for example `ride.mp4@12.5`: so many seconds, or h:mm:ss, into that clip.",
  ],
  "anchor-clip-ambiguous": ({ name, paths }) => [
    `The anchor's clip "${name}" could be any of ${paths.join(", ")}.`,
    "Give more of its path.",
  ],
  "anchor-clip-unknown": ({ name, given }) =>
    given.length === 0
      ? [`The anchor names the clip "${name}", and no clip was given.`, "Give that clip too."]
      : [
          `The anchor's clip "${name}" is not among the clips given (${given.join(", ")}).`,
          "Give the name of one of them.",
        ],
  "anchor-outside-clip": ({ fileName, text, durationS }) => [
    `The anchor at ${text} lies outside the clip ${fileName}, which is ${exactClockText(durationS)} long.`,
    "Give a time inside the clip.",
  ],
  "ride-time-form": ({ text }) => [`"${text}" is no instant of a ride.`, FORMS],
  "ride-time-outside": ({ text, rideName, fault }) => [
    `"${text}" lies outside the ride ${rideName}, ${rideFact(fault)}.`,
    FORMS,
  ],
  "ride-time-without-clock": ({ text, rideName, lack }) => [
    `"${text}" cannot be found: the ride ${rideName} ${lack === "date" ? "has no calendar time" : "says neither its time zone nor its place"}.`,
    "Give the ride time, the timer, the distance or a lap instead.",
  ],
  "ride-time-without-distance": ({ text, rideName }) => [
    `"${text}" cannot be found: the ride ${rideName} has no distance.`,
    "Give the ride time, the timer, the clock or a lap instead.",
  ],
  "lineup-open": ({ fileName, more, reason, exampleS, placesS }, door) => [
    `Where ${fileName}${more > 0 ? ` (and ${more} more)` : ""} belongs in the ride is not sure: ${placementReasonEn(reason)}.`,
    door === "window"
      ? "Set one anchor at something you see, or agree that it is shown as it is."
      : `${placesS.length === 0 ? "" : `It could begin at ${listed(placesS.map(clockText), "or")} of the ride. `}Set one ` +
        `anchor at something you see: --anchor "${fileName}@${exampleS}=RIDE_TIME", with what the bike computer showed ` +
        `at that instant (1:08:05, "clock 10:42:17" …), or take it as it is with --accept-unsure.`,
  ],
};

export const lineupNotes: NoteWords<LineupNotes> = {
  "clip-outside-ride": ({ fileName, reason }) => `${fileName} shows nothing of the ride: ${placementReasonEn(reason)}.`,
  "clip-begins-before": ({ fileName, byS }) =>
    `${fileName} begins ${exactClockText(byS)} before the ride: there its panels show dashes.`,
  "clip-ends-after": ({ fileName, byS }) =>
    `${fileName} ends ${exactClockText(byS)} after the ride: there its panels show dashes.`,
  "clips-overlap": ({ fileName, otherName, overlapS, sameCamera }) =>
    sameCamera
      ? `${fileName} and ${otherName} are of one camera, yet their places overlap by ${exactClockText(overlapS)}: check them.`
      : `${fileName} and ${otherName} show the same ${exactClockText(overlapS)} from two cameras.`,
  "anchor-against-clock": ({ fileName, awayS, clipUtcMs, rideUtcMs }) => {
    const days = otherDays(clipUtcMs, rideUtcMs, "en");
    return days === null
      ? `The anchor on ${fileName} lies ${exactClockText(Math.round(awayS))} from where the camera's clock puts the clip: ` +
          "look at it once more. The anchor is used."
      : `By its clock, ${fileName} was filmed on ${days.clip}, and the ride is of ${days.ride}: is it the right clip? ` +
          "The anchor is used.";
  },
  "anchor-against-positions": ({ fileName, apartS }) =>
    `The anchor on ${fileName} and the camera's own positions disagree by ${apartS.toFixed(1)} s: the anchor is used.`,
  "file-given-twice": ({ fileName, sameAs }) =>
    fileName === sameAs
      ? `${fileName} was given twice; it is taken once.`
      : `${fileName} is the same file as ${sameAs} under another name; it is left out.`,
  "clip-small-copy": ({ fileName, bigName }) =>
    `${fileName} and ${bigName} are one recording in two sizes, as the camera wrote it: ${bigName} is used, ${fileName} is left out.`,
  "clip-by-anchored-clock": ({ fileName, reason }) => `${fileName}: ${placementReasonEn(reason)}. Give it one glance.`,
  "clip-telemetry-parts-unread": ({ fileName, unread, parts }) =>
    `${fileName}: ${unread} of ${parts} parts of the telemetry track could not be read.`,
  "clip-telemetry-without-places": ({ fileName }) => `${fileName}: the telemetry track holds no satellite positions.`,
  "clip-telemetry-without-fix": ({ fileName }) =>
    `${fileName}: the camera's satellite receiver had no fix that can be trusted: no GPS time, no GPS place.`,
  "clip-picture-still": ({ fileName }) =>
    `The picture of ${fileName} stands still throughout: it shows no motion to line up by.`,
  "clip-without-sound": ({ fileName }) => `${fileName} has no sound to line up by.`,
};
