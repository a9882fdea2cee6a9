import type { HeartTrouble, ReadingFailures, ReadingNotes } from "../../../../main/contract/notices/reading.ts";
import { clockText } from "../../numbers.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import { formFaultDe } from "./formFault.ts";

const TROUBLES: Readonly<Record<HeartTrouble, string>> = {
  stop: "Ein Halt hat gestört",
  missing: "Der Puls fehlte",
  "not settled": "Der Puls hatte sich noch nicht eingependelt",
  "never settled": "Der Puls hat sich nie eingependelt",
};
const MISSING = {
  "speed and position": "fehlen Geschwindigkeit und Position",
  position: "fehlt die Position",
  speed: "fehlt die Geschwindigkeit",
} as const;
const WHICH = { first: "erste", last: "letzte" } as const;
const WHERE = { road: "auf der Straße", trainer: "auf der Rolle" } as const;

export const readingFailures: FailureWords<ReadingFailures> = {
  "plan-unusable": ({ fileName, fault }, door) => [
    `Der Plan ${fileName} lässt sich nicht verwenden: ${formFaultDe(fault)}.`,
    (fault.kind === "not JSON" || fault.path === "" ? "Die Datei" : "Diesen Schlüssel") +
      (door === "window"
        ? " berichtigen."
        : " berichtigen; `followcar plan --help` nennt alle Schlüssel mit ihren Einheiten."),
  ],
};

export const readingNotes: NoteWords<ReadingNotes> = {
  "reading-without-power-and-cadence": () =>
    "In der Datei fehlen Leistung und Trittfrequenz: Druckpausen sind nicht zu erkennen.",
  "reading-without-power": () =>
    "In der Datei fehlt die Leistung: Druckpausen werden an Trittfrequenz 0 erkannt, und die Drift ist nicht um die Leistung bereinigt.",
  "reading-without-target": (_, door) =>
    "Es gibt keine Zielleistung: Zeit im, unter und über dem Band und Antritte brauchen eine. " +
    (door === "window" ? "Unter „Was gefragt war“ angeben." : "Mit --target angeben, zum Beispiel --target 160."),
  "reading-target-offer": ({ meanW, startS, endS }) =>
    `Die gleichmäßigste Stunde (${clockText(startS)} bis ${clockText(endS)}) hatte im Mittel ${Math.round(meanW)} W: ein Anfang für ein Ziel, noch keines.`,
  "reading-target-doubt": (doubt, door) =>
    (doubt.by === "power"
      ? `Das Ziel passt offenbar nicht zu dieser Fahrt: verlangt ${doubt.askedW} W, gefahren ${doubt.riddenW} W. `
      : `Der geplante Puls passt offenbar nicht zu dieser Fahrt: verlangt ${doubt.lowBpm} bis ${doubt.highBpm}, gefahren ${doubt.riddenBpm}. `) +
    (door === "window"
      ? "Das richtige unter „Was gefragt war“ angeben, oder dabei bleiben und unter „Übergeben“ die nächste Ausfahrt selbst bestimmen."
      : `Das richtige mit ${doubt.by === "power" ? "--target" : "--plan"} angeben, oder dabei bleiben und ` +
        "die nächste Ausfahrt selbst bestimmen: followcar say DEBRIEF --next-length MIN."),
  "reading-indoors": (_, door) =>
    `Laut Datei wurde drinnen gefahren: Die Straße entschuldigt nichts, und ` +
    `Druckpausen ohne sichtbaren Grund sind „nicht zu sagen“. Falls es die Rolle war, bitte ` +
    `${door === "window" ? "unter „Was gefragt war“" : "mit --setting trainer"} angeben.`,
  "reading-without-heart-band": () => "Ohne Leistung braucht die Zeit im Band einen Pulsbereich im Plan.",
  "reading-without-heart": () => "In der Datei fehlt der Puls: keine Pulswerte und keine Drift.",
  "reading-without-cadence": () => "In der Datei fehlt die Trittfrequenz.",
  "reading-without-movement": ({ missing }, door) => {
    const trainer = door === "window" ? "bitte unter „Was gefragt war“ angeben" : "bitte mit --setting trainer angeben";
    return (
      `In der Datei ${MISSING[missing]}: Eine Druckpause ohne sichtbaren Grund ist „nicht zu sagen“.` +
      `${missing === "speed" ? "" : ` Falls auf der Rolle gefahren wurde, ${trainer}.`}`
    );
  },
  "reading-without-altitude": () =>
    "In der Datei fehlt die Höhe: Druckpausen bei hohem Tempo können Abfahrten sein und sind „nicht zu sagen“.",
  "reading-in-group": () =>
    "In der Gruppe ist eine Druckpause ohne Grund „nicht zu sagen“: Am Hinterrad nachzulassen ist gut gefahren.",
  "reading-pressure-unknown": () =>
    "Leistung und Trittfrequenz fehlen in fast dem ganzen Hauptteil: Druckpausen sind nicht zu erkennen.",
  "reading-own-steps": ({ breaks, drift }) =>
    "Der Radcomputer hat in eigenen Abständen aufgezeichnet: " +
    (breaks
      ? `Druckpausen unter 10 s sind nicht zu erkennen${drift ? ", und der Beginn einer Drift nicht auf die Minute" : ""}.`
      : "Der Beginn einer Drift ist nicht auf die Minute zu sagen."),
  "reading-nothing-counts": () => "Von dieser Fahrt zählt nichts: Ihr Hauptteil enthält so gut wie keine Einträge.",
  "heart-mostly-missing": ({ percent }) =>
    `In ${Math.round(percent)} % des Hauptteils fehlt der Puls: Es wird keine Drift angegeben.`,
  "heart-of-longest-part": ({ startS, endS }) =>
    `Pulswerte und Drift gelten für ${clockText(startS)} bis ${clockText(endS)}, das längste Stück ohne einen Halt von mehr als 5 Minuten.`,
  "heart-part-too-short": () => "Der Hauptteil ist zu kurz für zwei Pulswerte und eine Drift.",
  "heart-reading-absent": ({ which, why }) =>
    `Es gibt keinen ${which === "first" ? "ersten" : "letzten"} Pulswert: ${why === null ? "Der Hauptteil ist zu kurz" : TROUBLES[why]}.`,
  "heart-reading-moved": ({ which, why }) => `Der ${WHICH[which]} Pulswert ist verschoben: ${TROUBLES[why]}.`,
  "onset-too-few-minutes": ({ minutes, needed }) =>
    `Es gibt ${minutes === 1 ? "1 volle Minute" : `${minutes} volle Minuten`} gleichmäßiger Fahrt; der Beginn einer Drift braucht ${needed}.`,
  "onset-minutes-left-out": ({ asked, lostToStops, lostToData }) => {
    const lost = lostToStops + lostToData;
    const parts = [
      lostToStops > 0 ? `${lostToStops} mit einem Halt` : null,
      lostToData > 0 ? `${lostToData} mit fehlenden Daten` : null,
    ].filter((part) => part !== null);
    return `Der Beginn einer Drift wurde in ${asked - lost} von ${asked} Minuten gesucht; weggelassen: ${parts.join(" und ")}.`;
  },
  "onset-usual-power-effect": ({ beatsPerWatt }) =>
    `Diese Fahrt zeigt nicht, wie der Puls der Leistung folgt; dafür stehen die üblichen ${String(beatsPerWatt).replace(".", ",")} Schläge je Watt.`,
  "override-without-time": () =>
    "Der Hauptteil, den der Trainer gesetzt hat, lässt sich nicht verwenden: Er enthält keine Zeit dieser Fahrt.",
  "target-all-later": ({ where }) =>
    `Jedes Ziel des Sportlers ${WHERE[where]} stammt aus der Zeit nach dieser Fahrt, also gilt keines.`,
  "target-old": ({ where, targetW, source, date, weeks }) =>
    `Das Ziel von ${targetW} W ${WHERE[where]}${source === null ? "" : ` (${source})`} ist vom ${date}, ${weeks} Wochen vor dieser Fahrt: Bitte neu bestimmen.`,
  "target-other-meter": ({ where, targetW, foundMeter, meter }) =>
    `Das Ziel von ${targetW} W ${WHERE[where]} wurde mit einem anderen Leistungsmesser bestimmt (` +
    `${foundMeter}; jetzt ${meter}): Die beiden weichen um einige Watt voneinander ab.`,
};
