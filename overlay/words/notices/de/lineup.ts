import type { LineupFailures, LineupNotes, RideTimeFault } from "../../../../main/contract/notices/lineup.ts";
import { exactClockText, komma, listed, otherDays } from "../parts.ts";
import { clockText } from "../../numbers.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import { placementReasonDe } from "./placement.ts";

const FORMS = "Eine Fahrzeit (1:08:05), `timer 1:06:30`, `clock 10:42:17`, `32.41 km` oder `lap 3` schreiben.";

function rideFact(fault: RideTimeFault): string {
  switch (fault.kind) {
    case "timer ends":
      return `ihre Laufzeit endet bei ${exactClockText(fault.atS)}`;
    case "ran":
      return `sie ging von ${exactClockText(fault.fromS)} bis ${exactClockText(fault.toS)} Ortszeit`;
    case "long in km":
      return `sie ist ${komma(fault.km, 2)} km lang`;
    case "distance unknown there":
      return "ihre Strecke ist dort nicht bekannt";
    case "laps":
      return fault.count === 0
        ? "sie hat keine Runden"
        : `sie hat ${fault.count === 1 ? "1 Runde" : `${fault.count} Runden`}`;
    case "long":
      return `sie dauert ${exactClockText(fault.elapsedS)}`;
  }
}

export const lineupFailures: FailureWords<LineupFailures> = {
  "placing-broke-off": () => ["Das Zuordnen der Clips brach ab.", "Noch einmal starten oder einen Anker setzen."],
  "anchor-form": ({ text }) => [
    `„${text}“ ist kein Anker.`,
    "CLIP@T=RIDE_T schreiben, zum Beispiel `ride.mp4@12.5=1:08:05`: dieser Augenblick des Clips ist dieser Augenblick der Fahrt.",
  ],
  "clip-instant-form": ({ text }) => [
    `„${text}“ ist kein Augenblick eines Clips.`,
    "CLIP@T schreiben, zum Beispiel `ride.mp4@12.5`: so viele Sekunden, oder h:mm:ss, in diesem Clip.",
  ],
  "anchor-clip-ambiguous": ({ name, paths }) => [
    `Der Clip „${name}“ des Ankers ist nicht eindeutig, es passen: ${paths.join(", ")}.`,
    "Mehr von seinem Pfad angeben.",
  ],
  "anchor-clip-unknown": ({ name, given }) =>
    given.length === 0
      ? [`Der Anker nennt den Clip „${name}“, und es ist kein Clip angegeben.`, "Auch diesen Clip angeben."]
      : [
          `Der Clip „${name}“ des Ankers ist nicht unter den angegebenen Clips (${given.join(", ")}).`,
          "Den Namen eines dieser Clips angeben.",
        ],
  "anchor-outside-clip": ({ fileName, text, durationS }) => [
    `Der Anker bei ${text} liegt außerhalb des Clips ${fileName}, der ${exactClockText(durationS)} lang ist.`,
    "Eine Zeit innerhalb des Clips angeben.",
  ],
  "ride-time-form": ({ text }) => [`„${text}“ ist kein Augenblick einer Fahrt.`, FORMS],
  "ride-time-outside": ({ text, rideName, fault }) => [
    `„${text}“ liegt außerhalb der Fahrt ${rideName}: ${rideFact(fault)}.`,
    FORMS,
  ],
  "ride-time-without-clock": ({ text, rideName, lack }) => [
    `„${text}“ ist nicht zu finden: die Fahrt ${rideName} ${lack === "date" ? "hat kein Datum" : "nennt weder Zeitzone noch Ort"}.`,
    "Stattdessen die Fahrzeit, die Laufzeit, die Strecke oder eine Runde angeben.",
  ],
  "ride-time-without-distance": ({ text, rideName }) => [
    `„${text}“ ist nicht zu finden: die Fahrt ${rideName} enthält keine Strecke.`,
    "Stattdessen die Fahrzeit, die Laufzeit, die Uhrzeit oder eine Runde angeben.",
  ],
  "lineup-open": ({ fileName, more, reason, exampleS, placesS }, door) => [
    `Wo ${fileName}${more > 0 ? ` (und ${more} weitere)` : ""} in die Fahrt gehört, ist nicht sicher: ${placementReasonDe(reason)}.`,
    door === "window"
      ? "Einen Anker an etwas setzen, das zu sehen ist, oder zustimmen, dass es so gezeigt wird."
      : `${placesS.length === 0 ? "" : `Beginnen könnte der Clip bei ${listed(placesS.map(clockText), "oder")} der Fahrt. `}Einen ` +
        `Anker an etwas setzen, das zu sehen ist: --anchor "${fileName}@${exampleS}=FAHRZEIT", mit dem, was der Radcomputer ` +
        `in dem Augenblick zeigte (1:08:05, "clock 10:42:17" …), oder es mit --accept-unsure so nehmen.`,
  ],
};

export const lineupNotes: NoteWords<LineupNotes> = {
  "clip-outside-ride": ({ fileName, reason }) =>
    `${fileName} zeigt nichts von der Fahrt: ${placementReasonDe(reason)}.`,
  "clip-begins-before": ({ fileName, byS }) =>
    `${fileName} beginnt ${exactClockText(byS)} vor der Fahrt: dort zeigen die Anzeigen Striche.`,
  "clip-ends-after": ({ fileName, byS }) =>
    `${fileName} endet ${exactClockText(byS)} nach der Fahrt: dort zeigen die Anzeigen Striche.`,
  "clips-overlap": ({ fileName, otherName, overlapS, sameCamera }) =>
    sameCamera
      ? `${fileName} und ${otherName} sind von einer Kamera, überschneiden sich aber um ${exactClockText(overlapS)}: bitte prüfen.`
      : `${fileName} und ${otherName} zeigen dieselben ${exactClockText(overlapS)} aus zwei Kameras.`,
  "anchor-against-clock": ({ fileName, awayS, clipUtcMs, rideUtcMs }) => {
    const days = otherDays(clipUtcMs, rideUtcMs, "de");
    return days === null
      ? `Der Anker in ${fileName} liegt ${exactClockText(Math.round(awayS))} von der Stelle entfernt, an die die Uhr der ` +
          "Kamera den Clip setzt: bitte noch einmal ansehen. Der Anker gilt."
      : `Nach der eigenen Uhrzeit ist ${fileName} vom ${days.clip}, die Fahrt vom ${days.ride}: ist es der richtige Clip? ` +
          "Der Anker gilt.";
  },
  "anchor-against-positions": ({ fileName, apartS }) =>
    `Der Anker in ${fileName} und die Positionen der Kamera weichen um ${komma(apartS, 1)} s voneinander ab: der Anker gilt.`,
  "file-given-twice": ({ fileName, sameAs }) =>
    fileName === sameAs
      ? `${fileName} wurde zweimal angegeben und zählt einmal.`
      : `${fileName} ist dieselbe Datei wie ${sameAs} unter anderem Namen und bleibt weg.`,
  "clip-small-copy": ({ fileName, bigName }) =>
    `${fileName} und ${bigName} sind dieselbe Aufnahme in zwei Größen, wie die Kamera sie schreibt: ${bigName} wird verwendet, ${fileName} weggelassen.`,
  "clip-by-anchored-clock": ({ fileName, reason }) =>
    `${fileName}: ${placementReasonDe(reason)}. Bitte einen Blick darauf werfen.`,
  "clip-telemetry-parts-unread": ({ fileName, unread, parts }) =>
    `${fileName}: ${unread} von ${parts} Teilen der Telemetriespur ließen sich nicht lesen.`,
  "clip-telemetry-without-places": ({ fileName }) =>
    `${fileName}: die Telemetriespur enthält keine Satellitenpositionen.`,
  "clip-telemetry-without-fix": ({ fileName }) =>
    `${fileName}: der Satellitenempfänger der Kamera hatte keinen verlässlichen Empfang, weder Zeit noch Ort.`,
  "clip-picture-still": ({ fileName }) =>
    `Das Bild von ${fileName} steht durchgehend still: es zeigt keine Bewegung, nach der es sich zuordnen ließe.`,
  "clip-without-sound": ({ fileName }) => `${fileName} hat keinen Ton, nach dem sich der Clip zuordnen ließe.`,
};
