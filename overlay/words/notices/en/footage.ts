import type { FootageFailures, FootageNotes } from "../../../../main/contract/notices/footage.ts";
import type { FailureWords, NoteWords } from "../tables.ts";

const UNREADABLE = {
  missing: "does not exist",
  folder: "is a folder",
  "no file": "is not an ordinary file",
  "not opened": "cannot be opened",
} as const;
const COPY_AGAIN = "Copy it from the camera again.";
const SETUP = "Run `npm run setup`, which finds or installs it.";

export const footageFailures: FailureWords<FootageFailures> = {
  "clip-file-unreadable": ({ path, why }) => [
    `The clip ${path} ${UNREADABLE[why]}.`,
    why === "folder"
      ? "Choose the clips in it."
      : why === "no file"
        ? "Copy the clip into a file."
        : "Check the name and that you may read it.",
  ],
  "clip-empty": ({ fileName }) => [`${fileName} is empty (0 bytes).`, COPY_AGAIN],
  "clip-no-mp4": ({ fileName }, door) => [
    `${fileName} is not an MP4 or MOV file.`,
    door === "window"
      ? "Give a camera clip; have another kind of video saved as MP4 first."
      : "Give a camera clip; another kind of video can be put into MP4 with `ffmpeg -i CLIP -c copy CLIP.mp4`.",
  ],
  "clip-is-picture": ({ fileName }) => [
    `${fileName} is a still picture, not a film.`,
    "Give the clip that the camera recorded, an MP4 or MOV file.",
  ],
  "clip-without-index": ({ fileName }) => [
    `${fileName} has no usable index (moov): the recording or the copying was cut off before its end.`,
    "Copy it again; if the camera lost power, put the card back and let the camera repair the file.",
  ],
  "clip-index-damaged": ({ fileName }) => [
    `The index of ${fileName} is damaged.`,
    "Copy the clip from the camera again.",
  ],
  "clip-in-fragments": ({ fileName }, door) => [
    `${fileName} is an MP4 in fragments, whose frame times are not in its index.`,
    door === "window"
      ? "Have it written anew as MP4 without loss, and use that."
      : "Write it anew without loss: `ffmpeg -i CLIP -c copy NEW.mp4`, and use that.",
  ],
  "clip-without-picture": ({ fileName }) => [`${fileName} has no video track.`, "Give a clip that shows a picture."],
  "clip-without-frames": ({ fileName }) => [`${fileName} holds no video frame.`, COPY_AGAIN],
  "clip-unknown-coding": ({ fileName }) => [
    `The picture of ${fileName} is coded in a way that ffmpeg does not know.`,
    "Export it from the camera's own program as H.264 or HEVC.",
  ],
  "clip-no-video": ({ fileName, said }) => [
    `${fileName} cannot be read as a video${said === "" ? "" : ` (ffprobe: ${said})`}.`,
    "Try to play it; if it does not play, copy it from the camera again.",
  ],
  "clip-probe-silent": ({ fileName }) => [
    `ffprobe gave no answer about ${fileName} for 30 s.`,
    "Copy the clip to a local disk and try again.",
  ],
  "clip-reading-silent": ({ fileName, what }) => [
    `ffmpeg gave nothing for 30 s while reading the ${what} of ${fileName}.`,
    "Copy the clip to a local disk, or set an anchor.",
  ],
  "comment-unplayable": ({ path }) => [
    `The spoken comment ${path} can't be played.`,
    "Record it again, or use a WAV or M4A file.",
  ],
  "tool-not-started": ({ tool, program }, door) => [
    `${tool} could not be started (${program}).`,
    door === "window" ? "Install it anew, then start Followcar again." : SETUP,
  ],
};

export const footageNotes: NoteWords<FootageNotes> = {
  "clip-cut-off": ({ fileName, seconds }) =>
    `${fileName} was cut off: only the first ${seconds.toFixed(1)} s of its picture are in the file.`,
  "clip-times-differ": ({ fileName }) =>
    `The times in the header of ${fileName} differ, so the clip was edited or passed on by a program; its clock may be wrong.`,
};
