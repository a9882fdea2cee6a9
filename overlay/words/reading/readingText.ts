import type { UnitSystem } from "../../../main/contract/languageAndUnits.ts";
import type { Notice } from "../../../main/contract/notice.ts";
import type { Reading } from "../../../main/contract/reading.ts";
import type { RideSummary } from "../../../main/contract/rideSummary.ts";
import { rideDateText } from "../dateText.ts";
import { clockText, durationText } from "../numbers.ts";
import { heartLines } from "./heartLines.ts";
import { baseLines } from "./baseLines.ts";
import { momentLines } from "./momentWords.ts";
import { pressureLines } from "./pressureLines.ts";
import { parted, said, spokenMinutes } from "./sentence.ts";
import { heldText } from "./driftWords.ts";
import { noticeTexts } from "../notices/noticeText.ts";
import type { Door } from "../notices/tables.ts";

export interface WordChoices {
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
 * What `followcar read` prints: one plain sentence a line, in the order in which a coach tells a ride; for the coach, in
 * English, to be read aloud. An empty line parts the sections.
 */
export function readingText(reading: Reading, summary: RideSummary, choices: WordChoices = {}): string[] {
  const units = choices.units ?? "metric";
  const sections = [
    rideLines(reading, summary, units),
    pressureLines(reading),
    heartLines(reading),
    baseLines(reading, units, choices.hours ?? true),
    targetLines(reading),
    momentLines(reading.moments, units, choices.moments ?? 10),
    noticeTexts([...(choices.oddInFile ?? []), ...reading.warnings], "en", choices.door ?? "command").map(
      (warning) => `Mind: ${warning}`,
    ),
  ];
  return sections.filter((lines) => lines.length > 0).flatMap((lines, index) => (index === 0 ? lines : ["", ...lines]));
}

const sourceWords: Readonly<Record<string, string>> = {
  plan: "as the plan says",
  laps: "as the laps pressed by hand say",
  "settled power": "where power settles into the band",
  "default minutes": "ten minutes off either end",
  coach: "set by coach",
};

/** `2026-05-17T10:42` as `17 May 2026, 10:42`. */
function localText(localStart: string): string {
  return `${rideDateText(Date.parse(`${localStart}Z`), null, "en")}, ${localStart.slice(11)}`;
}

function rideLines(reading: Reading, summary: RideSummary, units: UnitSystem): string[] {
  const far = summary.distanceM;
  const up = summary.ascentM;
  const lines = [
    parted([
      `${summary.file}: ${summary.localStart === null ? "" : `${localText(summary.localStart)}, `}${durationText(summary.elapsedS)}`,
      far === null
        ? null
        : units === "imperial"
          ? `${(far / 1609.344).toFixed(1)} miles`
          : `${(far / 1000).toFixed(1)} km`,
      up === null
        ? null
        : units === "imperial"
          ? `${Math.round(up / 0.3048)} feet of climbing`
          : `${Math.round(up)} m of climbing`,
      said(summary.power?.meanW, (watts) => `mean power ${Math.round(watts)} W`),
      said(summary.heartRate?.meanBpm, (bpm) => `mean heart rate ${Math.round(bpm)}`),
    ]),
  ];
  const { counted, bandW } = reading;
  const judgedS = counted.stretches.reduce((sum, stretch) => sum + stretch.endS - stretch.startS, 0);
  if (judgedS > 0) {
    const pieces = counted.stretches.length > 1 ? ` in ${counted.stretches.length} stretches` : "";
    const source = sourceWords[counted.source] ?? counted.source;
    lines.push(
      `Main part: ${clockText(counted.startS)} to ${clockText(counted.endS)}, ${durationText(judgedS)}${pieces} (${source}).`,
    );
  }
  if (bandW)
    lines.push(
      `Asked for: ${Math.round(bandW.target)} W, between ${Math.round(bandW.low)} and ${Math.round(bandW.high)} W on this meter.`,
    );
  return lines;
}

function targetLines({ target, drift }: Reading): string[] {
  const lines: string[] = [];
  if (target.eventS !== null && target.minimumS !== null && target.aimS !== null) {
    lines.push(
      `The event takes ${spokenMinutes(target.eventS)}: it asks for at least ${spokenMinutes(target.minimumS)} ` +
        `without drift, better ${spokenMinutes(target.aimS)}.`,
    );
  }
  if (drift.verdict !== "not enough data" || target.eventS !== null)
    lines.push(`Held without drift: ${heldText(target.held, "en")}.`);
  return lines;
}
