import { aboutText } from "./aboutText.ts";
import { clockText, durationText as length, wholeText as whole } from "./numbers.ts";
import type { DebriefPhrases, HeartFacts, MomentFacts, PowerText } from "./debriefPhrases.ts";
import { harderAtTheEndW, heartStory, saysNothingMore, type HeartStory } from "./heartStory.ts";
import { NOW } from "./restDe.ts";
import { firstOf } from "./restFirst.ts";
import { askedSkills, skillRows } from "./skillWords.ts";
import type { Voice } from "./voice.ts";
import { shownRise } from "./reading/shownRise.ts";
import { driftLine } from "./driftLine.ts";
import type { DriftFacts } from "../../main/contract/debriefFacts.ts";
import { beats, times } from "./linesDe.ts";

const MOMENT_NAMES: Record<string, string> = {
  riseThenOff: "Über dem Plan hinauf, dann nicht mehr getreten",
  breakRun: "Immer wieder ohne Druck",
  lapse: "Ohne Druck",
  surge: "Weit über dem Plan",
  driftOnset: "Der Puls beginnt zu steigen",
  oddHeart: "Auffälliger Puls",
  steadyStretch: "Druck gehalten",
  turn: "Enge Kehre",
  cadenceBlock: "Andere Trittfrequenz",
  effortShort: "Harter Block, unter dem Plan",
  ownMoment: "Eine Stelle zum Ansehen",
  plainMoment: "Ein Moment der Fahrt",
};

/** A moment's name, by its kind. */
export const momentName = (kind: string, who: Voice): string =>
  kind === "marked" ? who("Von dir markiert", "Vom Fahrer markiert") : (MOMENT_NAMES[kind] ?? kind);

const reasons = (who: Voice): Readonly<Record<string, string>> => ({
  stopped: who("Du hast angehalten", "Der Fahrer hat angehalten"),
  corner: "Eine Kurve",
  braking: who("Du hast gebremst", "Der Fahrer hat gebremst"),
  "steep descent": "Eine steile Abfahrt",
  "slowed, cause not in the data": `Etwas hat ${who("dich", "den Fahrer")} gebremst`,
  unexplained: "Die Aufzeichnung zeigt keinen Grund",
  "cannot tell": "Die Aufzeichnung sagt nicht, warum",
  "planned rest": "Eine geplante Pause",
});

/** A planned effort, or the part of it that is shown. */
const effortText = ({ whole: all, startS, endS, meanW }: MomentFacts, planned: string, power: PowerText): string =>
  `${all ? `${length(endS - startS)} mit` : "Hier"} ${power(meanW ?? 0)}${planned}`;

/** The coach's own words on why; a reason of the reading's may blame. */
const ownReason = ({ setByCoach, reason }: MomentFacts, who: Voice): string[] =>
  setByCoach && reason !== "" && reasons(who)[reason] === undefined ? [reason] : [];

function caption(moment: MomentFacts, power: PowerText, who: Voice): string[] {
  const lengthS = moment.endS - moment.startS;
  const planned = moment.targetW === null ? "" : `, geplant ${power(moment.targetW)}`;
  const known = moment.setByCoach && moment.reason !== "" ? moment.reason : reasons(who)[moment.reason];
  const reason = known === undefined ? [] : [known];
  switch (moment.kind) {
    case "steadyStretch":
      return [
        moment.whole ? `${length(lengthS)} lang den Druck gehalten` : `Druck gehalten: zusammen ${length(lengthS)}`,
        ...(moment.meanW === null ? [] : [`${moment.whole ? "Im" : "Hier im"} Mittel ${power(moment.meanW)}`]),
      ];
    case "riseThenOff":
      return [
        moment.meanW === null ? "Die Steigung hinauf" : `Die Steigung hinauf: ${power(moment.meanW)}${planned}`,
        moment.offS === null ? "Dann ist der Druck weg" : `Dann ${length(moment.offS)} ohne Druck`,
        ...(moment.times === null || moment.rises === null || moment.times < 2
          ? []
          : [`Genauso an ${moment.times} von ${moment.rises} Steigungen`]),
      ];
    case "breakRun":
      return [
        moment.breaks === null || !moment.whole
          ? "Immer wieder ohne Druck"
          : `In ${length(lengthS)} ${times(moment.breaks)} ohne Druck`,
        ...reason,
      ];
    case "lapse":
      return [moment.offS === null ? "Hier kein Druck" : `${length(moment.offS)} ohne Druck`, ...reason];
    case "surge":
      return [
        moment.meanW === null
          ? "Weit über dem Plan"
          : moment.whole
            ? `${length(lengthS)} bei ${power(moment.meanW)}${planned}`
            : `Hier ${power(moment.meanW)}${planned}`,
        ...(moment.pauseS === null ? [] : [`Dann ${length(moment.pauseS)} ohne Druck`]),
      ];
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
          : moment.whole
            ? `Trittfrequenz ${whole(moment.meanRpm)}, ${length(lengthS)} lang`
            : `Hier Trittfrequenz ${whole(moment.meanRpm)}`,
      ];
    case "effortShort":
      return [moment.meanW === null ? momentName(moment.kind, who) : effortText(moment, planned, power)];
    case "plainMoment":
      return [momentName(moment.kind, who), ...ownReason(moment, who)];
    case "turn":
      return ["Enge Kehre: Blick zum Kurvenausgang"];
    case "marked":
      return [
        who("Hier hast du die Rundentaste gedrückt", "Hier hat der Fahrer die Rundentaste gedrückt"),
        who("Was hast du gespürt?", "Was war hier wichtig?"),
      ];
    default:
      return [moment.setByCoach && moment.reason !== "" ? moment.reason : momentName(moment.kind, who)];
  }
}

const CLIMB: Record<Exclude<HeartStory, "began">, string> = {
  "start unclear": "Er stieg; wann das begann, ist nicht klar",
  "rose from the start": "Er stieg von Anfang an",
  unsteady: "Dazwischen stieg er nicht stetig",
  "within noise": "Eine Fahrt allein zeigt da keinen Unterschied",
  level: "Er blieb auf gleicher Höhe",
  "no start": "Zu wenig Daten, um zu sagen, ab wann er stieg",
  "no data": "Zu wenig Daten, um zu sagen, ob er stieg",
};

function heartCardLines(heart: HeartFacts, drift: DriftFacts | null, power: PowerText): string[] {
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
      : `, am Ende ${power(Math.abs(harderW))} ${harderW > 0 ? "mehr" : "weniger"} getreten`;
  const change = (value: number): string =>
    Math.round(value) === 0 ? "gleich viel" : `${beats(Math.abs(value))} ${value > 0 ? "mehr" : "weniger"}`;
  return [
    `Puls anfangs ${whole(heart.firstBpm)}, am Ende ${whole(heart.lastBpm)}: ${change(rise.beats)}`,
    ...driftLine(heart, drift, {
      told: (facts) => `Bei gleicher Leistung: ${change(facts.beats)} (plus/minus ${whole(facts.giveOrTake)})${why}`,
      cannot: () => `Bei gleicher Leistung: das sagt diese Fahrt nicht${why}`,
    }),
    ...(saysNothingMore(heart, drift) ? [] : [climb]),
  ];
}

/** German: what the film says. */
export const filmDe = (power: PowerText, who: Voice): DebriefPhrases["film"] => ({
  titleFallback: who("Deine Ausfahrt", "Eine Ausfahrt"),
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
    // Where nothing counts, that is said elsewhere: no plan asks for 0 s.
    ...(plan.mainS < 1 ? [] : [{ label: "Hauptteil", value: length(plan.mainS) }]),
    ...skillRows(askedSkills(plan.skills), "de"),
    ...(plan.eventS === null ? [] : [{ label: plan.eventName ?? "Ziel", value: length(plan.eventS) }]),
  ],
  changeTitle: "Eine Sache ändern",
  closingTitle: "Die nächste Ausfahrt",
  closingCaution:
    "Bremse, rolle und halte, wann immer die Straße es verlangt. Fass weder Kamera noch Radcomputer an, solange du fährst. " +
    "Kein ärztlicher Rat: bei Brustschmerz, Schwindel oder Herzrasen anhalten und Hilfe holen.",
  compareTitle: "Neben einer früheren Fahrt",
  chartTitle: ({ hasPower, hasHeart }) => (hasPower && hasHeart ? "Leistung und Puls" : hasPower ? "Leistung" : "Puls"),
  heartLines: (heart, drift) => heartCardLines(heart, drift, power),
  holdCaption: (story, meanW) => [
    story.facts.judgedBy === "heart"
      ? `Hier lag ${who("dein Puls", "der Puls")} im geplanten Bereich`
      : "Hier war der Druck gleichmäßig",
    ...(story.facts.hold !== null
      ? [NOW[firstOf(story.facts.hold)]]
      : story.held.kind === "share"
        ? [
            `${whole(story.held.percent)} % des Hauptteils ${story.facts.judgedBy === "heart" ? "im Pulsbereich" : "im Plan"}`,
          ]
        : meanW === null
          ? []
          : [`Im Mittel ${power(meanW)}`]),
  ],
  here: "hier",
  caption: (moment) => caption(moment, power, who),
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
        return `zeigt den einen Punkt, um den es geht (${momentName(item.momentKind, who)}), Stelle Nummer ${item.rank}${chart}`;
      case "onset":
        return `zeigt, wo der Puls zu steigen begann${chart}`;
      case "marked":
        return `zeigt, was mit der Rundentaste markiert wurde${chart}`;
      case "picked":
        return `vom Trainer gewählt: ${momentName(item.momentKind, who)}${chart}`;
      case "beside by coach":
        return "vom Trainer gewählt: zwei Fahrten auf einer Straße";
      case "beside":
        return "zeigt diese Fahrt neben einer früheren auf derselben Straße, die dort gehalten hat";
      case "heart":
        return "zeigt den Puls früh, beim Anstieg und am Ende über der Leistung";
      case "compare":
        return "sagt, was anders ist als auf der letzten ähnlichen Ausfahrt";
      case "change":
        return "sagt, was als Einziges zu ändern ist";
      case "closing":
        return "sagt, was als Nächstes kommt";
    }
  },
  leftOut: (left) => {
    if (left.kind === "clip")
      return `${left.file}: ${left.because === "not placed" ? "nichts zeigt, wo in der Fahrt sie liegt" : "wo in der Fahrt sie liegt, ist nicht sicher"}`;
    if (left.kind === "over length")
      return `der Film hat ${whole(left.lengthS)} s statt ${whole(left.wishedS)} s: Bilder unter 6 s und unlesbare Karten lehren nichts`;
    const because = {
      "other point": "es geht um einen anderen Punkt",
      "same point": "ein anderer zeigt denselben Punkt",
      shots: "ein Film hat höchstens sechs Einstellungen",
      length: "die gewünschte Länge hat keinen Platz dafür",
      "coach only": "auffälliger Puls bleibt beim Trainer, bis er gewählt ist",
      dropped: "vom Trainer gestrichen",
      note: "die Notiz des Fahrers geht vor",
    }[left.because];
    return `${momentName(left.momentKind, who)} bei ${clockText(left.startS)}: ${because}`;
  },
});
