import type { HandOverFailures, HandOverNotes, NoPdf } from "../../../../main/contract/notices/handover.ts";
import type { FailureWords, NoteWords } from "../tables.ts";

function noPdf(why: NoPdf): string {
  switch (why.kind) {
    case "no browser":
      return "no Chromium was found to print with; the page can be printed from any browser";
    case "not started":
      return `Chromium could not be started (${why.said})`;
    case "ended":
      return `Chromium ended with ${why.signal ?? `code ${why.exitCode ?? "unknown"}`}`;
    case "nothing written":
      return "Chromium wrote no PDF";
  }
}

const orOut = (door: string) => (door === "window" ? "" : " (with --out, where the command takes it)");

export const handOverFailures: FailureWords<HandOverFailures> = {
  "folder-not-made": ({ folder }, door) => [
    `The folder ${folder} cannot be made.`,
    `Choose another${orOut(door)}, or check its permissions.`,
  ],
  "file-not-written": ({ path, error }, door) => [
    `${path} could not be written (${error || "unknown reason"}).`,
    `Check that the folder exists and that you may write to it, or choose another${orOut(door)}.`,
  ],
  "file-no-room": ({ path }, door) => [
    `There is no room left to write ${path}.`,
    `Free some space, or choose another folder${orOut(door)}.`,
  ],
  "demo-not-written": ({ folder }, door) => [
    `The demo could not be written to ${folder}.`,
    door === "window" ? "Choose another folder." : "Choose another folder with --out.",
  ],
  "demo-clip-not-drawn": ({ fileName, said }) => [
    `${fileName} could not be drawn: ${said === "" ? "what draws it ended early" : said}.`,
    "Run it again; if it happens again, report it with this message.",
  ],
  "installation-incomplete": ({ path }, door) => [
    `${path} is missing from this installation.`,
    door === "window" ? "Install Followcar anew." : "Run `npm run setup`, which makes it anew.",
  ],
};

export const handOverNotes: NoteWords<HandOverNotes> = {
  "pdf-not-made": ({ why }) => `debrief.pdf was not made: ${noPdf(why)}.`,
  "playing-page-too-large": ({ bytes, limitBytes }, door) =>
    `playing.html was not made: the film has ${Math.round(bytes / 1e6)} MB, a page holds ${Math.round(limitBytes / 1e6)} at most. ` +
    (door === "window" ? "The film for a phone fits." : "--preset phone or --size makes a smaller film."),
  "lesson-without-caption": ({ text }) => `The caption "${text}" is left out of the lesson.`,
  "lesson-without-drawing": () => "A drawing with words that say too much is left out of the lesson.",
  "lesson-without-card": ({ title }) => `The card "${title}" is left out of the lesson.`,
};
