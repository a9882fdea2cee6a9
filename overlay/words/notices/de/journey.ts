import type { JourneyFailures, JourneyNotes } from "../../../../main/contract/notices/journey.ts";
import { askedSentence } from "../../askedWords.ts";
import { debriefWords } from "../../debriefWords.ts";
import { topicsText } from "../../restDe.ts";
import { counted, lastName, listed } from "../parts.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import type { NoSharedRoad } from "../../../../main/contract/roads.ts";
import { clockText, durationText, filmTimeText } from "../../numbers.ts";

const INSTALL = {
  macOS: "`brew install ffmpeg` ausführen",
  Windows: "`winget install ffmpeg` ausführen",
  Linux: "`sudo apt-get install ffmpeg` ausführen",
} as const;

function whyNoRoad(why: NoSharedRoad, rideName: string, otherName: string): string {
  switch (why) {
    case "no places in A":
      return `${rideName} enthält keine Positionen; wo die Fahrt war, ist nicht bekannt.`;
    case "no places in B":
      return `${otherName} enthält keine Positionen; wo die Fahrt war, ist nicht bekannt.`;
    case "too short":
      return `${rideName} oder ${otherName} ist kürzer als die 200 m, die ein Vergleich braucht.`;
    case "far apart":
      return `${rideName} und ${otherName} liegen weit auseinander.`;
    case "opposite direction":
      return `${rideName} und ${otherName} sind auf derselben Straße in entgegengesetzter Richtung gefahren.`;
    case "other roads":
      return `${rideName} und ${otherName} haben keine 200 m Straße in gleicher Richtung gemeinsam.`;
  }
}

const spanText = ({ startS, endS }: { readonly startS: number; readonly endS: number }): string =>
  `${clockText(startS)} bis ${clockText(endS)}`;

/** What stays in the film, and what is said, though the rider's note comes before training. */
function teachesThough({ parts, timesS, ownLines }: JourneyNotes["film-teaches-though-note"]): string {
  const at = timesS.length === 0 ? "" : ` (bei ${timesS.map(clockText).join(", ")} der Fahrt)`;
  const film =
    parts === 0
      ? []
      : [
          `${parts === 1 ? "Ein Teil" : `${parts} Teile`} des eingestellten Films ${parts === 1 ? "zeigt" : "zeigen"} trotzdem, was zu ändern wäre${at}; ` +
            "von selbst fällt nichts weg, und was das Programm dazu sagt, wirft nichts vor.",
        ];
  const lines = { change: "dazu, was zu ändern ist,", next: "zur nächsten Ausfahrt" };
  const own =
    ownLines.length === 0
      ? []
      : [`Auch die eigenen Worte ${ownLines.map((one) => lines[one]).join(" und ")} bleiben stehen: Passen sie noch?`];
  return [...film, ...own].join(" ");
}

export const journeyFailures: FailureWords<JourneyFailures> = {
  "compare-ride-count": ({ count }) => [
    `Ein Vergleich braucht zwei Fahrten; ${count === 0 ? "es wurde keine" : count === 1 ? "es wurde eine" : `es wurden ${count}`} angegeben.`,
    "Zwei Fahrtdateien nennen; von der ersten ist die Rede.",
  ],
  "roads-not-shared": ({ rideName, otherName, why }) => [
    whyNoRoad(why, rideName, otherName),
    "Zwei Fahrten wählen, die eine Straße in derselben Richtung gefahren sind.",
  ],
  "stretch-not-shared": ({ rideName, otherName, fromS, toS, shared }) => [
    `${otherName} ist ${spanText({ startS: fromS, endS: toS })} von ${rideName} nicht ganz und in einem Zug gefahren.`,
    `Gemeinsam sind ${shared.map(spanText).join(", ")} (Fahrtzeit von ${rideName}): eine Strecke darin wählen.`,
  ],
  "stretch-backwards": ({ fromS, toS }, door) => [
    `Die Strecke würde bei ${clockText(toS)} enden, vor ihrem Anfang bei ${clockText(fromS)}.`,
    door === "window" ? "Ein späteres Ende wählen." : "Mit --to einen späteren Ort angeben.",
  ],
  "stretch-too-long": ({ lengthS, mostS }, door) => [
    `Die Strecke dauert ${durationText(lengthS)}; ein Film davon würde zu lang.`,
    door === "window"
      ? `Höchstens ${durationText(mostS)} wählen.`
      : `Mit --from und --to höchstens ${durationText(mostS)} wählen, oder --out weglassen: dann kommt nur die Tabelle.`,
  ],
  "pass-unknown": ({ rideName, otherName, pass, passes }, door) => [
    `${door === "window" ? "" : "--pass "}${pass}: ${otherName} ist diese Strecke von ${rideName} ${passes === 1 ? "einmal" : `${passes}-mal`} gefahren.`,
    `Eine Zahl von 1 bis ${passes} angeben.`,
  ],
  "plan-file-unreadable": ({ path }) => [
    `Der Plan ${path} lässt sich nicht lesen.`,
    "Den Pfad und seine Rechte prüfen.",
  ],
  "plan-file-no-json": ({ path, said }, door) => [
    `Der Plan ${path} ist kein JSON (${said}).`,
    door === "window" ? "Die Datei berichtigen." : "Die Datei berichtigen oder `followcar plan --help` ansehen.",
  ],
  "still-outside-film": ({ atS, lengthS }, door) => [
    `${door === "window" ? "" : "--at "}${filmTimeText(atS)} liegt außerhalb des Films, der ${filmTimeText(lengthS)} lang ist.`,
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
  "no-break-there": ({ atS, nearest }, door) =>
    nearest === null
      ? [
          `Bei ${clockText(atS)} ist keine Druckpause, und auch sonst nirgends in dieser Fahrt.`,
          "Zu beurteilen ist hier keine.",
        ]
      : [
          `Bei ${clockText(atS)} ist keine Druckpause; die nächste beginnt bei ${clockText(nearest.startS)} und dauert ` +
            `${durationText(nearest.endS - nearest.startS)}.`,
          door === "window"
            ? "Eine aus der Liste wählen."
            : `Ist diese gemeint: --break ${clockText(nearest.startS)}=GRUND. Mit der Zielleistung der Nachbesprechung listet ` +
              "`followcar read RIDE --breaks` alle ab 10 s.",
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

const spanOfClip = ({ fileName, fromS, toS }: JourneyNotes["film-without-footage"]["clips"][number]): string =>
  `${fileName} (${clockText(fromS)} bis ${clockText(toS)})`;

export const journeyNotes: NoteWords<JourneyNotes> = {
  "film-without-footage": ({ clips }, door) =>
    `Von ${listed(clips.map(spanOfClip), "oder")} ist nichts im Film: er besteht nur aus Tafeln, weil kein Moment, den er ` +
    `erzählt, gefilmt wurde. Ein eigener Moment kommt hinein mit ${door === "window" ? "`A` in Skim" : "`followcar open`, `A` in Skim"}.`,
  "earlier-run-kept": ({ folder, anchors, overrides, ownLines, ownFilm }, door) =>
    `In ${lastName(folder)} steht eine Nachbesprechung von vorher, und was dort entschieden wurde, gilt: ${listed(
      [
        ...(anchors === 0 ? [] : [counted(anchors, "Anker", "Anker")]),
        ...(overrides === 0 ? [] : [counted(overrides, "Urteil", "Urteile")]),
        ...(ownLines === 0 ? [] : [counted(ownLines, "eigener Satz", "eigene Sätze")]),
        ...(ownFilm ? ["der Film, wie er geschnitten wurde"] : []),
      ],
      "und",
    )}. In einem anderen Ordner${door === "window" ? "" : " (--out)"} beginnt sie von vorn.`,
  "road-ridden-often": ({ rideName, otherName, passes, pass }, door) =>
    `${otherName} ist diese Strecke von ${rideName} ${passes}-mal gefahren; verglichen wird Mal ${pass}.` +
    (door === "window" ? "" : " --pass wählt ein anderes."),
  "compared-with-itself": ({ rideName, otherName }) =>
    `${rideName} und ${otherName} sind ein und dieselbe Fahrt: jeder Unterschied ist 0.`,
  "pair-side-unfilmed": ({ rideName, fromS, toS }) =>
    `Von ${clockText(fromS)} bis ${clockText(toS)} zeigt kein Clip ${rideName}: dort ist seine Hälfte eine Karte.`,
  "clip-beside-stretch": ({ fileName }) => `${fileName} zeigt nichts von dieser Strecke und bleibt weg.`,
  "roads-not-compared": ({ debriefs }) =>
    `Mehrfach gefahrene Straßen: ${listed(debriefs, "und")} ${debriefs.length === 1 ? "wird" : "werden"} nicht verglichen; ` +
    "die Fahrtdatei liegt nicht mehr dort, wo sie war.",
  "debriefs-of-one-ride": ({ debriefs, counted }) =>
    `${listed(debriefs, "und")} sind von ein und derselben Fahrt: Sie zählt einmal, so wie in ${counted}, zuletzt gesichert.`,
  // Worded where notices are worded: it holds another one.
  "of-ride": ({ ridePath }) => ridePath,
  "athlete-file-elsewhere": ({ path }) => `Nicht gelöscht, weil es anderswo liegt: ${path}.`,
  "film-letters-missing": ({ letters }) =>
    `Der Schrift des Films fehlt ${letters.join(" ")}: eine andere Schrift dieses Rechners zeichnet das. Bitte den Film ansehen.`,
  "asked-open": ({ asked, timesS }) =>
    askedSentence(asked, timesS, "de", (kind) => debriefWords("de").momentName(kind)),
  "film-teaches-though-note": (facts, door) =>
    `Die Notiz des Fahrers spricht von ${topicsText(facts.topics)}. ${teachesThough(facts)}` +
    (facts.parts === 0
      ? ""
      : door === "window"
        ? " In Build und in Hand over lässt ein Knopf die Teile weg."
        : " followcar render DEBRIEF --no-teaching lässt die Teile weg."),
  "lesson-without-target": () =>
    "Der Plan hat kein Ziel: Watt lassen sich nicht als Anteil davon angeben und stehen da, wie sie sind.",
  "lesson-carries-speech": () => "Die Lektion enthält Sprache: vor dem Weitergeben auf Namen hören.",
  "lesson-shows-surroundings": () => "Gesichter, Häuser und Kennzeichen sind im Bild: das vor dem Weitergeben prüfen.",
};
