import type { Language, UnitSystem } from "../../../main/contract/languageAndUnits.ts";
import type { Notice } from "../../../main/contract/notice.ts";
import type { CountedSource, Reading } from "../../../main/contract/reading.ts";
import type { RideSummary } from "../../../main/contract/rideSummary.ts";
import { rideDateText } from "../dateText.ts";
import { clockText, durationText } from "../numbers.ts";
import { heartLines } from "./heartLines.ts";
import { baseLines } from "./baseLines.ts";
import { momentLines } from "./momentWords.ts";
import { pressureLines } from "./pressureLines.ts";
import { decimal, parted, said, sayIn, spokenMinutes } from "./sentence.ts";
import { heldText } from "./driftWords.ts";
import { noticeTexts } from "../notices/noticeText.ts";
import type { Door } from "../notices/tables.ts";

export interface WordChoices {
  /** English where nothing is said. */
  readonly language?: Language;
  readonly units?: UnitSystem;
  /** Where it is read; on the command line where nothing is said. */
  readonly door?: Door;
  /** How many lines of moments are told; 10 where nothing is said. */
  readonly moments?: number;
  /** False where a table by the hour stands beside. */
  readonly hours?: boolean;
  /** What is odd about the ride's file; said before what the reading can't show. */
  readonly oddInFile?: readonly Notice[];
}

/**
 * What `followcar read` prints: one plain sentence a line, in the order in which a coach tells a ride; for the coach, to
 * be read aloud. An empty line parts the sections.
 */
export function readingText(reading: Reading, summary: RideSummary, choices: WordChoices = {}): string[] {
  const units = choices.units ?? "metric";
  const language = choices.language ?? "en";
  const mind = (notices: readonly Notice[]) =>
    noticeTexts(notices, language, choices.door ?? "command").map(
      (warning) => `${sayIn(language)("Mind", "Zu beachten")}: ${warning}`,
    );
  // What takes the meaning from all that follows is said before it.
  const odd = choices.oddInFile ?? [];
  const first = odd.filter(({ code }) => code === "ride-other-sport");
  const sections = [
    [...rideLines(reading, summary, units, language), ...mind(first)],
    pressureLines(reading, language),
    heartLines(reading, language),
    baseLines(reading, units, choices.hours ?? true, language),
    targetLines(reading, language),
    momentLines(reading.moments, units, choices.moments ?? 10, language),
    mind([...odd.filter((one) => !first.includes(one)), ...reading.warnings]),
  ];
  return sections.filter((lines) => lines.length > 0).flatMap((lines, index) => (index === 0 ? lines : ["", ...lines]));
}

/** Minutes that do not count at either end where nothing says otherwise, s; a short ride gives up a quarter. */
const USUAL_END_S = 600;

const sourceWords: Readonly<Record<Language, Readonly<Record<CountedSource, string>>>> = {
  en: {
    plan: "as the plan says",
    laps: "as the laps pressed by hand say",
    "settled power": "where power settles into the band",
    "default minutes": "ten minutes off either end",
    coach: "set by coach",
  },
  de: {
    plan: "wie im Plan",
    laps: "nach den von Hand gedrückten Runden",
    "settled power": "ab da, wo die Leistung ins Band findet",
    "default minutes": "ohne die ersten und letzten zehn Minuten",
    coach: "vom Trainer gesetzt",
  },
};

/** `2026-05-17T10:42` as `17 May 2026, 10:42`. */
function localText(localStart: string, language: Language): string {
  return `${rideDateText(Date.parse(`${localStart}Z`), null, language)}, ${localStart.slice(11)}`;
}

function rideLines(reading: Reading, summary: RideSummary, units: UnitSystem, language: Language): string[] {
  const say = sayIn(language);
  const far = summary.distanceM;
  const up = summary.ascentM;
  const lines = [
    parted([
      `${summary.file}: ${summary.localStart === null ? "" : `${localText(summary.localStart, language)}, `}${durationText(summary.elapsedS)}`,
      far === null
        ? null
        : units === "imperial"
          ? `${decimal(far / 1609.344, 1, language)} ${say("miles", "Meilen")}`
          : `${decimal(far / 1000, 1, language)} km`,
      up === null
        ? null
        : units === "imperial"
          ? say(`${Math.round(up / 0.3048)} feet of climbing`, `${Math.round(up / 0.3048)} Fuß Anstieg`)
          : say(`${Math.round(up)} m of climbing`, `${Math.round(up)} Höhenmeter`),
      said(summary.power?.meanW, (watts) => `${say("mean power", "Leistung im Mittel")} ${Math.round(watts)} W`),
      said(summary.heartRate?.meanBpm, (bpm) => `${say("mean heart rate", "Puls im Mittel")} ${Math.round(bpm)}`),
    ]),
  ];
  const { counted, bandW } = reading;
  const judgedS = counted.stretches.reduce((sum, stretch) => sum + stretch.endS - stretch.startS, 0);
  if (judgedS > 0) {
    const count = counted.stretches.length;
    const pieces = count > 1 ? ` in ${count} ${say("stretches", "Stücken")}` : "";
    const usual = counted.source === "default minutes" && counted.startS < USUAL_END_S;
    const source = usual
      ? say("a quarter off either end", "ohne das erste und letzte Viertel")
      : sourceWords[language][counted.source];
    lines.push(
      `${say("Main part", "Hauptteil")}: ${clockText(counted.startS)} ${say("to", "bis")} ${clockText(counted.endS)}, ` +
        `${durationText(judgedS)}${pieces} (${source}).`,
    );
  }
  if (bandW) {
    const [target, low, high] = [bandW.target, bandW.low, bandW.high].map(Math.round);
    lines.push(
      say(
        `Asked for: ${target} W, between ${low} and ${high} W on this meter.`,
        `Verlangt waren ${target} W, mit diesem Leistungsmesser zwischen ${low} und ${high} W.`,
      ),
    );
  }
  return lines;
}

/** What is said of a heart that rose. */
const ROSE: ReadonlySet<string> = new Set(["not at all", "start unknown", "between"]);

function targetLines({ target, drift }: Reading, language: Language): string[] {
  const say = sayIn(language);
  const lines: string[] = [];
  if (target.eventS !== null && target.minimumS !== null && target.aimS !== null) {
    const [event, least, aim] = [target.eventS, target.minimumS, target.aimS].map(spokenMinutes);
    lines.push(
      say(
        `The event takes ${event}; rule of thumb: at least ${least} without drift, better ${aim}.`,
        `Das Ziel dauert ${event}; Faustregel: mindestens ${least} ohne Drift, besser ${aim}.`,
      ),
    );
  }
  if (drift.verdict !== "not enough data" || target.eventS !== null)
    lines.push(`${say("Held without drift", "Ohne Drift gehalten")}: ${heldText(target.held, language)}.`);
  if (!drift.correctedForPower && ROSE.has(target.held.kind))
    lines.push(say("Without power, riding harder looks the same.", "Ohne Leistung sieht härteres Fahren genauso aus."));
  return lines;
}
