import type { AppFailures, AppNotes, NoWindow } from "../../../../main/contract/notices/app.ts";
import { lastName } from "../parts.ts";
import type { FailureWords, NoteWords } from "../tables.ts";

function noWindow(why: NoWindow): string {
  switch (why.kind) {
    case "nothing connected":
      return "es hat sich nicht mit Followcar verbunden";
    case "not started":
      return `es ließ sich nicht starten (${why.said})`;
    case "ended with code":
      return endedWith(why.exitCode);
    case "no screen":
      return `${endedWith(why.exitCode)}; diese Sitzung hat keinen Bildschirm (weder DISPLAY noch WAYLAND_DISPLAY ist gesetzt)`;
  }
}
const endedWith = (exitCode: number | null): string =>
  exitCode === null ? "es wurde von außen beendet" : `es endete mit Code ${exitCode}`;
const toDo = (why: NoWindow, otherwise: string): string =>
  why.kind === "no screen"
    ? "In einer Sitzung mit Bildschirm starten oder unter xvfb-run; die Befehlszeile tut dasselbe ohne Fenster (followcar help)."
    : otherwise;

export const appFailures: FailureWords<AppFailures> = {
  "desk-without-ride": () => ["Diese Nachbesprechung hat noch keine Fahrt.", "Zuerst eine Fahrtdatei hinzufügen."],
  "desk-without-debrief": () => [
    "Es ist keine Nachbesprechung offen.",
    "Eine Fahrtdatei hinzufügen oder eine Nachbesprechung öffnen.",
  ],
  "desk-no-such-ride": () => [
    "Diese Fahrt gehört nicht mehr zu dieser Nachbesprechung.",
    "Eine der aufgeführten Fahrten wählen.",
  ],
  "desk-no-such-clip": () => [
    "Dieser Clip gehört nicht mehr zu dieser Nachbesprechung.",
    "Einen der aufgeführten Clips wählen.",
  ],
  "desk-no-such-moment": () => [
    "Diesen Moment gibt es in der jetzigen Auswertung nicht.",
    "Einen der aufgeführten Momente wählen.",
  ],
  "desk-no-such-part": () => ["Dieser Teil ist nicht mehr im Film.", "Eine seiner Einstellungen oder Tafeln wählen."],
  "desk-no-such-question": () => [
    "Diese Frage zur Nachbesprechung gibt es nicht mehr.",
    "Die Liste ansehen, wie sie jetzt ist.",
  ],
  "desk-moved-on": () => [
    "Die Nachbesprechung hatte sich geändert, bevor diese Änderung kam.",
    "Den jetzigen Stand ansehen und noch einmal ändern.",
  ],
  "desk-file-not-listed": () => [
    "Diese Datei steht nicht mehr auf der Liste.",
    "Den Ordner noch einmal öffnen und neu wählen.",
  ],
  "comment-no-sound": () => ["Die Aufnahme ist kein Ton, der sich aufheben lässt.", "Noch einmal aufnehmen."],
  "debrief-odd-media-names": ({ folder }) => [
    `Die Nachbesprechung in ${folder} benennt ihre Dateien, wie dieses Programm es nicht tut.`,
    "Aus Fahrt und Clips neu machen.",
  ],
  "debrief-not-trusted": ({ folder, paths }, door) => [
    `Die Nachbesprechung in ${folder} wurde nicht hier gemacht und verweist aus ihrem Ordner hinaus: ${paths.join(", ")}.`,
    door === "window"
      ? "Nur öffnen, wenn der Verfasser vertrauenswürdig ist."
      : "`followcar open` ohne Angabe starten und sie dort öffnen: das Fenster fragt, ob der Verfasser vertrauenswürdig ist.",
  ],
  "media-still-missing": ({ place }) => [
    `Keine der fehlenden Dateien liegt in ${place} oder gleich darunter.`,
    "Den Ordner wählen, in dem sie liegen, oder den gleich darüber.",
  ],
  "athlete-gone": ({ folder }) => [
    `In ${folder} liegt keine athlete.json mehr.`,
    "Den Ordner des Sportlers neu wählen.",
  ],
  "athlete-list-not-shown": () => [
    "Die Dateien, die gelöscht würden, wurden noch nicht gezeigt; nichts wurde gelöscht.",
    "Zuerst die Liste ansehen.",
  ],
  "athlete-files-kept": ({ count, name, first }) => [
    count === 1
      ? `1 Datei von ${name} ließ sich nicht löschen: ${first}.`
      : `${count} Dateien von ${name} ließen sich nicht löschen, zuerst ${first}.`,
    "Schließen, was sie offen hält, und noch einmal löschen.",
  ],
  "athlete-none-there": ({ folder }, door) => [
    `In ${folder} liegt keine athlete.json.`,
    door === "window"
      ? "Den Ordner eines Sportlers wählen oder einen Sportler anlegen."
      : "Den Ordner des Sportlers nennen; `followcar athlete --help` zeigt die Form der Datei.",
  ],
  "hand-over-batch-unseen": (_, door) => [
    "Diese Nachbesprechung wurde im Stapel vorbereitet, und noch niemand hat sie angesehen.",
    door === "window"
      ? "Ansehen und dann zustimmen, dass sie weitergegeben werden darf."
      : "Im Fenster öffnen, oder film.mp4 ansehen und das mit --seen bestätigen.",
  ],
  "hand-over-consent-unsaid": () => [
    "Es ist noch nicht gesagt, dass der Sportler einer Lektion für andere zugestimmt hat.",
    "Fragen und ankreuzen, oder die Nachbesprechung für den Sportler machen.",
  ],
  "hand-over-unsure": () => [
    "Die Stelle eines Clips ist nicht sicher, und niemand hat zugestimmt, ihn trotzdem zu zeigen.",
    "Ankreuzen, dass er trotzdem gezeigt wird, oder einen Anker im Clip setzen.",
  ],
  "ride-reading-broke-off": ({ said }) => [
    `Das Lesen der Fahrt brach ab: ${said}.`.replace("..", "."),
    "Die Dateien noch einmal öffnen; kommt es wieder vor, den Fehler mit diesem Text melden.",
  ],
  "folder-out-of-bounds": ({ name }) => [
    `Der Ordner ${name} lässt sich hier nicht öffnen.`,
    "Einen Ordner unter dem eigenen Benutzerordner oder auf einem eingehängten Datenträger wählen.",
  ],
  "folder-unreadable": ({ folder }) => [
    `Der Ordner ${folder} lässt sich nicht lesen.`,
    "Das Leserecht prüfen oder die Dateien in einen eigenen Ordner kopieren.",
  ],
  "drops-unseen": () => [
    "Dieses Fenster sieht nicht, wo abgelegte Dateien liegen.",
    "Sie in der Liste wählen, die sich öffnet; Dateien gleichen Namens stehen zuerst.",
  ],
  "drop-lost": () => ["Eine abgelegte Datei war nicht zu finden.", "Noch einmal ablegen oder aus ihrem Ordner wählen."],
  "call-unknown-form": ({ call }) => [
    `Das Fenster hat „${call}“ in einer Form verlangt, die das Programm nicht kennt.`,
    "Das Fenster schließen und Followcar noch einmal starten.",
  ],
  "shell-unknown": ({ forced }) => [
    `FOLLOWCAR_SHELL=${forced} ist nicht bekannt.`,
    "Möglich sind electron und chromium; ohne Angabe wählt Followcar selbst.",
  ],
  "shell-electron-missing": () => [
    "Das Programm von Electron ist nicht auf diesem Rechner.",
    "`npx install-electron` ausführen (braucht das Netz) oder FOLLOWCAR_SHELL weglassen.",
  ],
  "shell-none": () => [
    "Für das Fenster fehlt Electron, Chromium, Chrome oder Edge.",
    "Eines davon installieren (Debian: sudo apt-get install chromium) oder in FOLLOWCAR_CHROMIUM nennen. Die Befehlszeile geht auch ohne.",
  ],
  "window-not-shown": ({ program, why }) => [
    `${program} hat kein Fenster gezeigt: ${noWindow(why)}.`,
    toDo(why, "Ein anderes Chromium, Chrome oder Edge in FOLLOWCAR_CHROMIUM nennen."),
  ],
  "window-page-not-own": ({ folder }) => [
    `Die Seite, die zum Fenster führt, läge in ${folder}, wo andere Benutzer dieses Rechners sie lesen können.`,
    "In FOLLOWCAR_CACHE einen eigenen Ordner nennen oder jenen für andere sperren.",
  ],
  "electron-not-shown": ({ why }) => [
    `Electron hat kein Fenster gezeigt: ${noWindow(why)}.`,
    toDo(why, "Mit FOLLOWCAR_SHELL=chromium starten, dann wird ein Browser verwendet."),
  ],
  "folder-gone": ({ path }) => [
    `Den Ordner ${path} gibt es nicht mehr.`,
    "Vielleicht wurde er verschoben; mit der Dateiverwaltung danach suchen.",
  ],
  "file-manager-none": ({ path }) => [
    `Für ${path} ließ sich keine Dateiverwaltung starten.`,
    "Den Ordner von Hand öffnen.",
  ],
  internal: ({ said }, door) => [
    `In Followcar ist etwas schiefgegangen: ${said}.`.replace("..", "."),
    door === "window"
      ? "Noch einmal versuchen; kommt es wieder vor, den Fehler mit diesem Text melden."
      : "Mit FOLLOWCAR_DEBUG=1 noch einmal starten und melden, was erscheint.",
  ],
};

export const appNotes: NoteWords<AppNotes> = {
  "window-claimed-twice": () =>
    "Etwas hat die einmalige Adresse des Fensters ein zweites Mal benutzt und wurde abgewiesen. " +
    "Hat sich kein Fenster geöffnet, war ein anderes Programm schneller: Followcar beenden und neu starten.",
  "backup-opened": () => "Die letzte Sicherung war beschädigt: geöffnet wurde die Kopie davor.",
  "debrief-there-already": ({ wished, folder }) =>
    `${lastName(wished)} gibt es schon: diese Nachbesprechung ist ${lastName(folder)}.`,
};
