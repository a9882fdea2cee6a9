import type {
  DebriefFailures,
  DebriefFault,
  EditFault,
  ReadOnlyReason,
} from "../../../../main/contract/notices/debrief.ts";
import type { FailureWords } from "../tables.ts";
import { formFaultDe } from "./formFault.ts";
import { readOnlyDe } from "../readOnlyText.ts";

function debriefFault(fault: DebriefFault): string {
  return fault.kind === "no schema" ? "die Datei nennt ihr Schema nicht" : formFaultDe(fault);
}

function editFault(fault: EditFault): string {
  switch (fault.kind) {
    case "no such part":
      return `${fault.part} ist nichts, was sich bearbeiten lässt`;
    case "comment outside":
      return "die Tondatei eines Kommentars liegt außerhalb des Ordners der Nachbesprechung";
    default:
      return formFaultDe(fault);
  }
}

const READ_ONLY: Readonly<Record<ReadOnlyReason["kind"], string>> = {
  "newer version": "Dieses Programm aktualisieren, um daran zu arbeiten.",
  "folder not writable": "Das Schreiben in den Ordner erlauben oder mit einer Kopie davon arbeiten.",
  "open elsewhere": "Dort schließen oder mit einer Kopie des Ordners arbeiten.",
};

export const debriefFailures: FailureWords<DebriefFailures> = {
  "athlete-unusable": ({ fileName, fault }, door) => [
    `${fileName} ist keine brauchbare Sportlerdatei: ${formFaultDe(fault)}.`,
    door === "window" ? "Die Datei berichtigen." : "Die Datei berichtigen; `followcar athlete --help` zeigt ihre Form.",
  ],
  "lesson-without-consent": ({ name }, door) => [
    `${name === null ? "Keine Sportlerdatei sagt" : `Die Datei von ${name} sagt nicht`}, dass der Sportler einer Lektion für andere zugestimmt hat.`,
    door === "window"
      ? "Fragen, dann unten zustimmen oder es auf der Seite des Sportlers eintragen, oder die Nachbesprechung nur für den Sportler machen."
      : 'Fragen, dann mit --consent "wann und wie" angeben (athlete.json behält es), oder die Nachbesprechung nur für den Sportler machen.',
  ],
  "athlete-folder-without-file": ({ folder }) => [
    `${folder} ist kein Ordner eines Sportlers: athlete.json fehlt.`,
    "Den Ordner nennen, in dem die Datei des Sportlers liegt.",
  ],
  "athlete-name-differs": ({ typed, name }) => [
    `„${typed}“ ist nicht der Name dieses Sportlers; nichts wurde gelöscht.`,
    `Den Namen so eingeben, wie er in athlete.json steht: ${name}.`,
  ],
  "athlete-files-changed": ({ folder }) => [
    `Die Dateien in ${folder} sind nicht mehr die gezeigten; nichts wurde gelöscht.`,
    "Die Liste noch einmal ansehen, dann löschen.",
  ],
  "athlete-file-unreadable": ({ path }) => [`${path} ließ sich nicht lesen.`, "Den Pfad und seine Rechte prüfen."],
  "path-outside-debrief": ({ path }, door) => [
    `Die Nachbesprechung verweist auf ${path}, außerhalb ihres Ordners.`,
    door === "command"
      ? "--trust-paths angeben (render, still, say und judge nehmen es an), wenn der Verfasser vertrauenswürdig ist."
      : "Dem Öffnen nur zustimmen, wenn der Verfasser vertrauenswürdig ist.",
  ],
  "debrief-unreadable": ({ path }) => [
    `${path} ließ sich nicht lesen.`,
    "Den Ordner einer Nachbesprechung nennen, in dem debrief.json liegt.",
  ],
  "debrief-unusable": ({ fileName, fault }) => [
    `${fileName} ist keine brauchbare Nachbesprechung: ${debriefFault(fault)}.`,
    "Die Kopie daneben verwenden, die auf .bak endet, oder die Nachbesprechung neu machen.",
  ],
  "debrief-not-savable": ({ fileName, fault }) => [
    `Nicht gesichert, denn ${fileName} wäre nicht mehr zu öffnen: ${debriefFault(fault)}.`,
    "Das kürzen oder berichtigen und noch einmal sichern; auf der Platte hat sich nichts geändert.",
  ],
  "debrief-newer": ({ fileName, schema }) => [
    `${fileName} stammt von einer neueren Version dieses Programms (Schema ${schema}).`,
    "Dieses Programm aktualisieren, um sie zu öffnen.",
  ],
  "debrief-newer-kept": ({ fileName }) => [
    `${fileName} stammt von einer neueren Version dieses Programms: die Datei wurde nicht überschrieben.`,
    "Dieses Programm aktualisieren oder in einen anderen Ordner speichern.",
  ],
  "debrief-changed-elsewhere": ({ path }) => [
    `${path} wurde seit dem Öffnen von einem anderen Fenster geändert.`,
    "Noch einmal öffnen oder in einen anderen Ordner speichern.",
  ],
  "backup-not-written": ({ fileName, folder }) => [
    `Die Kopie ${fileName} in ${folder} ließ sich nicht schreiben.`,
    "Prüfen, ob das Schreiben in den Ordner erlaubt ist.",
  ],
  "debriefs-folder-unreadable": ({ folder }) => [
    `Der Ordner ${folder} ließ sich nicht lesen.`,
    "Einen Ordner mit Nachbesprechungen nennen.",
  ],
  "debriefs-folder-empty": ({ folder }) => [
    `${folder} enthält keine Nachbesprechung: Geschrieben ist nichts.`,
    "Den Ordner angeben, in dem die Nachbesprechungen des Sportlers liegen.",
  ],
  "debrief-not-folder-of": ({ name, parent }) => [
    `${name} ist selbst eine Nachbesprechung: Darin ist nichts geschrieben.`,
    `Den Ordner angeben, in dem sie und die anderen liegen: ${parent}.`,
  ],
  "edit-refused": ({ fault }) => [
    `Diese Änderung geht nicht: ${editFault(fault)}.`,
    "Nichts wurde geändert; bitte anders versuchen.",
  ],
  "debrief-read-only": ({ reason }) => [
    `${readOnlyDe(reason)}: diese Nachbesprechung lässt sich nur ansehen.`,
    READ_ONLY[reason.kind],
  ],
};
