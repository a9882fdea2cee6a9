import type { JourneyFailures, JourneyNotes } from "../../../../main/contract/notices/journey.ts";
import { askedSentence } from "../../askedWords.ts";
import { debriefWords } from "../../debriefWords.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import { clockText } from "../../numbers.ts";

const INSTALL = {
  macOS: "Run `brew install ffmpeg`",
  Windows: "Run `winget install ffmpeg`",
  Linux: "Run `sudo apt-get install ffmpeg`",
} as const;

export const journeyFailures: FailureWords<JourneyFailures> = {
  "plan-file-unreadable": ({ path }) => [`The plan ${path} cannot be read.`, "Check the path and its permissions."],
  "plan-file-no-json": ({ path, said }, door) => [
    `The plan ${path} is no JSON: ${said}.`,
    door === "window" ? "Correct the file." : "Correct the file, or see `followcar plan --help`.",
  ],
  "still-outside-film": ({ atS, lengthS }, door) => [
    `${door === "window" ? "" : "--at "}${atS} ${door === "window" ? "s " : ""}is outside the film, which lasts ${lengthS.toFixed(1)} s.`,
    "Give a film time inside it.",
  ],
  "debrief-media-missing": ({ path, folder }) => [
    `${path}, which the debrief in ${folder} needs, was not found.`,
    "Put the file back, or beside the debrief's folder.",
  ],
  "debrief-without-ride": ({ folder }, door) => [
    `The debrief in ${folder} names no ride to show.`,
    door === "window" ? "Make it again from its ride." : "Make it again with `followcar debrief`.",
  ],
  "debrief-athlete-missing": ({ path, folder }) => [
    `The athlete's file in ${path}, which the debrief in ${folder} needs, was not found.`,
    "Put athlete.json back: the place to hide stands in it.",
  ],
  "rides-folder-unreadable": ({ folder }) => [
    `The folder ${folder} could not be read.`,
    "Name a folder that holds rides.",
  ],
  "rides-folder-empty": ({ folder }) => [
    `${folder} holds no ride file.`,
    "Name a folder with FIT, GPX, TCX or CSV files, or with a folder for each outing.",
  ],
  "ride-failed-inside": ({ ridePath }) => [
    `Something went wrong inside Followcar with ${ridePath}.`,
    "The other rides went on. Run this one alone with FOLLOWCAR_DEBUG=1 and report what it prints.",
  ],
  "no-break-there": ({ atS, nearestS }, door) => [
    `There is no break in pressure at ${clockText(atS)}${nearestS === null ? "" : `; the nearest begins at ${clockText(nearestS)}`}.`,
    door === "window" ? "Choose one from the list." : "followcar read RIDE --breaks lists them.",
  ],
  "no-ride-given": () => ["No ride file was given.", "Name a FIT, GPX, TCX or CSV file (plain or gzipped)."],
  "shown-ride-unknown": ({ name, rides }, door) => [
    `${door === "window" ? name : `--show ${name}`} names none of the rides given.`,
    `Name one of these: ${rides.join(", ")}.`,
  ],
  "evidence-not-written": ({ path }, door) => [
    `The picture ${path} could not be written.`,
    door === "window" ? "Choose another folder." : "Choose another folder with --evidence.",
  ],
  "plan-sheet-there": ({ path }, door) => [
    `${path} is there already and was not overwritten.`,
    door === "window" ? "Choose another folder." : "Choose another folder with --out.",
  ],
  "clips-outside-ride": () => [
    "No clip lies inside the ride.",
    "Check that ride and clips belong together, or set an anchor.",
  ],
  "tool-not-found": ({ tool, system }, door) => [
    `${tool} was not found on this machine.`,
    door === "window"
      ? "Install ffmpeg, then start Followcar again."
      : `${INSTALL[system]}, or name it in FOLLOWCAR_${tool.toUpperCase()}.`,
  ],
};

export const journeyNotes: NoteWords<JourneyNotes> = {
  // Worded where notices are worded: it holds another one.
  "of-ride": ({ ridePath }) => ridePath,
  "athlete-file-elsewhere": ({ path }) => `Not deleted, because it lies elsewhere: ${path}.`,
  "film-letters-missing": ({ letters }) =>
    `The film's typeface has no ${letters.join(" ")}: another face of this computer draws it. Look at the film.`,
  "asked-open": ({ asked, timesS }) =>
    askedSentence(asked, timesS, "en", (kind) => debriefWords("en").momentName(kind)),
  "lesson-without-target": () =>
    "The plan has no target: watts can't be said as a share of it, and are said as they are.",
  "lesson-carries-speech": () => "The lesson carries speech: listen for names before you give it away.",
  "lesson-shows-surroundings": () =>
    "Faces, houses and number plates are in the picture: look before you give it away.",
};
