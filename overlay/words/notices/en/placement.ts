import type {
  AnchorTrouble,
  InheritDoubt,
  PlacementReason,
  PlacementReasons,
  SignalDoubt,
  SignalFeature,
} from "../../../../main/contract/notices/placement.ts";
import { exactClockText, listed, otherDays, saidDoubts, withButs } from "../parts.ts";

const FEATURES: Readonly<Record<SignalFeature, string>> = {
  motion: "stop and go",
  sound: "wind and tyre noise",
  turning: "turns",
  swing: "turning felt by its gyroscope",
  shake: "shake of the road",
};

const DOUBTS: Readonly<Record<SignalDoubt, string>> = {
  "could be chance": "the agreement could be chance",
  "another place fits": "another place in the ride fits nearly as well",
  "few moments": "it rests on a few moments alone",
  "too short": "two minutes of footage at least are needed to tell chance from agreement",
  "not sharp": "the place is not sharp",
  "mark of the clock open": "the camera's clock may mark the start or the end of its clips",
};

const SIDES = { "before the ride": "before the ride began", "after the ride": "after the ride ended" } as const;

function zone(zoneMin: number): string {
  if (zoneMin === 0) return "read as UTC";
  return `read as local time (UTC${zoneMin > 0 ? "+" : "-"}${exactClockText(Math.abs(zoneMin) * 60).slice(0, -3)})`;
}

function markWithRest(mark: { readonly mediaS: number; readonly rideS: number; readonly residualS: number }): string {
  const rest = `${mark.residualS < 0 ? "-" : "+"}${Math.abs(mark.residualS).toFixed(1)}`;
  return `${exactClockText(mark.mediaS)} = ${exactClockText(mark.rideS)} (${rest} s)`;
}

function trouble(found: AnchorTrouble): string {
  return found.kind === "one left out"
    ? `mark ${found.mark} disagrees with the others by ${found.byS.toFixed(1)} s and is left out`
    : `marks ${found.pair[0].mark} and ${found.pair[1].mark} disagree by ${found.byS.toFixed(1)} s, which no ` +
        "clock explains: " +
        `${found.pair.map(markWithRest).join(", ")}` +
        `; if the clip plays slower or faster than life, say so with "slow 4" or "fast 10" behind an anchor`;
}

function doubt(found: InheritDoubt): string {
  switch (found.kind) {
    case "camera filmed another":
      return `it would still run ${exactClockText(found.overlapS)} while the same camera filmed ${found.fileName}`;
    case "no sound":
      return `it has no sound, though ${found.sourceName} has: it may be slow motion or time lapse`;
    case "camera not told":
      return (
        `it may be of another camera of the same model as ${found.sourceName}: neither file has a serial number, and ` +
        "their names do not count on from one to the other"
      );
    case "clock was reset":
      return `the camera's clock was never set, and may have begun anew between it and ${found.sourceName}`;
    case "fits elsewhere":
      return "what it shows and lets hear fits other places in the ride better";
  }
}

const times = (value: number) =>
  value < 1
    ? `it is time lapse that plays ${Number((1 / value).toFixed(1))} times faster than it was filmed`
    : `it is slow motion that plays ${Number(value.toFixed(1))} times slower than it was filmed`;

const lead = (leadS: number) => `${Math.abs(leadS).toFixed(0)} s ${leadS < 0 ? "behind" : "ahead of"}`;

const WORDS: { readonly [C in keyof PlacementReasons]: (facts: PlacementReasons[C]) => string } = {
  anchors: ({ count, agreeToS, rate, trouble: found, byHand = false }) =>
    [
      count === 1 ? "one anchor" : `${count} anchors`,
      agreeToS === null ? null : `agreeing to ${agreeToS.toFixed(2)} s`,
      rate === null ? null : `played at ${Number(rate.toPrecision(3))} of its speed`,
      found && trouble(found),
      byHand ? "moved by hand further than its error, and not compared with the picture since" : null,
    ]
      .filter((part) => part !== null)
      .join(", "),
  "camera-positions": ({ rmsM, movedM, anotherFits, hardlyMoved, clockOffS, unlike }) =>
    withButs(
      `the camera's own positions follow the ride's to ${rmsM.toFixed(1)} m over ${Math.round(movedM)} m`,
      [
        anotherFits ? "another part of the ride fits as well" : null,
        unlike ? "another bike that rode the same way could have done so too" : null,
        hardlyMoved ? "the camera hardly moved, so its place does not tell the time" : null,
      ],
      clockOffS === null ? "" : `its satellite time differs from the ride's clock by ${clockOffS.toFixed(0)} s`,
      "but",
    ),
  "camera-on-another-rider": ({ leadS, errorS, unlike }) =>
    `this camera rode ${lead(leadS)} the file, so it lies where the satellite clocks of both put it, to ` +
    `about ${errorS.toFixed(1)} s` +
    `${unlike ? "; but it may as well be the file's own rider, with a clock that is off" : ""}`,
  "camera-on-ride": ({ rideName, leadS }) =>
    `its positions and its clock are those of ${rideName}, whose rider carried the camera${leadS === null ? "" : `, ${lead(leadS)} the shown ride`}`,
  "camera-clock-against-positions": ({ clockS, positionsS, rmsM }) =>
    `its positions follow the ride's to ${rmsM.toFixed(1)} m from ${exactClockText(positionsS)} on, but by ` +
    `its satellite time it begins at ${exactClockText(clockS)} of the ride: another day, another lap, or a ` +
    "clock that was never set",
  "shared-clock": ({ own, others }) =>
    `${placementReasonEn(own)}; solved together with ${others} more ${others === 1 ? "recording" : "recordings"} of this camera, whose clock they share`,
  "signals-match": ({ stopsS, turns, used, together, score, farFromClock }) => {
    const parts: string[] = [];
    if (stopsS.length === 1) parts.push(`a stop at ${exactClockText(stopsS[0]!)}`);
    else if (stopsS.length > 1) parts.push(`${stopsS.length} stops (the first at ${exactClockText(stopsS[0]!)})`);
    if (turns > 0) parts.push(turns === 1 ? "one turn" : `${turns} turns`);
    if (used.includes("sound")) parts.push(FEATURES.sound);
    else if (parts.length === 0) parts.push(FEATURES.motion);
    const far = farFromClock ? "; but that is far from where the camera's clock puts it" : "";
    return `check this: ${listed(parts, "and")} match the ride${together ? ", all clips of this camera together" : ""} (score ${score.toFixed(1)})${far}`;
  },
  "signals-open": ({ used, doubts }) =>
    `${used.map((feature) => FEATURES[feature]).join(", ")} were held against the ride, but ${saidDoubts(doubts)
      .map((one) => DOUBTS[one])
      .join("; ")}`,
  "slow-motion": ({ own, times: slower }) =>
    own === null
      ? `${times(slower)}, so neither its clock nor what it shows places it by itself`
      : `${placementReasonEn(own)}; ${times(slower)}`,
  "clock-of": ({ sourceName, trimS }) =>
    `the camera's clock, as ${sourceName} fixes it` +
    `${trimS === null ? "" : `, to about ${trimS.toFixed(0)} s: a program wrote the file anew and may have cut its beginning; an anchor makes it exact`}`,
  "clock-of-outside": ({ fileName, sourceName, side }) =>
    `by the camera's clock, as ${sourceName} fixes it, ${fileName} was filmed ${SIDES[side]}`,
  "clocks-disagree": ({ fileName, sourceName }) =>
    `the placed clips of this camera do not agree on one clock; ${fileName} follows ${sourceName}, the nearest in time`,
  "clock-mark-open": ({ sourceName, spreadS }) =>
    `it follows ${sourceName} by the camera's clock, but whether that clock marks a clip's start or its end ` +
    `makes ${spreadS.toFixed(0)} s: one anchor in another clip settles it`,
  "inherited-doubted": ({ own, atS, doubt: found }) =>
    `${placementReasonEn(own)}, puts it at ${exactClockText(atS)}, but ${doubt(found)}: one anchor in it settles it`,
  "filmed-elsewhere": ({ own, farM, rideName }) =>
    `${placementReasonEn(own)}; but by the point in its file it was filmed ${Math.round(farM / 1000)} km from the ride` +
    `${rideName === null ? "" : `, where ${rideName} passes`}: it may belong to another ride, or an anchor settles it`,
  "no-clock-to-tie": ({ fileName }) =>
    `${fileName} carries no clock to tie it to the others: give it an anchor of its own`,
  "clock-was-reset": ({ fileName }) =>
    `the clock of the camera was not set when ${fileName} was filmed, so it tells nothing`,
  "no-clock": ({ fileName }) => `${fileName} carries no clock, and nothing else places it`,
  "clock-in-no-zone": ({ fileName, clipUtcMs, rideUtcMs }) => {
    const days = otherDays(clipUtcMs, rideUtcMs, "en");
    return days === null
      ? `by its clock, ${fileName} was filmed outside this ride in any time zone`
      : `by its clock, ${fileName} was filmed on ${days.clip}, and the ride is of ${days.ride}: it may be the wrong clip`;
  },
  "clock-outside": ({ fileName, zoneMin, side }) =>
    `by the camera's clock, ${zone(zoneMin)}, ${fileName} was filmed ${SIDES[side]}`,
  "clock-unchecked": ({ zoneMin }) => `from the camera's clock alone, ${zone(zoneMin)}, unchecked`,
  "small-copy": ({ bigName }) =>
    `it is the small copy that the camera wrote of ${bigName}: the same recording, of which that one is used`,
};

/** Why a clip lies where it lies, as part of a sentence, without a full stop. */
export function placementReasonEn({ code, facts }: PlacementReason): string {
  return (WORDS[code] as (facts: unknown) => string)(facts);
}
