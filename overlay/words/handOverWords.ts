import type { ForWhom } from "../../main/contract/presets.ts";
/** What each file of a hand-over is for, for the coach, in English; the order is that of use. */
const FILE_WORDS: Readonly<Record<string, string>> = {
  "film.mp4": "the film",
  "debrief.html": "the page that goes with it, for a phone or a computer",
  "debrief.pdf": "the same page to print",
  "playing.html": "film and chart in one page that plays: touch a line and the film goes there",
  "message.txt": "five lines to send with the film",
  "coach.html": "every figure, for you",
  "captions.vtt": "the captions as text",
  "chapters.vtt": "the chapters, for a player",
  "chapters.txt": "the chapters, to paste under a video",
  "chapters.ffmetadata": "the chapters, for a video tool",
  "moments.csv": "the moments as a table",
  "moments.json": "the moments for other programs",
  "timeline.otio": "the film as a timeline, for a video editor",
  stills: "a picture of each filmed moment",
};
const COACH_ONLY = new Set(["coach.html", "moments.csv", "moments.json", "timeline.otio"]);

/** The files that a hand-over writes, with what each is for. */
export function handOverFiles(choices: {
  readonly forWhom: ForWhom;
  readonly pdf: boolean;
  readonly stills: boolean;
  readonly playing: boolean;
}): { readonly name: string; readonly what: string }[] {
  return Object.entries(FILE_WORDS)
    .filter(
      ([name]) =>
        (choices.forWhom === "athlete" || !COACH_ONLY.has(name)) &&
        (name !== "debrief.pdf" || choices.pdf) &&
        (name !== "stills" || choices.stills) &&
        (name !== "playing.html" || choices.playing),
    )
    .map(([name, what]) => ({ name, what }));
}
