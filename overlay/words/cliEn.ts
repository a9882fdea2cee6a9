import type { CliWords } from "./cliWords.ts";

export const cliEn: CliWords = {
  note: "note",
  stopped: "Stopped. Nothing half-written was left behind.",
  aboutLeft: (length) => `about ${length} left`,
  written: "Written:",
  planNext: (plan, sheetPath, hasTarget) => [
    ...(hasTarget
      ? [`Before the ride: give ${sheetPath} to the athlete.`]
      : [
          `Next: fill in ${plan}, the target first, like "target": 160. followcar plan --help explains every key.`,
          `Then make the athlete's page of it: followcar plan --plan ${plan} --out FOLDER`,
        ]),
    `After the ride: followcar debrief RIDE --plan ${plan}`,
  ],
  whyInFilm: "Why each part is in the film:",
  leftOut: (what) => `left out: ${what}`,
  watch: (path) => `Watch: ${path}`,
  batch: { prepared: "prepared", "there already": "there already", failed: "failed" },
  inFolder: (ride, folder) => `${ride}, in ${folder}`,
  excused: ", excused",
  lapse: ", a lapse",
  said: { held: "held", change: "change", next: "next", notes: "note", questions: "questions" },
  by: { made: "made", yours: "yours" },
  message: "The message:",
  notYetIn: (files, command) => `Not yet in ${files}: ${command}`,
  squad: (path) => `All rides on one page: ${path}`,
  clipAt: (clip, at, verdict, aboutS) =>
    `${clip}: ${at === null ? "nowhere in the ride" : `at ${at} of the ride`} (${verdict}${aboutS === null ? "" : `, to about ${aboutS.toFixed(1)} s`})`,
  verdicts: { sure: "sure", "not sure": "not sure", conflict: "conflict", "no match": "no match" },
  rideOff: (file, offS, aboutS) => {
    const off = `${offS < 0 ? "-" : "+"}${Math.abs(offS).toFixed(1)} s`;
    return aboutS === null
      ? `${file}: ${off} by its clock alone; nothing shows that the two rode together`
      : `${file}: ${off} against the shown ride, to about ${aboutS.toFixed(1)} s`;
  },
  noFrame: "No frame could be decoded there.",
  sharpFrames:
    "Sharpest frames there. Read the clock in one of them and give its anchor; two or more far apart give the clock's rate.",
  signalsKept: "Signals kept from an earlier run.",
  signalsTook: (seconds, readMb, ofMb) =>
    `Looked and listened for ${seconds.toFixed(1)} s: ${readMb.toFixed(1)} MB read of clips of ${ofMb.toFixed(1)} MB.`,
  athleteFiles: (name, count) => `${name}: ${count} ${count === 1 ? "file" : "files"}`,
  others: "In the folder, but not of this program or of another athlete, and left as it is:",
  elsewhere: "Rides and clips elsewhere, which stay where they are:",
  typeName: (name) => `To delete all of this for good, type the athlete's name (${name}): `,
  deleted: (count, name) => `Deleted ${count} ${count === 1 ? "file" : "files"} of ${name}.`,
  notDeleted: (path) => `could not be deleted: ${path}`,
  opensIn: (program) => `The window opens in ${program}. Closing it ends Followcar.`,
};
