/** Text of the dialog in which files and folders are chosen. */
export const picker = {
  files: "Choose rides and clips",
  folder: "Choose a folder",
  debrief: "Open a debrief",
  media: "Where are they now?",
  places: "Begin at",
  up: "Up one folder",
  filter: "Only names with",
  all: "Show every file",
  here: (path: string) => `In ${path}`,
  entries: (path: string) => `Folders and files in ${path}`,
  empty: "Nothing here that a debrief can use.",
  emptyFilter: "No name here has these letters.",
  loading: "Looking into the folder …",
  take: (count: number) => (count === 0 ? "Take" : count === 1 ? "Take 1 file" : `Take ${count} files`),
  takeFolder: "Take this folder",
  lookHere: "Look in this folder",
  chosen: (count: number) => (count === 1 ? "1 chosen" : `${count} chosen`),
  help: "Arrow keys move, Space chooses, Shift and arrows choose a row of files, Ctrl A all; Enter opens a folder or takes what is chosen, Backspace goes up.",
  helpFolder: "Arrow keys move, Enter opens a folder, Backspace goes up.",
  helpMedia: "Arrow keys move, Enter opens a folder or looks beside the file, Backspace goes up.",
  kinds: { folder: "folder", ride: "ride", clip: "clip", debrief: "debrief", athlete: "athlete", other: "" },
  dropped: (names: string) =>
    `You dropped ${names}. This browser does not tell where dropped files lie, so open their folder once.`,
  droppedFound: (count: number, of: number) =>
    count === of ? "All of them are here and chosen." : `${count} of ${of} are here and chosen.`,
} as const;
