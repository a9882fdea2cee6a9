import type { FootageFailures, FootageNotes } from "../../../../main/contract/notices/footage.ts";
import { komma } from "../parts.ts";
import type { FailureWords, NoteWords } from "../tables.ts";

const UNREADABLE = {
  missing: "gibt es nicht",
  folder: "ist ein Ordner",
  "no file": "ist keine gewöhnliche Datei",
  "not opened": "lässt sich nicht öffnen",
} as const;
const COPY_AGAIN = "Noch einmal von der Kamera kopieren.";

export const footageFailures: FailureWords<FootageFailures> = {
  "clip-file-unreadable": ({ path, why }) => [
    why === "missing" ? `Den Clip ${path} gibt es nicht.` : `Der Clip ${path} ${UNREADABLE[why]}.`,
    why === "folder"
      ? "Die Clips darin wählen."
      : why === "no file"
        ? "Den Clip in eine Datei kopieren."
        : "Den Namen und das Leserecht prüfen.",
  ],
  "clip-empty": ({ fileName }) => [`${fileName} ist leer (0 Bytes).`, COPY_AGAIN],
  "clip-no-mp4": ({ fileName }, door) => [
    `${fileName} ist keine MP4- oder MOV-Datei.`,
    door === "window"
      ? "Einen Clip der Kamera wählen; ein anderes Video zuerst als MP4 speichern lassen."
      : "Einen Clip der Kamera angeben; ein anderes Video lässt sich mit `ffmpeg -i CLIP -c copy CLIP.mp4` in MP4 umpacken.",
  ],
  "clip-is-picture": ({ fileName }) => [
    `${fileName} ist ein Standbild, kein Film.`,
    "Den Clip angeben, den die Kamera aufgenommen hat, eine MP4- oder MOV-Datei.",
  ],
  "clip-without-index": ({ fileName }) => [
    `${fileName} hat keinen brauchbaren Index (moov): Aufnahme oder Kopie brach vor dem Ende ab.`,
    "Noch einmal kopieren; hatte die Kamera keinen Strom mehr, die Karte wieder einsetzen und die Kamera die Datei reparieren lassen.",
  ],
  "clip-index-damaged": ({ fileName }) => [
    `Der Index von ${fileName} ist beschädigt.`,
    "Den Clip noch einmal von der Kamera kopieren.",
  ],
  "clip-in-fragments": ({ fileName }, door) => [
    `${fileName} ist ein MP4 in Fragmenten, dessen Bildzeiten nicht im Index stehen.`,
    door === "window"
      ? "Verlustfrei als MP4 neu schreiben lassen und das Ergebnis verwenden."
      : "Verlustfrei neu schreiben: `ffmpeg -i CLIP -c copy NEW.mp4`, und das Ergebnis verwenden.",
  ],
  "clip-without-picture": ({ fileName }) => [`${fileName} hat keine Bildspur.`, "Einen Clip mit Bild angeben."],
  "clip-without-frames": ({ fileName }) => [`${fileName} enthält kein einziges Bild.`, COPY_AGAIN],
  "clip-unknown-coding": ({ fileName }) => [
    `Das Bild von ${fileName} ist auf eine Weise kodiert, die ffmpeg nicht kennt.`,
    "Mit dem Programm der Kamera als H.264 oder HEVC exportieren.",
  ],
  "clip-no-video": ({ fileName, said }) => [
    `${fileName} lässt sich nicht als Video lesen${said === "" ? "" : ` (ffprobe: ${said})`}.`,
    "Abspielen versuchen; wenn das nicht geht, noch einmal von der Kamera kopieren.",
  ],
  "clip-probe-silent": ({ fileName }) => [
    `ffprobe hat 30 s lang nichts zu ${fileName} gesagt.`,
    "Den Clip auf eine lokale Platte kopieren und noch einmal versuchen.",
  ],
  "clip-reading-silent": ({ fileName, what }) => [
    `ffmpeg hat beim Lesen ${what === "picture" ? "des Bildes" : "des Tons"} von ${fileName} 30 s lang nichts geliefert.`,
    "Den Clip auf eine lokale Platte kopieren oder einen Anker setzen.",
  ],
  "comment-unplayable": ({ path }) => [
    `Der gesprochene Kommentar ${path} lässt sich nicht abspielen.`,
    "Neu aufnehmen oder eine WAV- oder M4A-Datei verwenden.",
  ],
  "tool-not-started": ({ tool, program }, door) => [
    `${tool} ließ sich nicht starten (${program}).`,
    door === "window"
      ? "Neu installieren und Followcar noch einmal starten."
      : "`npm run setup` ausführen, das findet oder installiert es.",
  ],
};

export const footageNotes: NoteWords<FootageNotes> = {
  "clip-cut-off": ({ fileName, seconds }) =>
    `${fileName} bricht ab: nur die ersten ${komma(seconds, 1)} s des Bildes sind in der Datei.`,
  "clip-times-differ": ({ fileName }) =>
    `Die Zeiten im Kopf von ${fileName} weichen voneinander ab, der Clip wurde also bearbeitet oder ` +
    `von einem Programm weitergegeben; seine Uhrzeit kann falsch sein.`,
};
