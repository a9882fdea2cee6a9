import type { RenderFailures, RenderNotes } from "../../../../../main/contract/notices/render.ts";
import type { Samples } from "../samples.ts";

const fileName = "bar-1.mp4";
const subjects = [
  { subject: { kind: "files", names: [fileName, "bar-2.mp4"] } },
  { subject: { kind: "card" } },
  { subject: { kind: "encoder test" } },
] as const;
const files = subjects[0].subject;

export const failures: Samples<RenderFailures> = {
  "encoder-none": [{ ffmpeg: "/usr/bin/ffmpeg" }],
  "ffmpeg-no-answer": [{ ffmpeg: "/usr/bin/ffmpeg" }],
  "ffmpeg-hung": subjects,
  "ffmpeg-disk-full": subjects,
  "ffmpeg-forbidden": subjects,
  "ffmpeg-failed": [
    { subject: files, said: "Error while decoding", exitCode: 1 },
    { subject: { kind: "card" }, said: null, exitCode: 1 },
    { subject: files, said: null, exitCode: null },
  ],
  "frames-missing": [
    { frames: 120, of: 300, subject: files },
    { frames: 120, of: 300, subject: { kind: "card" } },
  ],
  "frames-not-joined": [{ frames: 120, of: 300, fileName: "film.mp4" }],
  "small-picture-frames-missing": [{ frames: 120, of: 300, fileName, fromFrame: 600 }],
  "loudness-unmeasured": [{ fileName }],
  "film-does-not-fit": [{ durationS: 120.4, sizeMb: 1, leastMb: 4 }],
  "film-empty": [{}],
  "shot-without-clip": [{ clipId: "clip2" }],
  "clip-moved": [{ fileName, path: "films/bar-1.mp4" }],
  "clip-hdr-unconvertible": [{ fileName, filters: ["zscale"] }],
  "overlay-without-clips": [{}],
  "panels-unpainted": [{ said: "" }, { said: "TypeError: x is not a function" }],
  "render-broke-off": [{ said: "spawn E2BIG" }],
  "output-folder-unusable": [{ folder: "out" }],
  "output-file-forbidden": [{ path: "out/film.mp4" }],
  "output-forbidden": [{ path: "out/film.mp4" }, { path: null }],
  "disk-too-full": [
    { folder: "out", freeBytes: 1.23e9, neededBytes: 2.4e10 },
    { folder: "out", freeBytes: 1.4e6, neededBytes: 9.6e7 },
  ],
  "disk-full": [{ path: "out/film.mp4" }, { path: null }],
};

export const notes: Samples<RenderNotes> = {
  "encoder-not-working": [{ encoder: "hevc_nvenc" }],
  "encoder-replaced": [{}],
  "parts-kept": [
    { keptS: 250, ofS: 360 },
    { keptS: 360, ofS: 360 },
  ],
};
