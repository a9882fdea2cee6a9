import type { AppFailures, AppNotes, NoWindow } from "../../../../main/contract/notices/app.ts";
import { lastName } from "../parts.ts";
import type { FailureWords, NoteWords } from "../tables.ts";

function noWindow(why: NoWindow): string {
  switch (why.kind) {
    case "nothing connected":
      return "it never connected to Followcar";
    case "not started":
      return `it could not be started (${why.said})`;
    case "ended with code":
      return endedWith(why.exitCode);
    case "no screen":
      return `${endedWith(why.exitCode)}; this session has no screen (neither DISPLAY nor WAYLAND_DISPLAY is set)`;
  }
}
const endedWith = (exitCode: number | null): string =>
  exitCode === null ? "it was ended from outside" : `it ended with code ${exitCode}`;
const toDo = (why: NoWindow, otherwise: string): string =>
  why.kind === "no screen"
    ? "Start it in a session with a screen, or under xvfb-run; without a window the command line does the same work (followcar help)."
    : otherwise;

const LISTED = "Choose one of those that are listed.";

export const appFailures: FailureWords<AppFailures> = {
  "desk-without-ride": () => ["This debrief has no ride yet.", "Add a ride file first."],
  "desk-without-debrief": () => ["No debrief is open.", "Add a ride file, or open a debrief."],
  "desk-no-such-ride": () => ["That ride is no longer in this debrief.", LISTED],
  "desk-no-such-clip": () => ["That clip is no longer in this debrief.", LISTED],
  "desk-no-such-moment": () => ["There is no such moment in the reading as it is now.", LISTED],
  "desk-no-such-part": () => ["That part is no longer in the film.", "Choose one of its shots or cards."],
  "desk-no-such-question": () => [
    "There is no such question about this debrief any more.",
    "Look at the list as it is now.",
  ],
  "desk-moved-on": () => [
    "The debrief had changed before this edit came.",
    "Look at it as it is now and make the edit again.",
  ],
  "desk-file-not-listed": () => ["That file is no longer on the list.", "Open the folder again and choose it anew."],
  "comment-no-sound": () => ["What was recorded is no sound that can be kept.", "Record it again."],
  "debrief-odd-media-names": ({ folder }) => [
    `The debrief in ${folder} names its media in a way this program does not.`,
    "Make it again from its ride and clips.",
  ],
  "debrief-not-trusted": ({ folder, paths }, door) => [
    `The debrief in ${folder} was not made here and points outside its folder: ${paths.join(", ")}.`,
    door === "window"
      ? "Open it all the same if you trust who made it."
      : "Start `followcar open` alone and open it there: the window asks whether you trust who made it.",
  ],
  "media-still-missing": ({ place }) => [
    `None of the missing files is in ${place} or right below it.`,
    "Choose the folder that holds them, or the one right above it.",
  ],
  "athlete-gone": ({ folder }) => [`${folder} holds no athlete.json any more.`, "Choose the athlete's folder anew."],
  "athlete-list-not-shown": () => [
    "The files that would go were not shown yet; nothing was deleted.",
    "Look at the list first.",
  ],
  "athlete-files-kept": ({ count, name, first }) => [
    count === 1
      ? `1 file of ${name} could not be deleted: ${first}.`
      : `${count} files of ${name} could not be deleted, the first ${first}.`,
    "Close what has them open, then delete again.",
  ],
  "athlete-none-there": ({ folder }, door) => [
    `${folder} holds no athlete.json.`,
    door === "window"
      ? "Choose an athlete's folder, or make an athlete."
      : "Name the athlete's folder; `followcar athlete --help` shows the file's form.",
  ],
  "hand-over-batch-unseen": (_, door) => [
    "This debrief was prepared in a batch and nobody has looked at it yet.",
    door === "window"
      ? "Look at it, then agree that it may be handed over."
      : "Open it in the window, or watch its film.mp4 and say so with --seen.",
  ],
  "hand-over-consent-unsaid": () => [
    "It is not said yet that the athlete agreed to a lesson for others.",
    "Ask and tick it, or make the debrief for the athlete.",
  ],
  "hand-over-unsure": () => [
    "The place of a clip is not sure, and nobody has agreed to show it all the same.",
    "Tick that it is shown all the same, or set an anchor in the clip.",
  ],
  "ride-reading-broke-off": ({ said }) => [
    `Reading the ride was broken off: ${said}.`.replace("..", "."),
    "Open the files again; if it happens again, report it with this message.",
  ],
  "folder-out-of-bounds": ({ name }) => [
    `The folder ${name} can't be opened here.`,
    "Choose a folder below your home folder or on a mounted disk.",
  ],
  "folder-unreadable": ({ folder }) => [
    `The folder ${folder} can't be read.`,
    "Check that you may read it, or copy the files to a folder of your own.",
  ],
  "drops-unseen": () => [
    "This window can't see where dropped files lie.",
    "Choose them in the list that opens; it shows files of the same name first.",
  ],
  "drop-lost": () => ["A dropped file could not be found.", "Drop it again, or choose it from its folder."],
  "call-unknown-form": ({ call }) => [
    `The window asked for "${call}" in a form the program does not know.`,
    "Close the window and start Followcar again.",
  ],
  "shell-unknown": ({ forced }) => [
    `FOLLOWCAR_SHELL=${forced} is not known.`,
    "It is electron or chromium; unset it to let Followcar choose.",
  ],
  "shell-electron-missing": () => [
    "Electron's binary is not on this machine.",
    "Run `npx install-electron` (it needs the network), or unset FOLLOWCAR_SHELL.",
  ],
  "shell-none": () => [
    "There is neither Electron nor a Chromium, Chrome or Edge to open the window in.",
    "Install one (on Debian: sudo apt-get install chromium), or name it in FOLLOWCAR_CHROMIUM. The command line works without.",
  ],
  "window-not-shown": ({ program, why }) => [
    `${program} showed no window: ${noWindow(why)}.`,
    toDo(why, "Name another Chromium, Chrome or Edge in FOLLOWCAR_CHROMIUM."),
  ],
  "window-page-not-own": ({ folder }) => [
    `The page that leads to the window would lie in ${folder}, where other users of this computer may read it.`,
    "Name a folder of your own in FOLLOWCAR_CACHE, or close that one to others.",
  ],
  "electron-not-shown": ({ why }) => [
    `Electron showed no window: ${noWindow(why)}.`,
    toDo(why, "Start with FOLLOWCAR_SHELL=chromium to use a browser instead."),
  ],
  "folder-gone": ({ path }) => [
    `The folder ${path} is not there any more.`,
    "It may have been moved; look for it with your file manager.",
  ],
  "file-manager-none": ({ path }) => [`No file manager could be started for ${path}.`, "Open that folder by hand."],
  internal: ({ said }, door) => [
    `Something went wrong inside Followcar: ${said}.`.replace("..", "."),
    door === "window"
      ? "Try again; if it happens again, report it with this message."
      : "Run again with FOLLOWCAR_DEBUG=1 and report what it prints.",
  ],
};

export const appNotes: NoteWords<AppNotes> = {
  "window-claimed-twice": () =>
    "Something used the window's one-time address a second time and was refused. " +
    "If no window of yours has opened, another program came first: close Followcar and start it again.",
  "backup-opened": () => "The last save was damaged: the copy before it was opened.",
  "debrief-there-already": ({ wished, folder }) =>
    `${lastName(wished)} is there already: this one is ${lastName(folder)}.`,
};
