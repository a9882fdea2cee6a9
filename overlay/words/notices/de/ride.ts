import type { RideColumn, RideFailures, RideNotes } from "../../../../main/contract/notices/ride.ts";
import { clockText, durationText } from "../../numbers.ts";
import { counted, spansText, utcText } from "../parts.ts";
import type { FailureWords, NoteWords } from "../tables.ts";

const KINDS_OF_FILE = "Eine FIT-, GPX-, TCX- oder CSV-Datei einer aufgezeichneten Fahrt wählen, auch gzip-gepackt.";
const RECORDED = "Die Datei einer aufgezeichneten Fahrt wählen.";

/** Columns of a ride as a sentence begins with them. */
const rideColumnWords: Readonly<Record<RideColumn, string>> = {
  powerW: "Leistung",
  heartRateBpm: "Puls",
  cadenceRpm: "Trittfrequenz",
  speedMps: "Geschwindigkeit",
  distanceM: "Strecke",
  altitudeM: "Höhe",
  latDeg: "Geografische Breite",
  lonDeg: "Geografische Länge",
  temperatureC: "Temperatur",
  leftPercent: "Anteil links",
};

/** Sports as the FIT profile names them; others stay as the file has them. */
const SPORTS: Readonly<Record<string, string>> = {
  generic: "allgemein",
  unknown: "unbekannt",
  cycling: "Radfahren",
  "e biking": "E-Bike",
  running: "Laufen",
  walking: "Gehen",
  hiking: "Wandern",
  mountaineering: "Bergsteigen",
  swimming: "Schwimmen",
  transition: "Wechsel",
  "fitness equipment": "Fitnessgerät",
  training: "Training",
  rowing: "Rudern",
  "cross country skiing": "Skilanglauf",
  "alpine skiing": "Ski alpin",
  snowboarding: "Snowboard",
  "inline skating": "Inlineskaten",
};
const sportDe = (sport: string): string => SPORTS[sport] ?? sport;

const times = (facts: Parameters<typeof spansText>[0]) =>
  `von ${spansText(facts, { to: "bis", and: "und", more: "weitere Male" })}`;
const seconds = (count: number) => counted(count, "Sekunde", "Sekunden");

export const rideFailures: FailureWords<RideFailures> = {
  "ride-empty": ({ fileName }) => [`${fileName} ist leer.`, "Die Fahrt noch einmal kopieren oder exportieren."],
  "ride-file-too-large": ({ fileName }) => [`${fileName} ist größer als jede Fahrtdatei.`, KINDS_OF_FILE],
  "ride-packed-twice": ({ fileName }) => [
    `${fileName} ist mehrfach gepackt.`,
    "Einmal entpacken und noch einmal versuchen.",
  ],
  "ride-zip-archive": ({ fileName }) => [
    `${fileName} ist ein ZIP-Archiv.`,
    "Entpacken und die Fahrtdatei darin wählen.",
  ],
  "ride-no-ride-file": ({ fileName }) => [`${fileName} ist keine Fahrtdatei.`, KINDS_OF_FILE],
  "ride-without-records": ({ fileName }) => [
    `In ${fileName} ist keine Fahrt aufgezeichnet.`,
    "Die Datei einer aufgezeichneten Fahrt wählen oder die Fahrt neu exportieren.",
  ],
  "ride-without-values": ({ fileName }) => [
    `${fileName} enthält Zeiten, aber weder Orte noch Messwerte.`,
    "Die Fahrt anders exportieren.",
  ],
  "ride-over-a-week": ({ fileName }) => [
    `${fileName} umfasst mehr als 7 Tage, das ist keine einzelne Fahrt.`,
    "In einzelne Fahrten teilen oder die Fahrt neu exportieren.",
  ],
  "ride-too-many-records": ({ fileName }) => [
    `${fileName} enthält mehr als 2 Millionen Einträge, das ist keine Fahrt.`,
    RECORDED,
  ],
  "ride-needs-memory": ({ fileName }) => [
    `${fileName} zu lesen braucht mehr Speicher als eine Fahrt: Es wurde abgebrochen.`,
    RECORDED,
  ],
  "ride-one-record": ({ fileName }) => [
    `${fileName} enthält nur einen einzigen Eintrag, also keine Fahrt.`,
    "Die Datei einer ganzen Fahrt wählen oder die Fahrt neu exportieren.",
  ],
  "ride-clock-stands": ({ fileName }) => [
    `Alle Einträge in ${fileName} haben ein und dieselbe Zeit: Ohne Uhr lässt sich die Fahrt nicht lesen.`,
    "Die Fahrt mit ihren Zeiten exportieren, zum Beispiel als FIT.",
  ],
  "ride-gzip-damaged": ({ fileName }) => [
    `${fileName} ist gepackt und so beschädigt, dass sich nichts entpacken lässt.`,
    "Die Fahrt noch einmal kopieren oder exportieren.",
  ],
  "ride-gzip-too-large": ({ fileName, limitMb }) => [
    `${fileName} ist entpackt größer als ${limitMb} MB, das ist keine Fahrt.`,
    RECORDED,
  ],
  "gpx-without-points": ({ fileName }) => [
    `${fileName} enthält keinen Trackpunkt.`,
    "Die Datei einer aufgezeichneten Fahrt wählen, nicht die von Wegpunkten oder einer geplanten Route.",
  ],
  "gpx-without-times": ({ fileName, timed, points }) => [
    timed === 0
      ? `Kein Punkt in ${fileName} hat eine Zeit.`
      : `Nur ${timed} der ${points} Punkte in ${fileName} haben eine Zeit.`,
    "Die Fahrt mit ihren Zeiten exportieren, zum Beispiel als FIT.",
  ],
  "csv-without-header": ({ fileName }) => [
    `${fileName} ist keine Fahrtdatei oder eine CSV-Datei ohne Kopfzeile, die eine Zeit und einen Messwert nennt.`,
    "Eine Kopfzeile wie `time,power,heart rate,cadence,speed (km/h)` ergänzen oder eine FIT-, GPX- oder TCX-Datei wählen.",
  ],
  "csv-without-times": ({ fileName }) => [
    `Keine Zeile in ${fileName} hat eine lesbare Zeit.`,
    "Zeiten als 2026-05-17T08:00:00Z, in Sekunden oder als h:mm:ss schreiben.",
  ],
  "ride-is-folder": ({ fileName }) => [`${fileName} ist ein Ordner.`, "Eine Fahrtdatei angeben, nicht ihren Ordner."],
  "ride-is-debrief": ({ name, rideName, ridePath }) => [
    `${name} ist eine Nachbesprechung, keine Fahrtdatei.`,
    ridePath === null
      ? `Die Fahrtdatei angeben, aus der sie gemacht ist: ${rideName}.`
      : `Stattdessen ihre Fahrtdatei angeben: ${ridePath}.`,
  ],
  "ride-no-ordinary-file": ({ fileName }) => [
    `${fileName} ist keine gewöhnliche Datei.`,
    "Die Fahrt in eine Datei kopieren.",
  ],
  "ride-file-missing": ({ path }) => [`${path} gibt es nicht.`, "Namen und Ordner prüfen."],
  "ride-file-forbidden": ({ fileName }) => [
    `${fileName} darf nicht gelesen werden.`,
    "Das Leserecht dafür geben oder die Datei an einen anderen Ort kopieren.",
  ],
  "ride-file-unreadable": ({ fileName, error }) => [
    `${fileName} lässt sich nicht lesen (${error ?? "Grund unbekannt"}).`,
    "Den Datenträger prüfen oder die Datei noch einmal kopieren.",
  ],
};

export const rideNotes: NoteWords<RideNotes> = {
  "ride-gzip-cut": () => "Die gepackte Datei ist beschädigt oder bricht ab; gelesen wird, was sich entpacken ließ.",
  "ride-very-short": ({ elapsedS, records }) =>
    `Die Fahrt ist nur ${Math.round(elapsedS)} s lang (${counted(records, "Eintrag", "Einträge")}).`,
  "ride-without-date": ({ why }) =>
    why === "none"
      ? "Die Datei enthält kein Datum. Clips lassen sich nicht über die Uhrzeit zuordnen."
      : "Die Datei enthält kein Datum: ihre Uhr zählt ab dem Einschalten. Clips lassen sich nicht über die Uhrzeit zuordnen.",
  "ride-wrong-date": ({ year }) =>
    `Das Datum in der Datei (${year}) kann nicht stimmen; die Fahrt wird ohne Datum gelesen, und Clips lassen sich nicht über die Uhrzeit zuordnen.`,
  "ride-own-steps": () =>
    "Der Radcomputer hat in eigenen Abständen statt jede Sekunde aufgezeichnet: " + "Ein Wert gilt bis zum nächsten.",
  "ride-null-positions": ({ count }) =>
    count === 1
      ? "1 Position liegt genau auf 0,0, wo niemand fährt, und zählt nicht."
      : `${count} Positionen liegen genau auf 0,0, wo niemand fährt, und zählen nicht.`,
  "ride-dead-sensor": ({ column }) => `${rideColumnWords[column]}: durchgehend 0, der Sensor gilt als nicht vorhanden.`,
  "ride-records-out-of-order": () => "Einige Einträge sind zeitlich nicht in der Reihenfolge; sie werden sortiert.",
  "ride-times-jump": ({ left, more }) => {
    const named = left.map(
      ({ records, startMs }) => `${counted(records, "Eintrag", "Einträge")} ab ${utcText(startMs, "de")}`,
    );
    return `Die Zeiten in der Datei springen. Gelesen wird das längste Stück; weggelassen: ${named.join(", ")}${more > 0 ? ` und ${more} weitere` : ""}.`;
  },
  "ride-power-spikes": ({ count }) =>
    count === 1
      ? "1 Leistungswert, den kein Mensch tritt, ist weggelassen."
      : `${count} Leistungswerte, die kein Mensch tritt, sind weggelassen.`,
  "ride-power-dropouts": (facts) =>
    `Die Leistung fiel ${facts.seconds === 1 ? "1 Sekunde" : `insgesamt ${facts.seconds} Sekunden`} lang auf ` +
    "0, obwohl die Kurbel sich drehte; das ist weggelassen.",
  "ride-heart-jumps": (facts) =>
    `Der Puls sprang ${seconds(facts.seconds)} lang, wie kein Herz es tut; das ist weggelassen.`,
  "ride-heart-follows-cadence": (facts) =>
    `Der Puls folgte ${times(facts)} der Trittfrequenz und zählt dort nicht: Der Sensor hat wohl Kurbelumdrehungen gezählt.`,
  "ride-heart-stuck": (facts) => `Der Puls blieb ${times(facts)} auf einem Wert stehen und zählt dort nicht.`,
  "ride-heart-no-pulse": (facts) =>
    `Der Pulssensor fand ${times(facts)} keinen Puls; was er dort lieferte, zählt nicht.`,
  "ride-power-zero-turning": (facts) =>
    `Die Leistung blieb ${times(facts)} auf 0, obwohl die Kurbel sich drehte: Dort gibt es keine Messung.`,
  "ride-power-frozen": (facts) =>
    `Die Leistung blieb ${times(facts)} auf einem Wert stehen, während Trittfrequenz und Tempo sich änderten; sie zählt dort nicht.`,
  "ride-cadence-zero-pressed": (facts) =>
    `Die Trittfrequenz blieb ${times(facts)} auf 0, obwohl Druck auf dem Pedal war; sie zählt dort nicht.`,
  "ride-sensor-silent": ({ column, ...facts }) => `${rideColumnWords[column]} fehlt ${times(facts)}.`,
  "ride-altitude-begins-wrong": ({ untilS }) =>
    `Die Höhe beginnt mit Werten, die es auf keiner Straße gibt; vor ${clockText(untilS)} zählt sie nicht.`,
  "ride-cadence-spikes": (facts) =>
    `${seconds(facts.seconds)} mit einer Trittfrequenz, die kein Mensch tritt, ${facts.seconds === 1 ? "ist" : "sind"} weggelassen.`,
  "ride-absurd-sums": ({ distanceM, meanMps, powerW }) => {
    const km =
      distanceM === null ? [] : [`${Math.round(distanceM / 1000)} km, im Mittel ${Math.round(meanMps! * 3.6)} km/h`];
    const watts = powerW === null ? [] : [`bis zu ${Math.round(powerW)} W`];
    return `Die Datei ist beschädigt: Sie nennt ${[...km, ...watts].join(" und ")}; das fährt niemand. Was daraus beurteilt wird, kann falsch sein.`;
  },
  "ride-speed-from-places": () => "Die Geschwindigkeit fehlt in der Datei; sie ist aus dem Abstand der Orte berechnet.",
  "ride-times-without-zone": () => "Die Zeiten in der Datei nennen keine Zeitzone; sie gelten als UTC.",
  "ride-untimed-points": ({ untimed, points }) =>
    `${untimed} von ${points} Punkten haben keine Zeit und sind weggelassen.`,
  "ride-untimed-records": ({ count }) =>
    count === 1
      ? "1 Eintrag hat keine Zeit und ist weggelassen."
      : `${count} Einträge haben keine Zeit und sind weggelassen.`,
  "ride-untimed-lines": ({ left, lines }) => `Weggelassen: ${left} von ${lines} Zeilen, ohne Zeit oder beschädigt.`,
  "ride-several-tracks": ({ count }) => `Die Datei enthält ${count} Tracks; sie werden als eine Fahrt gelesen.`,
  "ride-several-activities": ({ count }) =>
    `Die Datei enthält ${count} Aktivitäten; sie werden als eine Fahrt gelesen.`,
  "ride-several-recordings": ({ count }) =>
    `Die Datei enthält ${count} aneinandergehängte Aufzeichnungen; sie werden als eine Fahrt gelesen.`,
  "ride-several-sessions": ({ count, sports }) =>
    `Die Datei enthält ${count} Abschnitte (${sports.map(sportDe).join(", ")}); alle werden als eine Fahrt gelesen.`,
  "ride-only-ridden": ({ count, sports }) =>
    `Die Datei enthält ${count} Abschnitte (${sports.map(sportDe).join(", ")}); gelesen wird nur, was gefahren wurde.`,
  "ride-mostly-unrecorded": ({ recordedS, elapsedS }) =>
    `Nur ${durationText(recordedS)} von ${durationText(elapsedS)} zwischen dem ersten und dem letzten Eintrag sind aufgezeichnet; ` +
    `der Rest sind Pausen und Lücken.`,
  "ride-other-sport": ({ sport }) =>
    `Die Datei nennt als Sportart „${sportDe(sport)}“, nicht Radfahren: Dann gilt nicht, was hier über Pedale, Druck und ` +
    `Trittfrequenz steht. Bitte die Datei einer Radfahrt nehmen.`,
  "ride-laps-automatic": ({ laps, by }) =>
    `Die ${laps} Runden sind, bis auf die letzte, alle gleich ${by === "time" ? "lang" : "weit"}: ` +
    `Sie gelten als automatisch gesetzt, nicht als von Hand gedrückt.`,
  "ride-text-damaged": ({ line }) => `Die Datei ist beschädigt (Zeile ${line}); gelesen wird, was in ihr heil ist.`,
  "ride-is-course": () => "Die Datei ist nach eigener Angabe eine geplante Strecke, keine Fahrt.",
  "csv-guessed-unit": ({ column, unit }) =>
    `Die Spalte mit der ${column === "speed" ? "Geschwindigkeit" : "Strecke"} nennt keine Einheit; sie gilt als ${unit}.`,
  "fit-part-undecoded": () => "Ein Teil der Datei lässt sich nicht entschlüsseln; er ist weggelassen.",
  "fit-developer-column": ({ column }) =>
    `${rideColumnWords[column]}: aus einem Feld, das eine Erweiterung in der Datei beschrieben hat.`,
  "fit-many-parts": ({ limit }) => `Die Datei enthält mehr als ${limit} Teile; der Rest ist weggelassen.`,
  "fit-foreign-end": () => "Nach der Fahrt folgen in der Datei Bytes, die keine Fahrt sind; sie sind weggelassen.",
  "fit-ride-twice": () => "Die Datei enthält dieselbe Fahrt zweimal; die Kopie ist weggelassen.",
  "fit-bytes-damaged": ({ bytes }) =>
    `${bytes} Bytes der Datei sind beschädigt; gelesen werden die heilen Einträge darum herum.`,
  "fit-cut-short": () => "Die Datei ist kürzer, als sie angibt; gelesen werden die heilen Einträge.",
  "fit-wrong-size": () => "Die Größe, die die Datei angibt, stimmt nicht; gelesen werden die heilen Einträge.",
  "fit-wrong-checksum": () =>
    "Die Prüfsumme der Datei stimmt nicht: sie wurde beschädigt oder geändert, einzelne Werte können falsch sein.",
};
