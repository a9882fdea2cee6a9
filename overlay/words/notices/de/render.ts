import type { FfmpegSubject, RenderFailures, RenderNotes } from "../../../../main/contract/notices/render.ts";
import { komma } from "../parts.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import { durationText } from "../../numbers.ts";

const SPACE = "Platz schaffen und noch einmal starten: fertige Teile bleiben erhalten.";
const REPORT = "Noch einmal starten; kommt es wieder vor, den Fehler mit diesem Text melden.";
const ALLOW = "Das Schreiben dort erlauben oder wegräumen, was an der Stelle liegt.";
const OTHER = "Einen anderen Ordner wählen oder seine Rechte ändern.";

const subjectWords = (subject: FfmpegSubject): string =>
  subject.kind === "files"
    ? subject.names.join(", ")
    : subject.kind === "card"
      ? "einer Tafel"
      : "einem Test des Encoders";

const setup = (door: string) =>
  door === "window"
    ? "ffmpeg neu installieren und Followcar noch einmal starten."
    : "`npm run setup` ausführen, das findet oder installiert es.";

const diskRoom = (bytes: number) => (bytes < 1e9 ? `${Math.round(bytes / 1e6)} MB` : `${komma(bytes / 1e9, 1)} GB`);

export const renderFailures: FailureWords<RenderFailures> = {
  "encoder-none": ({ ffmpeg }, door) => [
    `Dieses ffmpeg (${ffmpeg}) hat keinen funktionierenden Encoder für H.264.`,
    setup(door),
  ],
  "ffmpeg-no-answer": ({ ffmpeg }, door) => [`ffmpeg (${ffmpeg}) hat nicht geantwortet.`, setup(door)],
  "ffmpeg-hung": ({ subject }) => [
    `ffmpeg kam bei ${subjectWords(subject)} nicht weiter und wurde beendet.`,
    `Noch einmal starten: fertige Teile bleiben erhalten.${subject.kind === "files" ? " Hält es an derselben Stelle, diese Datei prüfen." : ""}`,
  ],
  "ffmpeg-disk-full": ({ subject }) => [
    `Die Platte ist voll: bei ${subjectWords(subject)} ließ sich nicht weiterschreiben.`,
    SPACE,
  ],
  "ffmpeg-forbidden": ({ subject }) => [
    `Bei ${subjectWords(subject)} fehlt das Recht zu lesen oder zu schreiben.`,
    "Einen anderen Ordner wählen oder die Rechte an diesem ändern.",
  ],
  "ffmpeg-failed": ({ subject, said, exitCode }) => [
    `ffmpeg scheiterte an ${subjectWords(subject)}: ${said ?? (exitCode === null ? "es wurde von außen beendet" : `Endcode ${exitCode}`)}.`.replace(
      "..",
      ".",
    ),
    subject.kind === "files" ? "Prüfen, ob der Clip sich abspielen lässt; dann noch einmal starten." : REPORT,
  ],
  "frames-missing": ({ frames, of, subject }) => [
    `ffmpeg hat bei ${subjectWords(subject)} nur ${frames} von ${of} Bildern geschrieben.`,
    subject.kind === "files"
      ? "Prüfen, ob der Clip sich bis zum Ende abspielen lässt; dann noch einmal starten."
      : REPORT,
  ],
  "frames-not-joined": ({ frames, of, fileName }) => [
    `ffmpeg hat in ${fileName} nur ${frames} von ${of} Bildern zusammengefügt.`,
    REPORT,
  ],
  "small-picture-frames-missing": ({ frames, of, fileName, fromFrame }) => [
    `ffmpeg hat von ${fileName} (ab Bild ${fromFrame}) nur ${frames} von ${of} Bildern geschrieben.`,
    "Prüfen, ob der Clip sich bis zum Ende abspielen lässt; solange wird der Clip selbst gezeigt.",
  ],
  "loudness-unmeasured": ({ fileName }) => [
    `Die Lautheit von ${fileName} ließ sich nicht messen.`,
    "Prüfen, ob die Datei sich abspielen lässt und Ton hat.",
  ],
  "film-does-not-fit": ({ durationS, sizeMb, leastMb }, door) => [
    `Ein Film von ${Math.round(durationS)} s passt nicht in ${sizeMb} MB, ohne unansehnlich zu werden.`,
    door === "window"
      ? `Mindestens ${leastMb} MB erlauben oder den Film kürzen.`
      : `--size ${leastMb} oder mehr angeben oder den Film kürzen.`,
  ],
  "film-empty": () => [
    "Der Film hat weder Einstellung noch Tafel.",
    "Einen Moment oder eine Tafel in den Film aufnehmen.",
  ],
  "shot-without-clip": ({ clipId }) => [
    `Der Film enthält eine Einstellung aus dem Clip ${clipId}, der nicht unter den Clips ist.`,
    "Diesen Clip hinzufügen oder die Einstellung entfernen.",
  ],
  "clip-moved": ({ fileName, path }) => [
    `Der Clip ${fileName} ist nicht mehr dort, wo er war (${path}).`,
    "Zurücklegen oder zeigen, wo er jetzt liegt.",
  ],
  "clip-hdr-unconvertible": ({ fileName, filters }) => [
    `Der Clip ${fileName} ist HDR, und dieses ffmpeg kann ihn nicht umwandeln (es fehlt ${filters.join(", ")}).`,
    "Ein ffmpeg mit zimg installieren (Debian: apt-get install ffmpeg) oder den Clip zuerst in SDR umwandeln.",
  ],
  "overlay-without-clips": () => [
    "Es ist kein Clip angegeben, über den Anzeigen gelegt werden könnten.",
    "Mindestens einen Clip nennen.",
  ],
  "panels-unpainted": ({ said }) => [
    `Die Bilder der Anzeigen ließen sich nicht zeichnen${said === "" ? "" : `: ${said}`}.`,
    REPORT,
  ],
  "render-broke-off": ({ said }) => [`Das Rendern brach ab: ${said}.`.replace("..", "."), REPORT],
  "output-folder-unusable": ({ folder }, door) => [
    `Der Ordner ${folder} lässt sich nicht anlegen oder lesen.`,
    door === "window" ? ALLOW : OTHER,
  ],
  "output-file-forbidden": ({ path }, door) => [
    `${path} lässt sich nicht schreiben.`,
    `Einen anderen Ordner wählen${door === "window" ? "" : " (mit --out, wo der Befehl es kennt)"} oder die Rechte an diesem ändern.`,
  ],
  "output-forbidden": ({ path }, door) => [
    path === null ? "Die Ausgabe lässt sich nicht schreiben." : `${path} lässt sich nicht schreiben.`,
    door === "window" ? ALLOW : OTHER,
  ],
  "disk-too-full": ({ folder, freeBytes, neededBytes }) => [
    `Auf der Platte von ${folder} sind ${diskRoom(freeBytes)} frei; gebraucht werden etwa ${diskRoom(neededBytes)}.`,
    "Platz schaffen oder einen Ordner auf einer anderen Platte wählen.",
  ],
  "disk-full": ({ path }) => [
    path === null
      ? "Die Platte ist voll: die Ausgabe ließ sich nicht schreiben."
      : `Die Platte ist voll: ${path} ließ sich nicht schreiben.`,
    SPACE,
  ],
};

export const renderNotes: NoteWords<RenderNotes> = {
  "encoder-not-working": ({ encoder }) => `Der Encoder ${encoder} funktioniert hier nicht.`,
  "encoder-replaced": () => "Stattdessen wird libx264 verwendet.",
  "parts-kept": ({ keptS, ofS }, door) =>
    `${keptS >= ofS ? `Alle ${durationText(ofS)}` : `${durationText(keptS)} von ${durationText(ofS)}`} Film stammen ` +
    `aus einem früheren Lauf${door === "command" ? "; --anew rechnet alles neu" : ""}.`,
};
