import type { CliWords } from "./cliWords.ts";
import { komma } from "./notices/parts.ts";

const files = (count: number) => `${count} ${count === 1 ? "Datei" : "Dateien"}`;

export const cliDe: CliWords = {
  note: "Hinweis",
  stopped: "Abgebrochen. Nichts Halbfertiges ist liegen geblieben.",
  aboutLeft: (length) => `noch etwa ${length}`,
  written: "Geschrieben:",
  planNext: (plan, sheetPath, hasTarget) => [
    ...(hasTarget
      ? [`Vor der Fahrt: ${sheetPath} dem Sportler geben.`]
      : [
          `Als Nächstes: ${plan} ausfüllen, zuerst die Zielleistung, etwa "target": 160. followcar plan --help erklärt jeden Schlüssel.`,
          `Dann daraus die Seite für den Sportler: followcar plan --plan ${plan} --out ORDNER`,
        ]),
    `Nach der Fahrt: followcar debrief RIDE --plan ${plan}`,
  ],
  whyInFilm: "Warum jeder Teil im Film ist:",
  leftOut: (what) => `weggelassen: ${what}`,
  watch: (path) => `Zum Ansehen: ${path}`,
  batch: { prepared: "vorbereitet", "there already": "schon da", failed: "gescheitert" },
  inFolder: (ride, folder) => `${ride}, in ${folder}`,
  excused: ", entschuldigt",
  lapse: ", ohne erkennbaren Grund",
  said: {
    held: "Was gehalten hat",
    change: "Was zu ändern ist",
    next: "Die nächste Fahrt",
    notes: "Notiz",
    questions: "Fragen",
  },
  by: { made: "vom Programm", yours: "eigene Worte" },
  message: "Die Nachricht:",
  notYetIn: (files, command) => `Noch nicht in ${files}: ${command}`,
  squad: (path) => `Alle Fahrten auf einer Seite: ${path}`,
  clipAt: (clip, at, verdict, aboutS) =>
    `${clip}: ${at === null ? "nirgends in der Fahrt" : `bei ${at} der Fahrt`} (${verdict}${aboutS === null ? "" : `, auf etwa ${komma(aboutS, 1)} s genau`})`,
  verdicts: { sure: "sicher", "not sure": "nicht sicher", conflict: "Widerspruch", "no match": "passt nirgends" },
  rideOff: (file, offS, aboutS) => {
    const off = `${offS < 0 ? "-" : "+"}${komma(Math.abs(offS), 1)} s`;
    return aboutS === null
      ? `${file}: ${off}, nur nach der Uhr; nichts zeigt, dass die beiden zusammen fuhren`
      : `${file}: ${off} gegenüber der gezeigten Fahrt, auf etwa ${komma(aboutS, 1)} s genau`;
  },
  noFrame: "Dort ließ sich kein Bild entschlüsseln.",
  sharpFrames:
    "Die schärfsten Bilder dort. In einem die Uhr ablesen und seinen Anker angeben; zwei oder mehr, weit auseinander, ergeben den Gang der Uhr.",
  signalsKept: "Die Signale sind von einem früheren Lauf aufbewahrt.",
  signalsTook: (seconds, readMb, ofMb) =>
    `${komma(seconds, 1)} s lang hingesehen und hingehört: von ${komma(ofMb, 1)} MB an Clips ${komma(readMb, 1)} MB gelesen.`,
  athleteFiles: (name, count) => `${name}: ${files(count)}`,
  others: "Im Ordner, aber nicht von diesem Programm oder von jemand anderem; bleibt, wie es ist:",
  elsewhere: "Fahrten und Clips an anderen Orten; sie bleiben, wo sie sind:",
  typeName: (name) => `Um das alles endgültig zu löschen, den Namen des Sportlers eingeben (${name}): `,
  deleted: (count, name) => `${files(count)} von ${name} gelöscht.`,
  notDeleted: (path) => `nicht gelöscht: ${path}`,
  opensIn: (program) => `Das Fenster öffnet sich in ${program}. Wird es geschlossen, endet Followcar.`,
};
