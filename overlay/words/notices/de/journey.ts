import type { JourneyFailures, JourneyNotes } from "../../../../main/contract/notices/journey.ts";
import { askedSentence } from "../../askedWords.ts";
import { debriefWords } from "../../debriefWords.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import { komma } from "../parts.ts";
import { clockText } from "../../numbers.ts";

const INSTALL = {
  macOS: "`brew install ffmpeg` ausführen",
  Windows: "`winget install ffmpeg` ausführen",
  Linux: "`sudo apt-get install ffmpeg` ausführen",
} as const;

export const journeyFailures: FailureWords<JourneyFailures> = {
  "plan-file-unreadable": ({ path }) => [
    `Der Plan ${path} lässt sich nicht lesen.`,
    "Den Pfad und seine Rechte prüfen.",
  ],
  "plan-file-no-json": ({ path, said }, door) => [
    `Der Plan ${path} ist kein JSON (${said}).`,
    door === "window" ? "Die Datei berichtigen." : "Die Datei berichtigen oder `followcar plan --help` ansehen.",
  ],
  "still-outside-film": ({ atS, lengthS }, door) => [
    `${door === "window" ? `${atS} s liegt` : `--at ${atS} liegt`} außerhalb des Films, der ${komma(lengthS, 1)} s lang ist.`,
    "Eine Filmzeit innerhalb angeben.",
  ],
  "debrief-media-missing": ({ path, folder }) => [
    `${path} fehlt; die Nachbesprechung in ${folder} braucht die Datei.`,
    "Die Datei zurücklegen oder neben den Ordner der Nachbesprechung legen.",
  ],
  "debrief-without-ride": ({ folder }, door) => [
    `Die Nachbesprechung in ${folder} nennt keine Fahrt, die zu zeigen wäre.`,
    door === "window" ? "Aus der Fahrt neu machen." : "Mit `followcar debrief` neu machen.",
  ],
  "debrief-athlete-missing": ({ path, folder }) => [
    `Die Sportlerdatei in ${path} fehlt; die Nachbesprechung in ${folder} braucht sie.`,
    "athlete.json zurücklegen: darin steht der Ort, der verborgen bleiben soll.",
  ],
  "rides-folder-unreadable": ({ folder }) => [
    `Der Ordner ${folder} ließ sich nicht lesen.`,
    "Einen Ordner mit Fahrten nennen.",
  ],
  "rides-folder-empty": ({ folder }) => [
    `In ${folder} liegt keine Fahrtdatei.`,
    "Einen Ordner mit FIT-, GPX-, TCX- oder CSV-Dateien nennen, oder einen mit je einem Ordner für jede Ausfahrt.",
  ],
  "ride-failed-inside": ({ ridePath }) => [
    `Bei ${ridePath} ging in Followcar etwas schief.`,
    "Die anderen Ausfahrten liefen weiter. Diese allein mit FOLLOWCAR_DEBUG=1 starten und melden, was es ausgibt.",
  ],
  "no-break-there": ({ atS, nearestS }, door) => [
    `Bei ${clockText(atS)} ist keine Druckpause${nearestS === null ? "" : `; die nächste beginnt bei ${clockText(nearestS)}`}.`,
    door === "window" ? "Eine aus der Liste wählen." : "followcar read RIDE --breaks listet sie.",
  ],
  "no-ride-given": () => [
    "Es ist keine Fahrtdatei angegeben.",
    "Eine FIT-, GPX-, TCX- oder CSV-Datei nennen, auch gzip-gepackt.",
  ],
  "shown-ride-unknown": ({ name, rides }, door) => [
    `${door === "window" ? name : `--show ${name}`} nennt keine der angegebenen Fahrten.`,
    `Eine von diesen nennen: ${rides.join(", ")}.`,
  ],
  "evidence-not-written": ({ path }, door) => [
    `Das Bild ${path} ließ sich nicht schreiben.`,
    door === "window" ? "Einen anderen Ordner wählen." : "Mit --evidence einen anderen Ordner wählen.",
  ],
  "plan-sheet-there": ({ path }, door) => [
    `${path} gibt es schon; die Datei wurde nicht überschrieben.`,
    door === "window" ? "Einen anderen Ordner wählen." : "Mit --out einen anderen Ordner wählen.",
  ],
  "clips-outside-ride": () => [
    "Kein Clip liegt innerhalb der Fahrt.",
    "Prüfen, ob Fahrt und Clips zusammengehören, oder einen Anker setzen.",
  ],
  "tool-not-found": ({ tool, system }, door) => [
    `${tool} wurde auf diesem Rechner nicht gefunden.`,
    door === "window"
      ? "ffmpeg installieren und Followcar noch einmal starten."
      : `${INSTALL[system]} oder den Ort in FOLLOWCAR_${tool.toUpperCase()} nennen.`,
  ],
};

export const journeyNotes: NoteWords<JourneyNotes> = {
  // Worded where notices are worded: it holds another one.
  "of-ride": ({ ridePath }) => ridePath,
  "athlete-file-elsewhere": ({ path }) => `Nicht gelöscht, weil es anderswo liegt: ${path}.`,
  "film-letters-missing": ({ letters }) =>
    `Der Schrift des Films fehlt ${letters.join(" ")}: eine andere Schrift dieses Rechners zeichnet das. Bitte den Film ansehen.`,
  "asked-open": ({ asked, timesS }) =>
    askedSentence(asked, timesS, "de", (kind) => debriefWords("de").momentName(kind)),
  "lesson-without-target": () =>
    "Der Plan hat kein Ziel: Watt lassen sich nicht als Anteil davon angeben und stehen da, wie sie sind.",
  "lesson-carries-speech": () => "Die Lektion enthält Sprache: vor dem Weitergeben auf Namen hören.",
  "lesson-shows-surroundings": () => "Gesichter, Häuser und Kennzeichen sind im Bild: das vor dem Weitergeben prüfen.",
};
