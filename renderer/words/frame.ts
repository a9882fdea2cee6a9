/** Text of the frame around all screens. */
export const frame = {
  files: "Files",
  steps: { lineup: "Line up", skim: "Skim", build: "Build", handover: "Hand over" },
  anywhere: "Everywhere",
  stepsLabel: "Steps of the debrief",
  skipTo: { lineup: "To the clips", skim: "To the moments", build: "To the parts of the film" },
  closed: "after a ride is on the desk",
  undo: "Undo",
  redo: "Redo",
  nothingToUndo: "Nothing to undo",
  nothingToRedo: "Nothing to redo",
  undoOf: (label: string) => `Undo: ${label}`,
  redoOf: (label: string) => `Redo: ${label}`,
  saved: "Saved",
  saving: "Saving",
  notSaved: "Not saved",
  readOnly: "To look at only",
  athletes: "Athletes",
  keys: "Keys",
  about: "About",
  working: "At work",
  connecting: "Opening the desk …",
  lost: "The window lost the program",
  lostMore:
    "What was saved is safe: at most the last two seconds of edits are missing. Trying again. If this stays, close the window and start Followcar once more.",
  failed: "That did not work",
  fine: "Close this message",
  dropNow: "Drop them to put them on the desk",
  taken: (files: number, unusable: number) => {
    const all = files === 1 ? "1 file was taken." : `${files} files were taken.`;
    return unusable === 0 ? all : `${all} ${unusable === 1 ? "1 of them is" : `${unusable} of them are`} no use.`;
  },
  seeFiles: "See the files",
  missing: (names: string) => `Not found where they were: ${names}.`,
  missingMore: "Choose the folder where they are now. They are known by what is in them, so other names do no harm.",
  look: "Look in a folder",
} as const;
