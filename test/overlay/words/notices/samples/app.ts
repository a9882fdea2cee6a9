import type { AppFailures, AppNotes } from "../../../../../main/contract/notices/app.ts";
import type { Samples } from "../samples.ts";

const none = [{}] as const;
const folder = [{ folder: "sunday-debrief" }] as const;

export const failures: Samples<AppFailures> = {
  "desk-without-ride": none,
  "desk-without-debrief": none,
  "desk-no-such-ride": none,
  "desk-no-such-clip": none,
  "desk-no-such-moment": none,
  "desk-no-such-part": none,
  "desk-no-such-question": none,
  "desk-moved-on": none,
  "desk-file-not-listed": none,
  "comment-no-sound": none,
  "debrief-odd-media-names": folder,
  "debrief-not-trusted": [{ folder: "sunday-debrief", paths: ["../a.fit", "/b.mp4"] }],
  "media-still-missing": [{ place: "films" }],
  "athlete-gone": folder,
  "athlete-list-not-shown": none,
  "athlete-files-kept": [
    { count: 1, name: "Ida Brandt", first: "a.mp4" },
    { count: 3, name: "Ida Brandt", first: "a.mp4" },
  ],
  "athlete-none-there": folder,
  "hand-over-batch-unseen": none,
  "hand-over-consent-unsaid": none,
  "hand-over-unsure": none,
  "ride-reading-broke-off": [{ said: "out of memory" }],
  "folder-out-of-bounds": [{ name: "etc" }],
  "folder-unreadable": folder,
  "drops-unseen": none,
  "drop-lost": none,
  "call-unknown-form": [{ call: "edit" }],
  "shell-unknown": [{ forced: "other" }],
  "shell-electron-missing": none,
  "shell-none": none,
  "window-not-shown": [
    { program: "/usr/bin/chromium", why: { kind: "nothing connected" } },
    { program: "/usr/bin/chromium", why: { kind: "not started", said: "spawn ENOENT" } },
    { program: "/usr/bin/chromium", why: { kind: "ended with code", exitCode: 21 } },
    { program: "/usr/bin/chromium", why: { kind: "no screen", exitCode: 1 } },
  ],
  "window-page-not-own": folder,
  "electron-not-shown": [
    { why: { kind: "ended with code", exitCode: null } },
    { why: { kind: "no screen", exitCode: 1 } },
  ],
  "folder-gone": [{ path: "sunday-debrief" }],
  "file-manager-none": [{ path: "sunday-debrief" }],
  internal: [{ said: "x is not a function" }],
};

export const notes: Samples<AppNotes> = {
  "window-claimed-twice": none,
  "backup-opened": none,
  "debrief-there-already": [{ wished: "sunday-debrief", folder: "sunday-debrief-2" }],
};
