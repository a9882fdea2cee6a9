import type { JourneyFailures, JourneyNotes } from "../../../../main/contract/notices/journey.ts";
import { askedSentence } from "../../askedWords.ts";
import { debriefWords } from "../../debriefWords.ts";
import { topicsText } from "../../restEn.ts";
import { counted, lastName, listed } from "../parts.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import type { NoSharedRoad } from "../../../../main/contract/roads.ts";
import { clockText, durationText, filmTimeText } from "../../numbers.ts";

const INSTALL = {
  macOS: "Run `brew install ffmpeg`",
  Windows: "Run `winget install ffmpeg`",
  Linux: "Run `sudo apt-get install ffmpeg`",
} as const;

function whyNoRoad(why: NoSharedRoad, rideName: string, otherName: string): string {
  switch (why) {
    case "no places in A":
      return `${rideName} has no positions, so where it went is not known.`;
    case "no places in B":
      return `${otherName} has no positions, so where it went is not known.`;
    case "too short":
      return `${rideName} or ${otherName} is shorter than the 200 m that a comparison needs.`;
    case "far apart":
      return `${rideName} and ${otherName} were ridden far from each other.`;
    case "opposite direction":
      return `${rideName} and ${otherName} rode the same road in opposite directions.`;
    case "other roads":
      return `${rideName} and ${otherName} share no road of 200 m in the same direction.`;
  }
}

const spanText = ({ startS, endS }: { readonly startS: number; readonly endS: number }): string =>
  `${clockText(startS)} to ${clockText(endS)}`;

/** What stays in the film, and what is said, though the rider's note comes before training. */
function teachesThough({ parts, timesS, ownLines }: JourneyNotes["film-teaches-though-note"]): string {
  const at = timesS.length === 0 ? "" : ` (at ${timesS.map(clockText).join(", ")} of the ride)`;
  const film =
    parts === 0
      ? []
      : [
          `${parts === 1 ? "One part" : `${parts} parts`} of the film as you set it still ${parts === 1 ? "shows" : "show"} what to change${at}; ` +
            "nothing is taken out without you, and the program's own words there blame nothing.",
        ];
  const lines = { change: "on what to change", next: "on the next ride" };
  const own =
    ownLines.length === 0
      ? []
      : [`Your own words ${ownLines.map((one) => lines[one]).join(" and ")} stay as well: do they still fit?`];
  return [...film, ...own].join(" ");
}

export const journeyFailures: FailureWords<JourneyFailures> = {
  "compare-ride-count": ({ count }) => [
    `A comparison needs two rides; ${count === 0 ? "none was" : count === 1 ? "one was" : `${count} were`} given.`,
    "Name two ride files; the first is the one that is spoken of.",
  ],
  "roads-not-shared": ({ rideName, otherName, why }) => [
    whyNoRoad(why, rideName, otherName),
    "Choose two rides that went along one road in the same direction.",
  ],
  "stretch-not-shared": ({ rideName, otherName, fromS, toS, shared }) => [
    `${otherName} did not ride all of ${spanText({ startS: fromS, endS: toS })} of ${rideName} in one go.`,
    `Both rode ${shared.map(spanText).join(", ")} (ride time of ${rideName}): choose a stretch within one of these.`,
  ],
  "stretch-backwards": ({ fromS, toS }, door) => [
    `The stretch would end at ${clockText(toS)}, before it begins at ${clockText(fromS)}.`,
    door === "window" ? "Choose a later end." : "Give a later place with --to.",
  ],
  "stretch-too-long": ({ lengthS, mostS }, door) => [
    `The stretch takes ${durationText(lengthS)}; a film of it would be too long.`,
    door === "window"
      ? `Choose one of ${durationText(mostS)} at most.`
      : `Choose one of ${durationText(mostS)} at most with --from and --to, or leave --out away for the table alone.`,
  ],
  "pass-unknown": ({ rideName, otherName, pass, passes }, door) => [
    `${door === "window" ? "" : "--pass "}${pass}: ${otherName} rode this stretch of ${rideName} ${passes === 1 ? "once" : `${passes} times`}.`,
    `Give a number from 1 to ${passes}.`,
  ],
  "plan-file-unreadable": ({ path }) => [`The plan ${path} cannot be read.`, "Check the path and its permissions."],
  "plan-file-no-json": ({ path, said }, door) => [
    `The plan ${path} is no JSON: ${said}.`,
    door === "window" ? "Correct the file." : "Correct the file, or see `followcar plan --help`.",
  ],
  "still-outside-film": ({ atS, lengthS }, door) => [
    `${door === "window" ? "" : "--at "}${filmTimeText(atS)} is outside the film, which lasts ${filmTimeText(lengthS)}.`,
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
  "no-break-there": ({ atS, nearest }, door) =>
    nearest === null
      ? [`There is no break in pressure at ${clockText(atS)}, nor anywhere in this ride.`, "There is none to judge."]
      : [
          `There is no break in pressure at ${clockText(atS)}; the nearest begins at ${clockText(nearest.startS)} and lasts ` +
            `${durationText(nearest.endS - nearest.startS)}.`,
          door === "window"
            ? "Choose one from the list."
            : `If you mean that one, give --break ${clockText(nearest.startS)}=REASON. With the debrief's target, ` +
              "`followcar read RIDE --breaks` lists those of 10 s or more.",
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

const spanOfClip = ({ fileName, fromS, toS }: JourneyNotes["film-without-footage"]["clips"][number]): string =>
  `${fileName} (${clockText(fromS)} to ${clockText(toS)})`;

export const journeyNotes: NoteWords<JourneyNotes> = {
  "film-without-footage": ({ clips }, door) =>
    `Nothing of ${listed(clips.map(spanOfClip), "or")} is in the film: it is cards alone, since no moment that it tells ` +
    `was filmed. Put a moment of your own in: ${door === "window" ? "`A` in Skim" : "`followcar open`, `A` in Skim"}.`,
  "earlier-run-kept": ({ folder, anchors, overrides, ownLines, ownFilm }, door) =>
    `${lastName(folder)} holds a debrief of an earlier run, and what was decided there counts: ${listed(
      [
        ...(anchors === 0 ? [] : [counted(anchors, "anchor", "anchors")]),
        ...(overrides === 0 ? [] : [counted(overrides, "judgement", "judgements")]),
        ...(ownLines === 0 ? [] : [counted(ownLines, "line of your own", "lines of your own")]),
        ...(ownFilm ? ["the film as you cut it"] : []),
      ],
      "and",
    )}. In another folder${door === "window" ? "" : " (--out)"} it begins afresh.`,
  "road-ridden-often": ({ rideName, otherName, passes, pass }, door) =>
    `${otherName} rode this stretch of ${rideName} ${passes} times; compared is time ${pass}.${door === "window" ? "" : " --pass chooses another."}`,
  "compared-with-itself": ({ rideName, otherName }) =>
    `${rideName} and ${otherName} are one and the same ride: every difference is 0.`,
  "pair-side-unfilmed": ({ rideName, fromS, toS }) =>
    `No clip shows ${rideName} from ${clockText(fromS)} to ${clockText(toS)}: there its half is a card.`,
  "clip-beside-stretch": ({ fileName }) => `${fileName} shows nothing of this stretch and is left out.`,
  "roads-not-compared": ({ debriefs }) =>
    `Roads ridden more than once: ${listed(debriefs, "and")} ${debriefs.length === 1 ? "is" : "are"} not compared; the ride file is no longer where it was.`,
  "debriefs-of-one-ride": ({ debriefs, counted }) =>
    `${listed(debriefs, "and")} are of one and the same ride: it is counted once, as ${counted} has it, which was saved last.`,
  // Worded where notices are worded: it holds another one.
  "of-ride": ({ ridePath }) => ridePath,
  "athlete-file-elsewhere": ({ path }) => `Not deleted, because it lies elsewhere: ${path}.`,
  "film-letters-missing": ({ letters }) =>
    `The film's typeface has no ${letters.join(" ")}: another face of this computer draws it. Look at the film.`,
  "asked-open": ({ asked, timesS }) =>
    askedSentence(asked, timesS, "en", (kind) => debriefWords("en").momentName(kind)),
  "film-teaches-though-note": (facts, door) =>
    `The rider's note speaks of ${topicsText(facts.topics)}. ${teachesThough(facts)}` +
    (facts.parts === 0
      ? ""
      : door === "window"
        ? " A button in Build and in Hand over leaves the parts out."
        : " followcar render DEBRIEF --no-teaching leaves the parts out."),
  "lesson-without-target": () =>
    "The plan has no target: watts can't be said as a share of it, and are said as they are.",
  "lesson-carries-speech": () => "The lesson carries speech: listen for names before you give it away.",
  "lesson-shows-surroundings": () =>
    "Faces, houses and number plates are in the picture: look before you give it away.",
};
