import type { Language, UnitSystem } from "../../../main/contract/languageAndUnits.ts";
import type { BreakReason, Moment } from "../../../main/contract/reading.ts";
import { clockText, durationText } from "../numbers.ts";
import { said, sayIn, spokenMinutes, spokenSpeed, type Say } from "./sentence.ts";

/** Said wherever an odd heart reading is shown. */
const oddHeartCaution: Readonly<Record<Language, string>> = {
  en: "An odd heart reading could be the strap. This is not medical advice: stop and seek help for chest pain, faintness or a racing heart.",
  de:
    "Ein auffälliger Puls kann am Brustgurt liegen. Das ist kein ärztlicher Rat: Bei Brustschmerz, Schwindel oder " +
    "Herzrasen anhalten und Hilfe holen.",
};

const REASONS_DE: Readonly<Record<Exclude<BreakReason, object>, string>> = {
  stopped: "angehalten",
  corner: "Kurve",
  braking: "gebremst",
  "steep descent": "steile Abfahrt",
  "slowed, cause not in the data": "langsamer geworden, Grund nicht in den Daten",
  unexplained: "ohne sichtbaren Grund",
  "cannot tell": "nicht zu sagen",
  "planned rest": "geplante Pause",
};

/** A break's reason as it stands in a sentence; a coach's own words stay as they are. */
export function breakReasonWords(reason: string, language: Language): string {
  if (language === "de")
    return Object.hasOwn(REASONS_DE, reason) ? REASONS_DE[reason as keyof typeof REASONS_DE] : reason;
  return reason === "slowed, cause not in the data" ? "slowed with no cause in the data" : reason;
}

/** What else makes a moment, by the code in its `reason`. */
const MOMENT_REASONS_DE: ReadonlyMap<string, string> = new Map([
  ["lap pressed by hand", "Runde von Hand gedrückt"],
  ["on a rise", "an einem Anstieg"],
  ["above the band", "über dem Band"],
  ["U-turn", "Wende"],
  ["tight turn", "enge Kehre"],
  ["high cadence", "hohe Trittfrequenz"],
  ["low cadence", "niedrige Trittfrequenz"],
]);

/** A coach's own words stay as they are. */
export function momentReason(reason: string, language: Language): string {
  return language === "de" ? (MOMENT_REASONS_DE.get(reason) ?? reason) : reason;
}
/** So many of a kind are told one by one: with the third a coach has seen what it is. Own choice. */
const TOLD_OF_A_KIND = 3;

type OneAndMany = readonly [one: string, many: string];

/** What is counted instead of told, one and many. */
const KINDS: Readonly<Record<Language, Readonly<Record<string, OneAndMany>>>> = {
  en: {
    riseThenOff: [
      "time above the plan uphill, no pressure over the top",
      "times above the plan uphill, no pressure over the top",
    ],
    breakRun: ["run of breaks", "runs of breaks"],
    lapse: ["lapse", "lapses"],
    surge: ["surge", "surges"],
    oddHeart: ["odd heart reading", "odd heart readings"],
    steadyStretch: ["stretch of pressure held", "stretches of pressure held"],
    turn: ["tight turn", "tight turns"],
    cadenceBlock: ["block of another cadence", "blocks of another cadence"],
    effortShort: ["planned effort below the plan", "planned efforts below the plan"],
    marked: ["mark", "marks"],
  },
  de: {
    riseThenOff: [
      "mal über dem Plan hinauf und oben nicht mehr getreten",
      "mal über dem Plan hinauf und oben nicht mehr getreten",
    ],
    breakRun: ["Folge von Druckpausen", "Folgen von Druckpausen"],
    lapse: ["Druckpause ohne Grund", "Druckpausen ohne Grund"],
    surge: ["Antritt", "Antritte"],
    oddHeart: ["auffälliger Puls", "Stellen mit auffälligem Puls"],
    steadyStretch: ["Stück mit gehaltenem Druck", "Stücke mit gehaltenem Druck"],
    turn: ["enge Kehre", "enge Kehren"],
    cadenceBlock: ["Block mit anderer Trittfrequenz", "Blöcke mit anderer Trittfrequenz"],
    effortShort: ["harter Block unter dem Plan", "harte Blöcke unter dem Plan"],
    marked: ["Markierung", "Markierungen"],
  },
};

/**
 * What a coach looks at first, by rank: at most `most` lines and three of a kind; the rest is counted in a last line. Laps
 * pressed by hand are told in one line, so that a ride with many of them still shows what else is worth seeing.
 */
export function momentLines(moments: readonly Moment[], units: UnitSystem, most: number, language: Language): string[] {
  const say = sayIn(language);
  const ranked = [...moments].sort((one, other) => one.rank - other.rank);
  const entries = ranked.reduce<[Moment, ...Moment[]][]>((lines, moment) => {
    const same =
      moment.kind === "marked"
        ? lines.find(
            ([first]) => first.kind === "marked" && first.reason === moment.reason && first.setBy === moment.setBy,
          )
        : undefined;
    if (same === undefined) return [...lines, [moment]];
    same.push(moment);
    return lines;
  }, []);
  const ofKind = new Map<string, number>();
  const told = entries
    .filter(([{ kind, setBy }]) => {
      const nth = (ofKind.get(kind) ?? 0) + 1;
      ofKind.set(kind, nth);
      return nth <= TOLD_OF_A_KIND || setBy === "coach";
    })
    .slice(0, most);
  if (told.length === 0) return [];
  const lines = told.map(([moment, ...more], index) => {
    const also =
      more.length === 0
        ? ""
        : `, ${say("also at", "auch bei")} ${more.map(({ startS }) => clockText(startS)).join(", ")}`;
    const by = moment.setBy === "coach" ? say(" (set by coach)", " (vom Trainer gesetzt)") : "";
    return `  ${index + 1}. ${clockText(moment.startS)}  ${momentWords(moment, units, language)}${also}${by}`;
  });
  const shown = told.reduce((sum, entry) => sum + entry.length, 0);
  return [
    headLine(told.length, shown, moments.length, language),
    ...lines,
    ...restLines(moments, told.flat(), language),
    ...(told.some(([{ kind }]) => kind === "oddHeart") ? [oddHeartCaution[language]] : []),
  ];
}

/** How many lines follow, and how many of all moments they tell: one line may tell several. */
function headLine(lines: number, shown: number, all: number, language: Language): string {
  const say = sayIn(language);
  if (shown === all) return say("Moments:", "Momente zum Ansehen:");
  if (shown > lines)
    return say(
      `The ${lines === 1 ? "one" : lines} to see first (${shown} of ${all} moments):`,
      `${lines === 1 ? "Zuerst anzusehen" : `Die ersten ${lines} zum Ansehen`} (${shown} von ${all} Momenten):`,
    );
  return say(
    `${shown === 1 ? "The moment to see first" : `The ${shown} moments to see first`}, of ${all}:`,
    `${shown === 1 ? "Der erste" : `Die ersten ${shown}`} von ${all} Momenten zum Ansehen:`,
  );
}

/** How many of each kind are not told, in one line; none where all are. */
function restLines(moments: readonly Moment[], told: readonly Moment[], language: Language): string[] {
  const counts = new Map<string, number>();
  for (const { kind } of moments) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  for (const { kind } of told) counts.set(kind, (counts.get(kind) ?? 0) - 1);
  const parts = [...counts]
    .filter(([, left]) => left > 0)
    .map(([kind, left]) => `${left} ${(KINDS[language][kind] ?? [kind, kind])[left === 1 ? 0 : 1]}`);
  const head = sayIn(language)("Not listed", "Nicht aufgeführt");
  return parts.length === 0 ? [] : [`  ${head}: ${parts.join(", ")}.`];
}

/** One moment in a coach's words, without its time. */
export function momentWords(moment: Moment, units: UnitSystem = "metric", language: Language = "en"): string {
  const say = sayIn(language);
  const n = (key: string): number | null => moment.numbers[key] ?? null;
  const list = (...parts: (string | null)[]): string => parts.filter((part) => part !== null).join(", ");
  const lasting = durationText(n("durationS") ?? moment.endS - moment.startS);
  switch (moment.kind) {
    case "marked":
      return momentReason(moment.reason, language);
    case "riseThenOff":
      return list(
        say(
          `above the plan uphill, no pressure over the top: ${n("times") ?? 0} of ${n("rises") ?? 0} rises`,
          `über dem Plan hinauf, oben nicht mehr getreten: an ${n("times") ?? 0} von ${n("rises") ?? 0} Anstiegen`,
        ),
        said(n("coastS"), (s) =>
          say(`here for ${Math.round(s)} s after the top`, `hier nach der Kuppe ${Math.round(s)} s lang ohne Druck`),
        ),
      );
    case "breakRun":
      return list(
        say(`${n("breaks") ?? 0} breaks in ${lasting}`, `${n("breaks") ?? 0} Druckpausen in ${lasting}`),
        said(n("offS"), (s) =>
          say(`no pressure for ${durationText(s)} in all`, `zusammen ${durationText(s)} ohne Druck`),
        ),
      );
    case "lapse":
      return list(
        say(`no pressure for ${lasting}`, `${lasting} ohne Druck`),
        breakReasonWords(moment.reason, language),
        said(n("speedBeforeMps"), (mps) => `${say("at", "bei")} ${spokenSpeed(mps, units)}`),
        said(n("powerBeforeW"), (watts) => say(`${Math.round(watts)} W before it`, `davor ${Math.round(watts)} W`)),
      );
    case "surge":
      return list(
        say(
          `surge ${moment.reason}: ${lasting} at ${Math.round(n("meanW") ?? 0)} W`,
          `Antritt ${momentReason(moment.reason, language)}: ${lasting} mit ${Math.round(n("meanW") ?? 0)} W`,
        ),
        said(n("overTargetW"), (watts) =>
          say(`${Math.round(watts)} W over the target`, `${Math.round(watts)} W über der Zielleistung`),
        ),
        said(n("peakW"), (watts) => say(`peak ${Math.round(watts)} W`, `in der Spitze ${Math.round(watts)} W`)),
      );
    case "driftOnset":
      return list(
        say("drift began about here", "etwa hier begann die Drift"),
        said(n("onsetLowS"), (low) => {
          const high = spokenMinutes(n("onsetHighS") ?? low);
          return say(`between ${spokenMinutes(low)} and ${high}`, `zwischen ${spokenMinutes(low)} und ${high}`);
        }),
      );
    case "oddHeart":
      return moment.reason === "spike"
        ? list(
            say("odd heart reading", "auffälliger Puls"),
            said(n("byBeats"), (beats) => {
              const usual = Math.round(n("usualBpm") ?? 0);
              return aside(beats, say(`the ${usual} around it`, `den ${usual} ringsum`), say);
            }),
          )
        : list(
            say("heart unlike earlier rides", "Puls anders als auf früheren Fahrten"),
            said(n("byBeats"), (beats) => {
              const usual = Math.round(n("usualBpm") ?? 0);
              return aside(beats, say(`the usual ${usual}`, `den üblichen ${usual}`), say);
            }),
          );
    case "steadyStretch":
      return list(
        say(`pressure held for ${lasting}`, `${lasting} lang Druck gehalten`),
        said(n("inBandPercent"), (percent) =>
          say(`${Math.round(percent)} % of it in the band`, `davon ${Math.round(percent)} % im Band`),
        ),
        said(n("meanW"), (watts) => `${Math.round(watts)} W`),
      );
    case "turn":
      return list(
        momentReason(moment.reason, language),
        said(n("slowestMps"), (mps) => `${say("slowest", "am langsamsten")} ${spokenSpeed(mps, units)}`),
      );
    case "cadenceBlock":
      return list(
        say(
          `${moment.reason}: ${Math.round(n("meanRpm") ?? 0)} for ${lasting}`,
          `${momentReason(moment.reason, language)}: ${lasting} lang ${Math.round(n("meanRpm") ?? 0)}`,
        ),
        said(n("usualRpm"), (rpm) =>
          say(`${Math.round(rpm)} over the ride`, `über die ganze Fahrt ${Math.round(rpm)}`),
        ),
      );
    case "effortShort":
      return list(
        say(
          `planned effort below the plan: ${lasting} at ${Math.round(n("meanW") ?? 0)} W`,
          `harter Block unter dem Plan: ${lasting} mit ${Math.round(n("meanW") ?? 0)} W`,
        ),
        said(n("targetW"), (watts) => say(`planned ${Math.round(watts)} W`, `geplant ${Math.round(watts)} W`)),
      );
    case "ownMoment":
      if (moment.comment !== undefined) return say("your spoken comment", "dein gesprochener Kommentar");
      return list(moment.kind, moment.reason === moment.kind ? null : moment.reason);
    default:
      return list(moment.kind, moment.reason === moment.kind ? null : moment.reason);
  }
}

/** `26 beats below the 109 around it`. */
function aside(beats: number, what: string, say: Say): string {
  const whole = Math.abs(Math.round(beats));
  const unit = whole === 1 ? say("beat", "Schlag") : say("beats", "Schläge");
  return `${whole} ${unit} ${beats < 0 ? say("below", "unter") : say("above", "über")} ${what}`;
}
