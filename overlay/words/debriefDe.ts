import { aboutText } from "./aboutText.ts";
import { clockText, durationText as length, wholeText as whole } from "./numbers.ts";
import type { DebriefPhrases, HeartFacts, MomentFacts, PowerText } from "./debriefPhrases.ts";
import { harderAtTheEndW, heartStory, type HeartStory } from "./heartStory.ts";
import { pageDe } from "./pageDe.ts";
import type { DebriefStory } from "./debriefStory.ts";
import { shownRise } from "./reading/shownRise.ts";

const times = (count: number): string => (count === 1 ? "einmal" : count === 2 ? "zweimal" : `${count}-mal`);
const beats = (value: number): string => `${whole(value)} ${Math.abs(Math.round(value)) === 1 ? "Schlag" : "Schläge"}`;

const MOMENT_NAMES: Record<string, string> = {
  hardUpCoastOver: "Hart hinaufgefahren, dann nicht mehr getreten",
  breakRun: "Immer wieder ohne Druck",
  lapse: "Ohne Druck",
  surge: "Weit über dem Plan",
  driftOnset: "Der Puls beginnt zu steigen",
  oddHeart: "Auffälliger Puls",
  steadyStretch: "Druck gehalten",
  turn: "Enge Kehre",
  cadenceBlock: "Andere Trittfrequenz",
  marked: "Von dir markiert",
  ownMoment: "Eine Stelle zum Ansehen",
};

const momentName = (kind: string): string => MOMENT_NAMES[kind] ?? kind;

const REASONS: Record<string, string> = {
  stopped: "Du hast angehalten",
  corner: "Eine Kurve",
  braking: "Du hast gebremst",
  "steep descent": "Eine steile Abfahrt",
  "slowed, cause not in the data": "Etwas hat dich gebremst",
  unexplained: "Die Aufzeichnung zeigt keinen Grund",
  "cannot tell": "Die Aufzeichnung sagt nicht, warum",
  "planned rest": "Eine geplante Pause",
};

function heldLine(story: DebriefStory): string {
  if (story.words.held !== null) return story.words.held;
  const held = story.held;
  if (held.kind === "stretch")
    return `Du hast ${length(held.endS - held.startS)} lang den Druck gehalten, von ${clockText(held.startS)} bis ${clockText(held.endS)}.`;
  if (held.kind === "share")
    return `Im Hauptteil warst du ${whole(held.percent)} % der Zeit bei der geplanten Leistung.`;
  return `Du bist ${length(held.durationS)} gefahren und hast alles aufgezeichnet.`;
}

function changeLine(story: DebriefStory, power: PowerText): string {
  if (story.words.change !== null) return story.words.change;
  const plan = story.targetW === null ? "dem Plan" : `den geplanten ${power(story.targetW)}`;
  const lost = story.lostS === null ? "" : `, zusammen ${length(story.lostS)}`;
  switch (story.teaching) {
    case "coastOver":
      return `Drück über die Kuppe weiter: ${times(story.times)} bist du hart hinaufgefahren und hast dann nicht mehr getreten.`;
    case "breaks":
      return `Halte leichten Druck auf den Pedalen: ${times(story.times)} war er weg${lost}, und die Aufzeichnung zeigt keinen Grund.`;
    case "surges":
      return `Geh jede Steigung ruhig an: ${times(story.times)} warst du weit über ${plan}.`;
    case "tooHard":
      return `Fahr leichter: ${whole(story.percent ?? 0)} % des Hauptteils warst du über ${plan}.`;
    case "tooEasy":
      return `Drück etwas mehr: ${whole(story.percent ?? 0)} % des Hauptteils warst du unter ${plan}.`;
    case "cadence":
      return `Dreh gleichmäßig: ${times(story.times)} lag deine Trittfrequenz außerhalb des Üblichen.`;
    case "drift":
      return story.onsetS === null
        ? "Dein Puls stieg" +
            `${story.driftBeats === null ? "" : ` bei gleicher Leistung um ${beats(story.driftBeats)}`}: fang etwas ` +
            "leichter an und sieh, ob er auf gleicher Höhe bleibt."
        : `Dein Puls begann ${climbText(story)} zu steigen: fang etwas leichter an und sieh, ob es später kommt.`;
    default:
      return "Nichts zu ändern: fahr die nächste genauso.";
  }
}

/** The beginning of a climb as the interval that it is; the one a coach set is one time. */
function climbText({ onsetS, onsetLowS, onsetHighS }: DebriefStory): string {
  return onsetLowS === null || onsetHighS === null || onsetLowS === onsetHighS
    ? `nach etwa ${aboutText(onsetS)}`
    : `irgendwann zwischen ${aboutText(onsetLowS)} und ${aboutText(onsetHighS)}`;
}

function nextLine(story: DebriefStory, power: PowerText): string {
  if (story.words.next !== null) return story.words.next;
  const plan = story.targetW === null ? "Fahr denselben Plan" : `Fahr wieder ${power(story.targetW)}`;
  const event = story.event;
  if (event !== null) {
    const name = event.name ?? "dein Ziel";
    if (event.heldLowS !== null && event.heldLowS >= event.leastS)
      return `${plan}: dein Puls blieb lange genug auf gleicher Höhe für ${name}, also halte das so.`;
    return `${plan}, und komm nach und nach auf ${length(event.leastS)}, bevor der Puls steigt: so viel verlangt ${name}.`;
  }
  return story.teaching === "nothing" || story.teaching === "drift"
    ? `${plan}.`
    : `${plan}, mit dieser einen Änderung.`;
}

const SHORT: Record<DebriefStory["teaching"], string> = {
  coastOver: "Drück über die Kuppe weiter",
  breaks: "Halte leichten Druck auf den Pedalen",
  surges: "Geh jede Steigung ruhig an",
  tooHard: "Fahr leichter",
  tooEasy: "Drück etwas mehr",
  cadence: "Dreh gleichmäßig",
  drift: "Fang etwas leichter an",
  nothing: "Fahr die nächste genauso",
};

function caption(moment: MomentFacts, power: PowerText): string[] {
  const lengthS = moment.endS - moment.startS;
  const planned = moment.targetW === null ? [] : [`Geplant waren ${power(moment.targetW)}`];
  const reason =
    moment.setByCoach && moment.reason !== ""
      ? [moment.reason]
      : moment.reason in REASONS
        ? [REASONS[moment.reason]]
        : [];
  switch (moment.kind) {
    case "steadyStretch":
      return [
        `${length(lengthS)} lang den Druck gehalten`,
        ...(moment.meanW === null ? [] : [`Im Mittel ${power(moment.meanW)}`]),
      ];
    case "hardUpCoastOver":
      return [
        moment.meanW === null
          ? "Hart die Steigung hinaufgefahren"
          : `Hart hinaufgefahren: ${power(moment.meanW)}${moment.targetW === null ? "" : `, geplant ${power(moment.targetW)}`}`,
        moment.offS === null ? "Dann ist der Druck weg" : `Dann ${length(moment.offS)} ohne Druck`,
        ...(moment.times === null || moment.rises === null || moment.times < 2
          ? []
          : [`Genauso an ${moment.times} von ${moment.rises} Steigungen`]),
      ];
    case "breakRun":
      return [
        moment.breaks === null ? "Immer wieder ohne Druck" : `In ${length(lengthS)} ${times(moment.breaks)} ohne Druck`,
        ...reason,
      ];
    case "lapse":
      return [`${length(lengthS)} ohne Druck`, ...reason];
    case "surge":
      return [moment.peakW === null ? "Weit über dem Plan" : `Hier ${power(moment.peakW)}`, ...planned];
    case "driftOnset":
      return [
        "Etwa hier beginnt der Puls zu steigen",
        ...(moment.driftBeats === null ? [] : [`Am Ende ${beats(moment.driftBeats)} mehr bei gleicher Leistung`]),
      ];
    case "oddHeart":
      return [moment.meanBpm === null ? "Auffälliger Puls" : `Puls ${whole(moment.meanBpm)}: liegt meist am Sensor`];
    case "cadenceBlock":
      return [
        moment.meanRpm === null
          ? "Hier andere Trittfrequenz"
          : `Trittfrequenz ${whole(moment.meanRpm)}, ${length(lengthS)} lang`,
      ];
    case "turn":
      return ["Enge Kehre: Blick zum Kurvenausgang"];
    case "marked":
      return ["Hier hast du die Rundentaste gedrückt", "Was hast du gespürt?"];
    default:
      return [moment.setByCoach && moment.reason !== "" ? moment.reason : momentName(moment.kind)];
  }
}

const CLIMB: Record<Exclude<HeartStory, "began">, string> = {
  "start unclear": "Er stieg; wann das begann, ist nicht klar",
  "rose from the start": "Er stieg von Anfang an langsam",
  unsteady: "Dazwischen stieg er nicht stetig",
  "within noise": "Eine Fahrt allein zeigt da keinen Unterschied",
  level: "Er blieb auf gleicher Höhe",
  "no start": "Zu wenig Daten, um zu sagen, ab wann er stieg",
  "no data": "Zu wenig Daten, um zu sagen, ob er stieg",
};

function heartCardLines(heart: HeartFacts, power: PowerText): string[] {
  const story = heartStory(heart);
  const climb =
    story === "began"
      ? `Er steigt nach etwa ${aboutText(heart.onsetS)} (zwischen ${aboutText(heart.onsetLowS)} und ${aboutText(heart.onsetHighS)})`
      : CLIMB[story];
  const rise = shownRise(heart.firstBpm, heart.lastBpm);
  if (rise === null) return [climb];
  const harderW = harderAtTheEndW(heart);
  const why =
    harderW === null || harderW === 0
      ? ""
      : ` (am Ende ${power(Math.abs(harderW))} ${harderW > 0 ? "mehr" : "weniger"} gedrückt)`;
  const change = (value: number): string =>
    Math.round(value) === 0 ? "gleich viel" : `${beats(Math.abs(value))} ${value > 0 ? "mehr" : "weniger"}`;
  return [
    `Puls anfangs ${whole(heart.firstBpm)}, am Ende ${whole(heart.lastBpm)}: ${change(rise.beats)}`,
    ...(heart.correctedForPower && heart.driftBeats !== null
      ? [`Bei gleicher Leistung: ${change(heart.driftBeats)}${why}`]
      : []),
    climb,
  ];
}

/** German: the second language. */
export const debriefDe = (power: PowerText): DebriefPhrases => ({
  language: "de",
  heldLine,
  changeLine: (story) => changeLine(story, power),
  nextLine: (story) => nextLine(story, power),
  changeShort: (story) => (story.words.change === null ? SHORT[story.teaching] : story.words.change),
  momentName,
  page: pageDe(power),
  film: {
    titleFallback: "Deine Ausfahrt",
    lessonTitle: "Eine Ausfahrt zum Lernen",
    planTitle: "Der Plan",
    planRows: (plan) => [
      ...(plan.targetW === null
        ? []
        : [
            {
              label: "Leistung",
              value:
                plan.lowW === null || plan.highW === null
                  ? `${power(plan.targetW)}`
                  : `${power(plan.targetW)} (${power(plan.lowW).replace(/ \S+$/, "")} bis ${power(plan.highW).replace(/ \S+$/, "")})`,
            },
          ]),
      ...(plan.heartLowBpm === null || plan.heartHighBpm === null
        ? []
        : [{ label: "Puls", value: `${whole(plan.heartLowBpm)} bis ${whole(plan.heartHighBpm)}` }]),
      { label: "Hauptteil", value: length(plan.countedEndS - plan.countedStartS) },
      ...(plan.eventS === null ? [] : [{ label: plan.eventName ?? "Ziel", value: length(plan.eventS) }]),
    ],
    changeTitle: "Eine Sache ändern",
    closingTitle: "Die nächste Ausfahrt",
    closingCaution:
      "Bremse, rolle und halte, wann immer die Straße es verlangt. Kein ärztlicher Rat: bei Brustschmerz, Schwindel oder Herzrasen anhalten und Hilfe holen.",
    heartTitle: "Leistung und Puls",
    heartLines: (heart) => heartCardLines(heart, power),
    holdCaption: (story, meanW) => [
      "Das war gut: gleichmäßiger Druck",
      ...(story.held.kind === "share"
        ? [`${whole(story.held.percent)} % des Hauptteils im Plan`]
        : meanW === null
          ? []
          : [`Im Mittel ${power(meanW)}`]),
    ],
    here: "hier",
    caption: (moment) => caption(moment, power),
    why: (item) => {
      const chart = "filmed" in item && !item.filmed ? "; keine Kamera hat es gesehen, daher ein Diagramm" : "";
      switch (item.kind) {
        case "title":
          return "sagt, wessen Fahrt das ist";
        case "plan":
          return "sagt, was verlangt war";
        case "held":
          return `zuerst, was gehalten hat${chart}`;
        case "taught":
          return `zeigt den einen Lehrpunkt (${momentName(item.momentKind)}), Nummer ${item.rank} unter den Stellen${chart}`;
        case "onset":
          return `zeigt, wo der Puls zu steigen begann${chart}`;
        case "marked":
          return `zeigt, was mit der Rundentaste markiert wurde${chart}`;
        case "picked":
          return `vom Trainer gewählt: ${momentName(item.momentKind)}${chart}`;
        case "heart":
          return "zeigt den Puls früh, beim Anstieg und am Ende über der Leistung";
        case "change":
          return "sagt die eine Sache zu ändern";
        case "closing":
          return "sagt, was die nächste Ausfahrt ist";
      }
    },
    leftOut: (left) => {
      if (left.kind === "clip")
        return `${left.file}: ${left.because === "not placed" ? "nichts legt sie auf die Fahrt" : "ihre Lage auf der Fahrt ist nicht sicher"}`;
      if (left.kind === "over length")
        return `der Film hat ${whole(left.lengthS)} s statt ${whole(left.wishedS)} s: Bilder unter 6 s und unlesbare Karten lehren nichts`;
      const because = {
        "other point": "es ist nicht der eine Lehrpunkt",
        "same point": "ein anderer zeigt denselben Punkt",
        shots: "ein Film hat höchstens sechs Einstellungen",
        length: "die gewünschte Länge hat keinen Platz dafür",
        "coach only": "auffälliger Puls bleibt beim Trainer, bis er gewählt ist",
        dropped: "vom Trainer gestrichen",
      }[left.because];
      return `${momentName(left.momentKind)} bei ${clockText(left.startS)}: ${because}`;
    },
  },
});
