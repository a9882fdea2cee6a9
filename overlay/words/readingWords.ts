import { clockText, durationText, type UnitSystem } from "./numbers.ts";

/**
 * The sentences that a reading is told in, plain enough to read aloud; for the coach, in English.
 *
 * The types below are the parts of a reading and of a ride's summary that words are made from: plain values, nothing of
 * the program's own. Null is "cannot be known" and is never told as a number.
 */
export interface SharesForWords {
  readonly inBandS: number;
  readonly belowS: number;
  readonly aboveS: number;
  readonly offS: number;
}

interface SpanForWords {
  readonly startS: number;
  readonly endS: number;
}

export interface MomentForWords extends SpanForWords {
  readonly kind: string;
  readonly reason: string;
  readonly rank: number;
  readonly numbers: Readonly<Record<string, number | null>>;
  readonly setBy: "computed" | "coach";
  readonly coachOnly: boolean;
}

export interface ReadingForWords {
  readonly setting: string;
  readonly bandW: { readonly low: number; readonly high: number; readonly target: number } | null;
  readonly counted: SpanForWords & { readonly source: string; readonly stretches: readonly SpanForWords[] };
  readonly pressure: SharesForWords & {
    readonly unknownS: number;
    readonly breaks: number;
    readonly lapses: number;
    readonly surges: number;
    readonly longestUnbrokenS: number;
    readonly longestUnbrokenStrictS: number;
    readonly byGradient: { readonly up: SharesForWords; readonly flat: SharesForWords; readonly down: SharesForWords } | null;
    readonly swing: number | null;
    readonly swingPedalling: number | null;
    readonly judgedBy: "power" | "heart" | null;
    readonly cranksKnown: boolean;
  };
  readonly cadence: { readonly meanRpm: number | null; readonly lowRpm: number | null; readonly highRpm: number | null };
  readonly drift: {
    readonly firstBpm: number | null;
    readonly firstAtS: number | null;
    readonly lastBpm: number | null;
    readonly lastAtS: number | null;
    readonly riseBeats: number | null;
    readonly risePercent: number | null;
    readonly driftBeats: number | null;
    readonly driftPercent: number | null;
    readonly uncertaintyBeats: number | null;
    readonly correctedForPower: boolean;
    readonly whyRiseDiffers: string | null;
    readonly powerToHeartHalvesPercent: number | null;
    readonly onsetS: number | null;
    readonly onsetLowS: number | null;
    readonly onsetHighS: number | null;
    readonly verdict: string;
    readonly confounds: readonly string[];
  };
  readonly target: {
    readonly eventS: number | null;
    readonly minimumS: number | null;
    readonly aimS: number | null;
    readonly heldWords: string;
  };
  readonly breaks: readonly { readonly reason: string | { readonly coach: string }; readonly excused: boolean | null }[];
  readonly moments: readonly MomentForWords[];
  readonly overrides: readonly { readonly what: string; readonly computed: unknown; readonly reason: string | null }[];
  readonly warnings: readonly string[];
}

export interface SummaryForWords {
  readonly file: string;
  readonly elapsedS: number;
  readonly distanceM: number | null;
  readonly ascentM: number | null;
  readonly power?: { readonly meanW: number | null } | null;
  readonly heartRate?: { readonly meanBpm: number | null } | null;
}

export interface WordChoices {
  readonly units?: UnitSystem;
  /** How many moments are told; 10 where nothing is said. */
  readonly moments?: number;
}

/** A length or a time to the minute, as people say it: `48 min`, `1 h 05`. */
export function spokenMinutes(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, "0")}`;
}

function speed(mps: number, units: UnitSystem): string {
  return units === "imperial" ? `${Math.round(mps * 2.236936)} mph` : `${Math.round(mps * 3.6)} km/h`;
}

function count(number: number, one: string, many = `${one}s`): string {
  return `${number === 0 ? "no" : number} ${number === 1 ? one : many}`;
}

/** The parts that are there, as one sentence that keeps its first letter. */
function parted(parts: readonly (string | null)[], joiner = ", "): string {
  const text = parts.filter((part) => part !== null && part !== "").join(joiner);
  return text === "" ? "" : `${text}.`;
}

/** What is said of a number, or null where there is none. */
function said(value: number | null | undefined, say: (value: number) => string): string | null {
  return value === null || value === undefined ? null : say(value);
}

function sentence(parts: readonly (string | null)[], joiner = ", "): string {
  const text = parted(parts, joiner);
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

const sourceWords: Readonly<Record<string, string>> = {
  plan: "as the plan says",
  laps: "as the laps pressed by hand say",
  "settled power": "where power settles into the band",
  "default minutes": "ten minutes off either end",
  coach: "set by coach",
};

/**
 * What `followcar read` prints: one plain sentence a line, in the order in which a coach tells a ride.
 *
 * An empty line parts the sections.
 */
export function readingText(reading: ReadingForWords, summary: SummaryForWords, choices: WordChoices = {}): string[] {
  const units = choices.units ?? "metric";
  const sections = [
    rideLines(reading, summary, units),
    pressureLines(reading),
    heartLines(reading),
    targetLines(reading),
    momentLines(reading, units, choices.moments ?? 10),
    reading.warnings.map((warning) => `Mind: ${warning}`),
  ];
  return sections.filter((lines) => lines.length > 0).flatMap((lines, index) => (index === 0 ? lines : ["", ...lines]));
}

function rideLines(reading: ReadingForWords, summary: SummaryForWords, units: UnitSystem): string[] {
  const far = summary.distanceM;
  const up = summary.ascentM;
  const lines = [
    parted([
      `${summary.file}: ${durationText(summary.elapsedS)}`,
      far === null ? null : units === "imperial" ? `${(far / 1609.344).toFixed(1)} miles` : `${(far / 1000).toFixed(1)} km`,
      up === null ? null : units === "imperial" ? `${Math.round(up / 0.3048)} feet of climbing` : `${Math.round(up)} m of climbing`,
      said(summary.power?.meanW, (watts) => `mean power ${Math.round(watts)} W`),
      said(summary.heartRate?.meanBpm, (bpm) => `mean heart rate ${Math.round(bpm)}`),
    ]),
  ];
  const { counted, bandW } = reading;
  const judgedS = counted.stretches.reduce((sum, stretch) => sum + stretch.endS - stretch.startS, 0);
  if (judgedS > 0) {
    const pieces = counted.stretches.length > 1 ? ` in ${counted.stretches.length} stretches` : "";
    const source = sourceWords[counted.source] ?? counted.source;
    lines.push(`Main part: ${clockText(counted.startS)} to ${clockText(counted.endS)}, ${durationText(judgedS)}${pieces} (${source}).`);
  }
  if (bandW) lines.push(`Asked for: ${Math.round(bandW.target)} W, between ${Math.round(bandW.low)} and ${Math.round(bandW.high)} W on this meter.`);
  return lines;
}

/** Whole percents that add up to 100 (largest remainders); the order of the parts is kept. */
function percents(parts: readonly number[]): number[] {
  const total = parts.reduce((sum, part) => sum + part, 0);
  if (total <= 0) return parts.map(() => 0);
  const exact = parts.map((part) => (100 * part) / total);
  const whole = exact.map(Math.floor);
  const order = exact.map((value, index) => ({ index, rest: value - Math.floor(value) })).sort((one, other) => other.rest - one.rest);
  const left = 100 - whole.reduce((sum, part) => sum + part, 0);
  for (const { index } of order.slice(0, left)) whole[index] = (whole[index]) + 1;
  return whole;
}

function pressureLines(reading: ReadingForWords): string[] {
  const { pressure, counted } = reading;
  if (counted.stretches.length === 0) return [];
  const lines: string[] = [];
  const { inBandS, belowS, aboveS, offS, unknownS } = pressure;
  if (pressure.judgedBy !== null) {
    const [inside, below, above, off, unknown] = percents([inBandS, belowS, aboveS, offS, unknownS]);
    const what = pressure.judgedBy === "power" ? "power's 30 s mean" : "heart rate's 30 s mean";
    lines.push(
      sentence([`in the band ${inside} % of the main part`, `below it ${below} %`, `above it ${above} %`, `off ${off} %`, unknown ? `not known ${unknown} %` : null])
        .replace(/\.$/, ` (${what}).`),
    );
  } else if (pressure.cranksKnown) {
    const [on, off, unknown] = percents([inBandS + belowS + aboveS, offS, unknownS]);
    lines.push(sentence([`pressure on the cranks ${on} % of the main part`, `off ${off} %`, unknown ? `not known ${unknown} %` : null]));
  }
  if (pressure.cranksKnown) {
    lines.push(breakSentence(reading));
    if (pressure.longestUnbrokenS > 0) {
      const strict = pressure.longestUnbrokenStrictS;
      lines.push(
        strict === pressure.longestUnbrokenS
          ? `Longest stretch without a break: ${durationText(strict)}.`
          : `Longest stretch without a break: ${durationText(strict)}; ${durationText(pressure.longestUnbrokenS)} when breaks with a fair reason are passed over.`,
      );
    }
  }
  if (pressure.judgedBy === "power") {
    lines.push(sentence([count(pressure.surges, "surge"), null]).replace(/\.$/, " of 5 s or more, a quarter or more over the target."));
  }
  if (pressure.judgedBy !== null && pressure.byGradient) {
    const tell = (name: string, shares: SharesForWords) => {
      const total = shares.inBandS + shares.belowS + shares.aboveS + shares.offS;
      if (total < 60) return null;
      const [inside, below, above, off] = percents([shares.inBandS, shares.belowS, shares.aboveS, shares.offS]);
      return `${name} in ${inside} %, below ${below} %, above ${above} %, off ${off} %`;
    };
    const { up, flat, down } = pressure.byGradient;
    lines.push(sentence([tell("uphill", up), tell("on the flat", flat), tell("downhill", down)], "; "));
  }
  if (pressure.swing !== null) {
    const pedalling = pressure.swingPedalling === null ? "" : `, ${pressure.swingPedalling.toFixed(2)} while pedalling`;
    lines.push(`Swing of power (SD over mean of single seconds): ${pressure.swing.toFixed(2)}${pedalling}.`);
  }
  const { meanRpm, lowRpm, highRpm } = reading.cadence;
  if (meanRpm !== null && lowRpm !== null && highRpm !== null) {
    lines.push(`Cadence while pedalling: ${Math.round(meanRpm)}, mostly between ${Math.round(lowRpm)} and ${Math.round(highRpm)}.`);
  }
  return lines.filter((line) => line !== "");
}

function breakSentence(reading: ReadingForWords): string {
  const { breaks, pressure } = reading;
  if (breaks.length === 0) return "No break in pressure of 3 s or more.";
  const byReason = new Map<string, number>();
  for (const one of breaks) {
    const reason = typeof one.reason === "string" ? one.reason : `${one.reason.coach} (set by coach)`;
    byReason.set(reason, (byReason.get(reason) ?? 0) + 1);
  }
  const told = [...byReason].sort((one, other) => other[1] - one[1]).map(([reason, times]) => `${times} ${reason.replace(",", "")}`);
  const lapses = pressure.lapses === 0 ? "no lapse" : count(pressure.lapses, "lapse");
  return `${breaks.length} ${breaks.length === 1 ? "break" : "breaks"} of 3 s or more: ${told.join(", ")}; ${lapses} of 10 s or more that nothing excuses.`;
}

function heartLines(reading: ReadingForWords): string[] {
  const { drift } = reading;
  const lines: string[] = [];
  if (drift.firstBpm !== null && drift.firstAtS !== null) lines.push(`First heart reading ${Math.round(drift.firstBpm)}, around ${clockText(drift.firstAtS)}.`);
  if (drift.lastBpm !== null && drift.lastAtS !== null) lines.push(`Last heart reading ${Math.round(drift.lastBpm)}, around ${clockText(drift.lastAtS)}.`);
  if (drift.riseBeats !== null && drift.risePercent !== null && drift.driftBeats !== null && drift.uncertaintyBeats !== null) {
    lines.push(`Rise as recorded: ${signedBeats(drift.riseBeats)} (${drift.risePercent.toFixed(1)} %).`);
    const give = Math.max(1, Math.round(drift.uncertaintyBeats));
    const atPower = drift.correctedForPower ? "Drift at equal power" : "Drift, not corrected for power";
    const shown = driftIsShown(drift);
    const why = drift.whyRiseDiffers === null ? "" : `; it differs from the rise because ${drift.whyRiseDiffers}`;
    const doubt = shown ? "" : "; that is no drift that one ride can show";
    lines.push(`${atPower}: ${signedBeats(drift.driftBeats)}, give or take ${give}${why}${doubt}.`);
  }
  if (drift.powerToHeartHalvesPercent !== null) {
    const percent = drift.powerToHeartHalvesPercent;
    const direction = percent >= 0 ? "fewer" : "more";
    lines.push(`Watts for each beat: ${Math.abs(percent).toFixed(1)} % ${direction} in the second half (good to about 1.5 %; halves show about half of a drift from end to end).`);
  }
  const onset = onsetSentence(reading);
  if (onset !== null) lines.push(onset);
  if (drift.confounds.length > 0) lines.push(`What else may play in: ${drift.confounds.join("; ")}.`);
  return lines;
}

/** Whether the drift between the two readings is more than one ride's noise: 3 beats, or the uncertainty if that is more. */
function driftIsShown({ driftBeats, uncertaintyBeats }: ReadingForWords["drift"]): boolean {
  return driftBeats !== null && uncertaintyBeats !== null && Math.abs(driftBeats) >= Math.max(3, uncertaintyBeats);
}

function signedBeats(beats: number): string {
  const whole = Math.round(beats);
  return `${whole > 0 ? "+" : ""}${whole === 0 ? 0 : whole} ${Math.abs(whole) === 1 ? "beat" : "beats"}`;
}

function onsetSentence({ drift, overrides }: ReadingForWords): string | null {
  const byCoach = overrides.some((one) => one.what === "onset") ? " (set by coach)" : "";
  switch (drift.verdict) {
    case "began":
      if (drift.onsetS === null || drift.onsetLowS === null || drift.onsetHighS === null) return null;
      if (byCoach) return `Drift began about ${spokenMinutes(drift.onsetS)} into the ride${byCoach}.`;
      return `Drift began about ${spokenMinutes(drift.onsetS)}, between ${spokenMinutes(drift.onsetLowS)} and ${spokenMinutes(drift.onsetHighS)}.`;
    case "start unclear":
      return drift.onsetLowS === null || drift.onsetHighS === null
        ? "The heart drifted, with no clear start."
        : `The heart drifted, with no clear start: somewhere between ${spokenMinutes(drift.onsetLowS)} and ${spokenMinutes(drift.onsetHighS)}.`;
    case "rose from the start":
      return "The heart rose from the start.";
    case "no drift shown":
      // The two readings may differ where the ride between them shows no steady rise.
      return !byCoach && driftIsShown(drift)
        ? "Between the two readings the ride shows no steady rise, so no start of a drift can be told."
        : `No drift that this ride can show${byCoach}.`;
    default:
      return drift.firstBpm === null && drift.lastBpm === null ? null : "When a drift began can't be told: there is not enough data.";
  }
}

function targetLines({ target, drift }: ReadingForWords): string[] {
  const lines: string[] = [];
  if (target.eventS !== null && target.minimumS !== null && target.aimS !== null) {
    lines.push(
      `The event takes ${spokenMinutes(target.eventS)}: it asks for at least ${spokenMinutes(target.minimumS)} without drift, better ${spokenMinutes(target.aimS)}.`,
    );
  }
  if (drift.verdict !== "not enough data" || target.eventS !== null) lines.push(`Held without drift: ${target.heldWords}.`);
  return lines;
}

function momentLines(reading: ReadingForWords, units: UnitSystem, most: number): string[] {
  const told = [...reading.moments].sort((one, other) => one.rank - other.rank).slice(0, most);
  if (told.length === 0) return [];
  const lines = [told.length < reading.moments.length ? `The ${told.length} moments to see first, of ${reading.moments.length}:` : "Moments:"];
  for (const moment of told) {
    const coach = moment.setBy === "coach" ? " (set by coach)" : "";
    lines.push(`  ${moment.rank}. ${clockText(moment.startS)}  ${momentWords(moment, units)}${coach}`);
  }
  if (told.some((moment) => moment.kind === "oddHeart")) lines.push(oddHeartCaution);
  return lines;
}

/** Said wherever an odd heart reading is shown. */
export const oddHeartCaution =
  "An odd heart reading could be the strap. This is not medical advice: stop and seek help for chest pain, faintness or a racing heart.";

/** One moment in a coach's words, without its time. */
export function momentWords(moment: MomentForWords, units: UnitSystem = "metric"): string {
  const n = (key: string): number | null => moment.numbers[key] ?? null;
  const list = (...parts: (string | null)[]) => parts.filter((part) => part !== null).join(", ");
  switch (moment.kind) {
    case "marked":
      return moment.reason;
    case "hardUpCoastOver":
      return list(`hard up, coast over: ${n("times") ?? 0} of ${n("rises") ?? 0} rises`, said(n("coastS"), (s) => `here off for ${Math.round(s)} s after the top`));
    case "breakRun":
      return list(`${n("breaks") ?? 0} breaks in ${durationText(n("durationS") ?? moment.endS - moment.startS)}`, said(n("offS"), (s) => `${Math.round(s)} s off in all`));
    case "lapse":
      return list(
        `off for ${durationText(n("durationS") ?? moment.endS - moment.startS)}`,
        moment.reason,
        said(n("speedBeforeMps"), (mps) => `at ${speed(mps, units)}`),
        said(n("powerBeforeW"), (watts) => `${Math.round(watts)} W before it`),
      );
    case "surge":
      return list(
        `surge ${moment.reason}: ${durationText(n("durationS") ?? moment.endS - moment.startS)} at ${Math.round(n("meanW") ?? 0)} W`,
        said(n("overTargetW"), (watts) => `${Math.round(watts)} W over the target`),
        said(n("peakW"), (watts) => `peak ${Math.round(watts)} W`),
      );
    case "driftOnset":
      return list("drift began about here", said(n("onsetLowS"), (low) => `between ${spokenMinutes(low)} and ${spokenMinutes(n("onsetHighS") ?? low)}`));
    case "oddHeart":
      return list(
        moment.reason === "spike" ? "odd heart reading" : "heart unlike earlier rides",
        said(n("byBeats"), (beats) => `${signedBeats(beats)} against ${Math.round(n("usualBpm") ?? 0)}`),
      );
    case "steadyStretch":
      return list(
        `pressure held for ${durationText(n("durationS") ?? moment.endS - moment.startS)}`,
        said(n("inBandPercent"), (percent) => `${Math.round(percent)} % of it in the band`),
        said(n("meanW"), (watts) => `${Math.round(watts)} W`),
      );
    case "turn":
      return list(moment.reason, said(n("slowestMps"), (mps) => `slowest ${speed(mps, units)}`));
    case "cadenceBlock":
      return list(
        `${moment.reason}: ${Math.round(n("meanRpm") ?? 0)} for ${durationText(n("durationS") ?? moment.endS - moment.startS)}`,
        said(n("usualRpm"), (rpm) => `${Math.round(rpm)} over the ride`),
      );
    default:
      return list(moment.kind, moment.reason === moment.kind ? null : moment.reason);
  }
}
