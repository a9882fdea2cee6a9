import type { Language } from "../../main/contract/languageAndUnits.ts";
import { breakReasonWords, momentReason } from "./reading/momentWords.ts";

/** What the coach's own page says beside the reading's sentences: its headings, columns, and the names of its figures. */
export interface CoachWords {
  readonly title: (name: string) => string;
  readonly inWords: string;
  /** Over the three lines that the athlete is not told, since the rider's note comes first. */
  readonly heldBack: string;
  readonly heldBackMore: string;
  readonly byHour: string;
  /** Headings of the figures, by the key of the reading that holds them. */
  readonly figures: Readonly<Record<FigureGroup, string>>;
  readonly moments: string;
  readonly momentColumns: readonly string[];
  readonly setByCoach: string;
  readonly setByCoachColumns: readonly string[];
  readonly nothingSet: string;
  readonly film: string;
  readonly filmColumns: readonly string[];
  readonly leftOut: string;
  readonly warnings: string;
  readonly none: string;
  readonly empty: string;
  readonly unknown: string;
  readonly yes: string;
  readonly no: string;
  /** Names a table for a reader who hears it. */
  readonly table: (title: string) => string;
  readonly coachOnly: (kind: string) => string;
  readonly beforeRounding: (exact: string) => string;
  /** A kind of moment. */
  readonly kind: (kind: string) => string;
  /** The name of a figure, by its key in the reading without its unit. */
  readonly label: (key: string) => string;
  /** A unit as it stands behind a figure's name. */
  readonly unit: (unit: string) => string;
  /** A value that is a name: a verdict, a source, a reason. Others stay as they are. */
  readonly value: (value: string) => string;
}

/** Parts of the reading whose figures the page lists. */
export const FIGURE_GROUPS = ["ride", "counted", "pressure", "cadence", "drift", "target"] as const;
type FigureGroup = (typeof FIGURE_GROUPS)[number];

/** `longestUnbroken` as `longest unbroken`. */
const spelled = (key: string): string => key.replaceAll(/([a-z])([A-Z])/g, "$1 $2").toLowerCase();

const KINDS_EN: Readonly<Record<string, string>> = {
  riseThenOff: "above the plan uphill, no pressure over the top",
  breakRun: "run of breaks",
  lapse: "lapse",
  surge: "surge",
  driftOnset: "start of the drift",
  oddHeart: "odd heart reading",
  steadyStretch: "pressure held",
  turn: "tight turn",
  cadenceBlock: "another cadence",
  effortShort: "planned effort below the plan",
  marked: "marked by the rider",
  ownMoment: "own moment",
};

/** Names of figures whose keys alone do not say it. */
const LABELS_EN: Readonly<Record<string, string>> = {
  timer: "without pauses",
  off: "no pressure",
  unknown: "not known",
  excusedOff: "no pressure, with a fair reason",
  cannotTellOff: "no pressure, reason not to be told",
  doubt: "doubt about the target",
  longestUnbroken: "longest time with pressure, short excused breaks passed over",
  longestUnbrokenStrict: "longest time with pressure",
  swing: "swing of power about its mean",
  swingPedalling: "swing of power while pedalling",
  low: "mostly from",
  high: "mostly to",
  first: "first heart reading",
  firstAt: "first heart reading at",
  firstPower: "power at the first heart reading",
  last: "last heart reading",
  lastAt: "last heart reading at",
  lastPower: "power at the last heart reading",
  rise: "rise as recorded",
  uncertainty: "give or take",
  whyRiseDiffers: "why rise and drift differ",
  powerToHeartHalves: "watts for each beat, second half less than first",
  halvesPowerStep: "power, second half more than first",
  onset: "start of the drift",
  onsetLow: "start of the drift, earliest",
  onsetHigh: "start of the drift, latest",
  confounds: "what else may play in",
  minimum: "rule of thumb: at least",
  aim: "rule of thumb: better",
  heldLow: "held, at least",
  heldHigh: "held, at most",
  heldWords: "held without drift",
  coast: "no pressure",
};

const en: CoachWords = {
  title: (name) => `Coach's page: ${name}`,
  inWords: "In words",
  heldBack: "Held back because of the rider's note",
  heldBackMore:
    "The rider is told that there is nothing to change. The ride alone would say this; your own words always go out:",
  byHour: "By the hour",
  figures: {
    ride: "Ride",
    counted: "Counted",
    pressure: "Pressure",
    cadence: "Cadence",
    drift: "Drift",
    target: "Target",
  },
  moments: "Moments",
  momentColumns: ["rank", "kind", "from", "to", "reason", "excused", "set by", "numbers"],
  setByCoach: "Set by coach",
  setByCoachColumns: ["what", "computed", "set", "why"],
  nothingSet: "Nothing was overruled.",
  film: "The film",
  filmColumns: ["shot or card", "why it is in"],
  leftOut: "Left out",
  warnings: "Warnings",
  none: "None.",
  empty: "Empty.",
  unknown: "unknown",
  yes: "yes",
  no: "no",
  table: (title) => `${title}, table`,
  coachOnly: (kind) => `${kind} (coach only)`,
  beforeRounding: (exact) => `${exact} before rounding`,
  kind: (kind) => KINDS_EN[kind] ?? kind,
  label: (key) => LABELS_EN[key] ?? spelled(key),
  unit: (unit) => unit,
  value: (value) => value,
};

const KINDS_DE: Readonly<Record<string, string>> = {
  riseThenOff: "über dem Plan hinauf, oben nicht getreten",
  breakRun: "Folge von Druckpausen",
  lapse: "Druckpause ohne Grund",
  surge: "Antritt",
  driftOnset: "Beginn der Drift",
  oddHeart: "auffälliger Puls",
  steadyStretch: "Druck gehalten",
  turn: "enge Kehre",
  cadenceBlock: "andere Trittfrequenz",
  effortShort: "harter Block unter dem Plan",
  marked: "Markierung",
  ownMoment: "eigener Moment",
};

/** Names of figures, by their key without its unit. */
const LABELS_DE: Readonly<Record<string, string>> = {
  file: "Datei",
  format: "Format",
  setting: "gefahren",
  indoors: "drinnen",
  startTime: "Start (UTC)",
  localStart: "Start (Ortszeit)",
  records: "Einträge",
  elapsed: "verstrichen",
  timer: "ohne Pausen",
  moving: "in Bewegung",
  distance: "Strecke",
  ascent: "Anstieg",
  power: "Leistung",
  heartRate: "Puls",
  cadence: "Trittfrequenz",
  speed: "Tempo",
  mean: "im Mittel",
  max: "höchstens",
  samples: "Werte",
  gaps: "Lücken",
  start: "von",
  end: "bis",
  kind: "Art",
  source: "bestimmt durch",
  stretches: "gewertete Stücke",
  inBand: "im Band",
  below: "darunter",
  above: "darüber",
  off: "ohne Druck",
  unknown: "nicht bekannt",
  excusedOff: "ohne Druck mit gutem Grund",
  cannotTellOff: "ohne Druck, Grund nicht zu sagen",
  breaks: "Druckpausen",
  lapses: "Druckpausen ohne Grund",
  surges: "Antritte",
  doubt: "Zweifel an der Vorgabe",
  longestUnbroken: "längste Zeit mit Druck, kurze entschuldigte Pausen übergangen",
  longestUnbrokenStrict: "längste Zeit mit Druck",
  byGradient: "nach Steigung",
  up: "bergauf",
  flat: "in der Ebene",
  down: "bergab",
  swing: "Schwankung",
  swingPedalling: "Schwankung beim Treten",
  low: "meist ab",
  high: "meist bis",
  first: "erster Pulswert",
  firstAt: "erster Pulswert bei",
  firstPower: "Leistung beim ersten Pulswert",
  last: "letzter Pulswert",
  lastAt: "letzter Pulswert bei",
  lastPower: "Leistung beim letzten Pulswert",
  rise: "Pulsanstieg",
  drift: "Drift",
  uncertainty: "Unsicherheit (±)",
  correctedForPower: "um die Leistung bereinigt",
  whyRiseDiffers: "warum Pulsanstieg und Drift abweichen",
  powerToHeartHalves: "Watt je Schlag, zweite Hälfte weniger als erste",
  halvesPowerStep: "Leistung, zweite Hälfte mehr als erste",
  onset: "Beginn der Drift",
  onsetLow: "Beginn der Drift, frühestens",
  onsetHigh: "Beginn der Drift, spätestens",
  verdict: "Befund",
  confounds: "was sonst mitspielen kann",
  event: "Ziel",
  minimum: "Faustregel: mindestens",
  aim: "Faustregel: besser",
  heldLow: "gehalten, mindestens",
  heldHigh: "gehalten, höchstens",
  heldWords: "ohne Drift gehalten",
  turned: "gedreht um",
  slowest: "langsamste Stelle",
  speedBefore: "Tempo davor",
  powerBefore: "Leistung davor",
  duration: "Dauer",
  peak: "Spitze",
  overTarget: "über der Zielleistung",
  gradient: "Steigung",
  at: "bei",
  spike: "Puls",
  usual: "üblich",
  by: "Abstand",
  earlierRides: "frühere Fahrten",
  times: "Male",
  rises: "Anstiege",
  risesRiddenHard: "hart gefahrene Anstiege",
  coast: "nicht getreten",
};

const VALUES_DE: Readonly<Record<string, string>> = {
  road: "Straße",
  trainer: "Rolle",
  group: "Gruppe",
  plan: "Plan",
  laps: "Runden",
  "settled power": "Leistung findet ins Band",
  "default minutes": "übliche Minuten",
  coach: "Trainer",
  computed: "berechnet",
  pause: "Pause",
  hole: "Lücke",
  "not enough data": "zu wenig Daten",
  "rose from the start": "stieg von Anfang an",
  "no drift shown": "keine Drift zu sehen",
  "start unclear": "Beginn unklar",
  began: "begann",
  "drift began": "Beginn der Drift",
  "above the plan uphill, no pressure over the top": "über dem Plan hinauf, oben nicht getreten",
  "breaks in a row": "Druckpausen dicht nacheinander",
  "pressure held": "Druck gehalten",
  spike: "Sprung",
  "unusual level": "ungewohnte Höhe",
  break: "Druckpause",
  counted: "Hauptteil",
  first: "erster Pulswert",
  last: "letzter Pulswert",
  onset: "Beginn der Drift",
};

const UNITS_DE: Readonly<Record<string, string>> = {
  beats: "Schläge",
  bpm: "Schläge/min",
  rpm: "/min",
  degrees: "Grad",
};

const de: CoachWords = {
  title: (name) => `Seite des Trainers: ${name}`,
  inWords: "In Worten",
  heldBack: "Wegen der Notiz zurückgehalten",
  heldBackMore:
    "Dem Fahrer wird gesagt, dass nichts zu ändern ist. Die Fahrt allein würde das sagen; deine eigenen Worte gehen immer hinaus:",
  byHour: "Nach Stunden",
  figures: {
    ride: "Fahrt",
    counted: "Hauptteil",
    pressure: "Druck",
    cadence: "Trittfrequenz",
    drift: "Puls und Drift",
    target: "Ziel",
  },
  moments: "Momente",
  momentColumns: ["Rang", "Art", "von", "bis", "Grund", "entschuldigt", "gesetzt von", "Zahlen"],
  setByCoach: "Vom Trainer gesetzt",
  setByCoachColumns: ["was", "berechnet", "gesetzt", "warum"],
  nothingSet: "Nichts wurde anders gesetzt.",
  film: "Der Film",
  filmColumns: ["Einstellung oder Tafel", "warum sie dabei ist"],
  leftOut: "Weggelassen",
  warnings: "Zu beachten",
  none: "Keine.",
  empty: "Leer.",
  unknown: "nicht bekannt",
  yes: "ja",
  no: "nein",
  table: (title) => `${title}, Tabelle`,
  coachOnly: (kind) => `${kind} (nur für den Trainer)`,
  beforeRounding: (exact) => `ungerundet ${exact}`,
  kind: (kind) => KINDS_DE[kind] ?? kind,
  label: (key) => LABELS_DE[key] ?? spelled(key),
  unit: (unit) => UNITS_DE[unit] ?? unit,
  value: (value) => VALUES_DE[value] ?? momentReason(breakReasonWords(value, "de"), "de"),
};

/** The words of the coach's page in a language. */
export function coachWords(language: Language): CoachWords {
  return language === "de" ? de : en;
}
