import type { HeartTrouble, ReadingFailures, ReadingNotes } from "../../../../main/contract/notices/reading.ts";
import { clockText } from "../../numbers.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import { formFaultEn } from "./formFault.ts";

const TROUBLES: Readonly<Record<HeartTrouble, string>> = {
  stop: "a stop disturbed it",
  missing: "heart rate was missing",
  "not settled": "the heart had not settled",
  "never settled": "the heart never settled",
};
const MISSING = {
  "speed and position": "neither speed nor position",
  position: "no position",
  speed: "no speed",
} as const;

export const readingFailures: FailureWords<ReadingFailures> = {
  "plan-unusable": ({ fileName, fault }, door) => [
    `The plan ${fileName} can't be used: ${formFaultEn(fault)}.`,
    (fault.kind === "not JSON" || fault.path === "" ? "Correct the file" : "Correct that key") +
      (door === "window" ? "." : "; `followcar plan --help` lists all keys with their units."),
  ],
};

export const readingNotes: NoteWords<ReadingNotes> = {
  "reading-without-power-and-cadence": () =>
    "There is neither power nor cadence in the file: breaks in pressure can't be told.",
  "reading-without-power": () =>
    "There is no power in the file: breaks are told from cadence 0, and drift is not corrected for power.",
  "reading-without-target": (_, door) =>
    "There is no target power: time in, below and above the band and surges need one. " +
    (door === "window" ? 'Give it under "What was asked".' : "Give it with --target, for example --target 160."),
  "reading-target-offer": ({ meanW, startS, endS }) =>
    `The steadiest hour (${clockText(startS)} to ${clockText(endS)}) had a mean of ${Math.round(meanW)} W: a place to start from for a target, not a target.`,
  "reading-target-doubt": (doubt, door) =>
    (doubt.by === "power"
      ? `The target looks wrong for this ride: asked ${doubt.askedW} W, ridden ${doubt.riddenW} W. `
      : `The planned heart rate looks wrong for this ride: asked ${doubt.lowBpm} to ${doubt.highBpm}, ridden ${doubt.riddenBpm}. `) +
    (door === "window"
      ? 'Give the right one under "What was asked", or keep it and set the next ride yourself under "Hand over".'
      : `Give the right one with ${doubt.by === "power" ? "--target" : "--plan"}, or keep it and ` +
        "set the next ride yourself: followcar say DEBRIEF --next-length MIN."),
  "reading-indoors": (_, door) =>
    `The file says that this was ridden indoors: the road excuses nothing, and breaks ` +
    `without a seen reason are "cannot tell". If it was a trainer, say so ${door === "window" ? 'under "What was asked"' : "with --setting trainer"}.`,
  "reading-without-heart-band": () => "Without power, time in the band needs a heart rate band in the plan.",
  "reading-without-heart": () => "There is no heart rate in the file: no readings and no drift.",
  "reading-without-cadence": () => "There is no cadence in the file.",
  "reading-without-movement": ({ missing }, door) => {
    const trainer = door === "window" ? 'say so under "What was asked"' : "say so with --setting trainer";
    return (
      `There is ${MISSING[missing]} in the file: a break without a seen reason is "cannot tell".` +
      `${missing === "speed" ? "" : ` If this was ridden on a trainer, ${trainer}.`}`
    );
  },
  "reading-without-altitude": () =>
    'There is no altitude in the file: fast breaks may be descents, so they are "cannot tell".',
  "reading-in-group": () =>
    'In a group, a break that nothing excuses is "cannot tell": easing in a wheel is riding well.',
  "reading-pressure-unknown": () =>
    "Power and cadence are missing from nearly all of the main part: breaks in pressure can't be told.",
  "reading-own-steps": ({ breaks, drift }) =>
    "The recorder chose its own steps: " +
    (breaks
      ? `breaks under 10 s can't be told${drift ? ", nor to the minute when a drift began" : ""}.`
      : "when a drift began can't be told to the minute."),
  "reading-nothing-counts": () => "Nothing of this ride counts: its main part holds next to no records.",
  "heart-mostly-missing": ({ percent }) =>
    `Heart rate is missing for ${Math.round(percent)} % of the main part: no drift is given.`,
  "heart-of-longest-part": ({ startS, endS }) =>
    `Heart readings and drift are of ${clockText(startS)} to ${clockText(endS)}, the longest part without a stop of more than 5 minutes.`,
  "heart-part-too-short": () => "The main part is too short for two heart readings and a drift.",
  "heart-reading-absent": ({ which, why }) =>
    `There is no ${which} heart reading: ${why === null ? "the main part is too short" : TROUBLES[why]}.`,
  "heart-reading-moved": ({ which, why }) => `The ${which} heart reading was moved: ${TROUBLES[why]}.`,
  "onset-too-few-minutes": ({ minutes, needed }) =>
    `There ${minutes === 1 ? "is 1 whole minute" : `are ${minutes} whole minutes`} of steady riding; the start of a drift needs ${needed}.`,
  "onset-minutes-left-out": ({ asked, lostToStops, lostToData }) => {
    const lost = lostToStops + lostToData;
    const parts = [
      lostToStops > 0 ? `${lostToStops} with a stop` : null,
      lostToData > 0 ? `${lostToData} with data missing` : null,
    ].filter((part) => part !== null);
    return `Of ${asked} minutes, ${parts.join(" and ")} ${lost === 1 ? "was" : "were"} left out of the search for drift.`;
  },
  "onset-usual-power-effect": ({ beatsPerWatt }) =>
    `This ride can't show how the heart follows power; the usual ${beatsPerWatt} beats a watt stand in.`,
  "override-without-time": () => "The main part that the coach set can't be used: it holds no time of this ride.",
  "target-all-later": ({ where }) =>
    `Every ${where} target of the athlete was found after this ride, so none was used.`,
  "target-old": ({ where, targetW, source, date, weeks }) =>
    `The ${where} target of ${targetW} W${source === null ? "" : ` (${source})`} is from ${date}, ${weeks} weeks before this ride: find it anew.`,
  "target-other-meter": ({ where, targetW, foundMeter, meter }) =>
    `The ${where} target of ${targetW} W was found with another meter (${foundMeter}; now ${meter}): meters differ by a few watts.`,
};
