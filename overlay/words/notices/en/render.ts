import type { FfmpegSubject, RenderFailures, RenderNotes } from "../../../../main/contract/notices/render.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import { durationText } from "../../numbers.ts";

const SPACE = "Free some space and run it again: finished parts are kept.";
const REPORT = "Run it again; if it happens again, report it with this message.";

const subjectWords = (subject: FfmpegSubject): string =>
  subject.kind === "files" ? subject.names.join(", ") : subject.kind === "card" ? "a card" : "a test of the encoder";

const setup = (door: string) =>
  door === "window"
    ? "Install ffmpeg anew, then start Followcar again."
    : "Run `npm run setup`, which finds or installs it.";

const diskRoom = (bytes: number) => (bytes < 1e9 ? `${Math.round(bytes / 1e6)} MB` : `${(bytes / 1e9).toFixed(1)} GB`);

export const renderFailures: FailureWords<RenderFailures> = {
  "encoder-none": ({ ffmpeg }, door) => [`This ffmpeg (${ffmpeg}) has no encoder for H.264 that works.`, setup(door)],
  "ffmpeg-no-answer": ({ ffmpeg }, door) => [`ffmpeg (${ffmpeg}) did not answer.`, setup(door)],
  "ffmpeg-hung": ({ subject }) => [
    `ffmpeg stood still while working on ${subjectWords(subject)} and was ended.`,
    `Run it again: finished parts are kept.${subject.kind === "files" ? " If it stops at the same place, check that file." : ""}`,
  ],
  "ffmpeg-disk-full": ({ subject }) => [
    `The disk is full: the work on ${subjectWords(subject)} could not go on.`,
    SPACE,
  ],
  "ffmpeg-forbidden": ({ subject }) => [
    `Permission to read or write was denied while working on ${subjectWords(subject)}.`,
    "Choose another folder, or change the rights of this one.",
  ],
  "ffmpeg-failed": ({ subject, said, exitCode }) => [
    `ffmpeg could not finish ${subjectWords(subject)}: ${said ?? (exitCode === null ? "it was ended from outside" : `exit code ${exitCode}`)}.`.replace(
      "..",
      ".",
    ),
    subject.kind === "files" ? "Check that the clip plays; then run it again." : REPORT,
  ],
  "frames-missing": ({ frames, of, subject }) => [
    `ffmpeg wrote ${frames} of ${of} frames of ${subjectWords(subject)}.`,
    subject.kind === "files" ? "Check that the clip plays to its end; then run it again." : REPORT,
  ],
  "frames-not-joined": ({ frames, of, fileName }) => [
    `ffmpeg joined ${frames} of ${of} frames into ${fileName}.`,
    REPORT,
  ],
  "small-picture-frames-missing": ({ frames, of, fileName, fromFrame }) => [
    `ffmpeg wrote ${frames} of ${of} frames of ${fileName} (from frame ${fromFrame} on).`,
    "Check that the clip plays to its end; the clip itself is shown instead.",
  ],
  "loudness-unmeasured": ({ fileName }) => [
    `The loudness of ${fileName} could not be measured.`,
    "Check that the file plays and has sound.",
  ],
  "film-does-not-fit": ({ durationS, sizeMb, leastMb }, door) => [
    `A film of ${Math.round(durationS)} s does not fit into ${sizeMb} MB and stay watchable.`,
    door === "window"
      ? `Give it ${leastMb} MB or more, or make it shorter.`
      : `Give it --size ${leastMb} or more, or make it shorter.`,
  ],
  "film-empty": () => ["The film has no shot and no card.", "Add a moment or a card to the film."],
  "shot-without-clip": ({ clipId }) => [
    `The film has a shot of ${clipId}, which is not among the clips.`,
    "Add that clip, or drop the shot.",
  ],
  "clip-moved": ({ fileName, path }) => [
    `The clip ${fileName} is not where it was (${path}).`,
    "Put it back, or show where it is now.",
  ],
  "clip-hdr-unconvertible": ({ fileName, filters }) => [
    `The clip ${fileName} is HDR, and this ffmpeg cannot convert it (no ${filters.join(", ")}).`,
    "Install an ffmpeg with zimg (Debian: apt-get install ffmpeg), or convert the clip to SDR first.",
  ],
  "overlay-without-clips": () => ["No clip was given to lay panels over.", "Name at least one clip."],
  "panels-unpainted": ({ said }) => [
    `The pictures of the panels could not be painted${said === "" ? "" : `: ${said}`}.`,
    REPORT,
  ],
  "render-broke-off": ({ said }) => [`Rendering broke off: ${said}.`.replace("..", "."), REPORT],
  "output-folder-unusable": ({ folder }, door) => [
    `The folder ${folder} cannot be made or read.`,
    door === "window"
      ? "Allow writing there, or move away what lies there in its place."
      : "Choose another folder, or change its rights.",
  ],
  "output-file-forbidden": ({ path }, door) => [
    `${path} cannot be written.`,
    `Choose another folder${door === "window" ? "" : " (with --out, where the command takes it)"}, or change the rights of this one.`,
  ],
  "output-forbidden": ({ path }, door) => [
    `${path ?? "The output"} cannot be written.`,
    door === "window"
      ? "Allow writing there, or move away what lies there in its place."
      : "Choose another folder, or change its rights.",
  ],
  "disk-too-full": ({ folder, freeBytes, neededBytes }) => [
    `The disk of ${folder} has ${diskRoom(freeBytes)} free; about ${diskRoom(neededBytes)} are needed.`,
    "Free some space, or choose a folder on another disk.",
  ],
  "disk-full": ({ path }) => [`The disk is full: ${path ?? "the output"} could not be written.`, SPACE],
};

export const renderNotes: NoteWords<RenderNotes> = {
  "encoder-not-working": ({ encoder }) => `The encoder ${encoder} does not work here.`,
  "encoder-replaced": () => "libx264 is used instead.",
  "parts-kept": ({ keptS, ofS }, door) =>
    `${keptS >= ofS ? `All ${durationText(ofS)}` : `${durationText(keptS)} of ${durationText(ofS)}`} of film were kept ` +
    `from an earlier render${door === "command" ? "; --anew makes all of it anew" : ""}.`,
};
