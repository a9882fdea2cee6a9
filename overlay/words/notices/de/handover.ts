import type { HandOverFailures, HandOverNotes, NoPdf } from "../../../../main/contract/notices/handover.ts";
import type { FailureWords, NoteWords } from "../tables.ts";

function noPdf(why: NoPdf): string {
  switch (why.kind) {
    case "no browser":
      return "es wurde kein Chromium zum Drucken gefunden; die Seite lässt sich aus jedem Browser drucken";
    case "not started":
      return `Chromium ließ sich nicht starten (${why.said})`;
    case "ended":
      return `Chromium endete mit ${why.signal ?? `Code ${why.exitCode ?? "unbekannt"}`}`;
    case "nothing written":
      return "Chromium hat kein PDF geschrieben";
  }
}

const withOut = (door: string) => (door === "window" ? "" : " (mit --out, wo der Befehl es kennt)");

export const handOverFailures: FailureWords<HandOverFailures> = {
  "folder-not-made": ({ folder }, door) => [
    `Der Ordner ${folder} lässt sich nicht anlegen.`,
    `Die Rechte prüfen oder einen anderen wählen${withOut(door)}.`,
  ],
  "file-not-written": ({ path, error }, door) => [
    `${path} ließ sich nicht schreiben (${error || "Grund unbekannt"}).`,
    `Prüfen, ob es den Ordner gibt und das Schreiben erlaubt ist, oder einen anderen wählen${withOut(door)}.`,
  ],
  "file-no-room": ({ path }, door) => [
    `Für ${path} ist kein Platz mehr.`,
    `Platz schaffen oder einen anderen Ordner wählen${withOut(door)}.`,
  ],
  "demo-not-written": ({ folder }, door) => [
    `Die Demo ließ sich nicht nach ${folder} schreiben.`,
    door === "window" ? "Einen anderen Ordner wählen." : "Mit --out einen anderen Ordner wählen.",
  ],
  "demo-clip-not-drawn": ({ fileName, said }) => [
    `${fileName} ließ sich nicht zeichnen: ${said === "" ? "das zeichnende Programm endete vorzeitig" : said}.`,
    "Noch einmal starten; kommt es wieder vor, den Fehler mit diesem Text melden.",
  ],
  "installation-incomplete": ({ path }, door) => [
    `In dieser Installation fehlt ${path}.`,
    door === "window" ? "Followcar neu installieren." : "`npm run setup` ausführen, das stellt sie neu her.",
  ],
};

export const handOverNotes: NoteWords<HandOverNotes> = {
  "pdf-not-made": ({ why }) => `debrief.pdf wurde nicht erstellt: ${noPdf(why)}.`,
  "playing-page-too-large": ({ bytes, limitBytes }, door) =>
    `playing.html wurde nicht erstellt: Der Film hat ${Math.round(bytes / 1e6)} MB, eine Seite fasst höchstens ${Math.round(limitBytes / 1e6)}. ` +
    (door === "window" ? "Der Film fürs Telefon passt." : "--preset phone oder --size macht einen kleineren."),
  "lesson-without-caption": ({ text }) => `Die Bildzeile „${text}“ fehlt in der Lektion.`,
  "lesson-without-drawing": () => "Eine Zeichnung, deren Worte zu viel verraten, fehlt in der Lektion.",
  "lesson-without-card": ({ title }) => `Die Tafel „${title}“ fehlt in der Lektion.`,
};
