import type { HandOverFailures, HandOverNotes } from "../../../../../main/contract/notices/handover.ts";
import type { Samples } from "../samples.ts";

export const failures: Samples<HandOverFailures> = {
  "folder-not-made": [{ folder: "out" }],
  "file-not-written": [
    { path: "out/weeks.html", error: "EACCES" },
    { path: "out/weeks.html", error: "" },
  ],
  "file-no-room": [{ path: "out/weeks.html" }],
  "demo-not-written": [{ folder: "out" }],
  "demo-clip-not-drawn": [
    { fileName: "bar-1.mp4", said: "" },
    { fileName: "bar-1.mp4", said: "TypeError: x is not a function" },
  ],
  "installation-incomplete": [{ path: "dist/filmClipChild.mjs" }],
};

export const notes: Samples<HandOverNotes> = {
  "pdf-not-made": [
    { why: { kind: "no browser" } },
    { why: { kind: "not started", said: "spawn ENOENT" } },
    { why: { kind: "ended", signal: "SIGKILL", exitCode: null } },
    { why: { kind: "ended", signal: null, exitCode: 21 } },
    { why: { kind: "nothing written" } },
  ],
  "playing-page-too-large": [{ bytes: 312_000_000, limitBytes: 150_000_000 }],
  "lesson-without-caption": [{ text: "Ida, look up!" }],
  "lesson-without-drawing": [{}],
  "lesson-without-card": [{ title: "Ida at the pass" }],
};
