import type { FootageFailures, FootageNotes } from "../../../../../main/contract/notices/footage.ts";
import type { Samples } from "../samples.ts";

const fileName = "bar-1.mp4";
const file = [{ fileName }] as const;

export const failures: Samples<FootageFailures> = {
  "clip-file-unreadable": [
    { path: "films/bar-1.mp4", why: "missing" },
    { path: "films/bar-1.mp4", why: "folder" },
    { path: "films/bar-1.mp4", why: "no file" },
    { path: "films/bar-1.mp4", why: "not opened" },
  ],
  "clip-empty": file,
  "clip-no-mp4": file,
  "clip-is-picture": file,
  "clip-without-index": file,
  "clip-index-damaged": file,
  "clip-in-fragments": file,
  "clip-without-picture": file,
  "clip-without-frames": file,
  "clip-unknown-coding": file,
  "clip-no-video": [
    { fileName, said: "" },
    { fileName, said: "Invalid data found when processing input" },
  ],
  "clip-probe-silent": file,
  "clip-reading-silent": [
    { fileName, what: "picture" },
    { fileName, what: "sound" },
  ],
  "comment-unplayable": [{ path: "comments/one.wav" }],
  "tool-not-started": [
    { tool: "ffmpeg", program: "/usr/bin/ffmpeg" },
    { tool: "ffprobe", program: "/usr/bin/ffprobe" },
  ],
};

export const notes: Samples<FootageNotes> = {
  "clip-cut-off": [{ fileName, seconds: 12.34 }],
  "clip-times-differ": file,
};
