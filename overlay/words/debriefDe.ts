import { aboutText } from "./aboutText.ts";
import { clockText, durationText as length, wholeText as whole } from "./numbers.ts";
import type { DebriefPhrases, HeartFacts, MomentFacts, PowerText } from "./debriefPhrases.ts";
import { harderAtTheEndW, heartStory, saysNothingMore, type HeartStory } from "./heartStory.ts";
import { pageDe } from "./pageDe.ts";
import { byBlocks, type DebriefStory, littleCounts, SHORT_RECORDING_S, swings } from "./debriefStory.ts";
import { FIRST, NOW, restLine } from "./restDe.ts";
import { firstOf } from "./restFirst.ts";
import { skillRows, skillWords } from "./skillWords.ts";
import type { Voice } from "./voice.ts";
import { shownRise } from "./reading/shownRise.ts";
import { rideDateText } from "./dateText.ts";
import { driftLine } from "./driftLine.ts";
import type { DriftFacts } from "../../main/contract/debriefFacts.ts";
import type { TargetDoubt } from "../../main/contract/reading.ts";

const times = (count: number): string => (count === 1 ? "einmal" : count === 2 ? "zweimal" : `${count}-mal`);
const beats = (value: number): string => `${whole(value)} ${Math.abs(Math.round(value)) === 1 ? "Schlag" : "Schläge"}`;

/** A sentence after a colon begins with a capital letter (Deutsche Rechtschreibung, § 81). */
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

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
  ownMoment: "Eine Stelle zum Ansehen",
};

const momentName = (kind: string, who: Voice): string =>
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

function heldLine(story: DebriefStory, power: PowerText, who: Voice): string {
  if (story.words.held !== null) return story.words.held;
  const { held } = story;
  const from = (span: { startS: number; endS: number }): string =>
    `von ${clockText(span.startS)} bis ${clockText(span.endS)}`;
  const bist = who("Du bist", "Der Fahrer ist");
  const war = who("Du warst", "Der Fahrer war");
  const hast = who("Du hast", "Der Fahrer hat");
  const warst = who("warst du", "war der Fahrer");
  const rode = who("bist du", "ist der Fahrer");
  const began = who("Du hast dir die Zeit genommen", "Der Fahrer hat sich die Zeit genommen");
  switch (held.kind) {
    case "blocks":
      return held.done === held.of
        ? `${bist} ${held.of === 1 ? "den geplanten Block" : `alle ${held.of} harten Blöcke`} wie geplant gefahren.`
        : `${bist} ${held.done} von ${held.of} harten Blöcken wie geplant gefahren.`;
    case "hour":
      return `Eine Stunde lang ${warst} zu ${whole(held.percent)} % ${atPlan(story)}, ${from(held)}.`;
    case "stretch":
      return `${hast} ${length(held.endS - held.startS)} lang den Druck gehalten, ${from(held)}.`;
    case "share":
      return `Im Hauptteil ${warst} ${whole(held.percent)} % der Zeit ${atPlan(story)}.`;
    case "rise":
      return `Eine Steigung von ${length(held.endS - held.startS)} ${rode} gleichmäßig gefahren, ${from(held)}: ${power(held.meanW)}.`;
    case "level":
      return `${who("Dein", "Der")} Puls blieb bei gleicher Leistung etwa ${aboutText(held.forS)} lang auf gleicher Höhe.`;
    case "cadence":
      return `${hast} gleichmäßig getreten: neun Zehntel der Zeit mit ${whole(held.lowRpm)} bis ${whole(held.highRpm)} Umdrehungen.`;
    case "skill":
      return `${hast} wie verlangt geübt: ${skillWords("de").names[held.skill]}, ${times(held.done)}.`;
    case "smooth":
      return `Die Leistung war gleichmäßig: neun Zehntel der getretenen Zeit ${power(held.lowW)} bis ${power(held.highW)}.`;
    case "better":
      return held.what === "inBand"
        ? `Im Hauptteil ${warst} ${whole(held.now)} % der Zeit ${atPlan(story)}, nach ${whole(held.before)} % auf der letzten ähnlichen Ausfahrt.`
        : `Der Druck war seltener weg: ${perHour(held.now)} Druckpausen in der Stunde, nach ${perHour(held.before)} auf der letzten ähnlichen Ausfahrt.`;
    case "heat":
      return `${war} ${length(held.durationS)} in der Hitze unterwegs.`;
    case "told":
      return "Du hast gesagt, wie es dir ging: Das hilft mehr als jede Zahl hier.";
    case "back":
      return `Du bist nach ${held.days} Tagen wieder da und warst ${length(held.durationS)} unterwegs.`;
    case "unbroken":
      return `${hast} ${length(held.forS)} am Stück den Druck gehalten.`;
    case "ridden":
      if (held.durationS < SHORT_RECORDING_S) return `Diese Aufzeichnung ist ${length(held.durationS)} lang.`;
      return story.setting === "trainer"
        ? `${began} und ${who("bist", "ist")} ${length(held.durationS)} gefahren.`
        : `${began} und ${who("warst", "war")} ${length(held.durationS)} unterwegs.`;
  }
}

/** Pausen in der Stunde, mit einer Stelle, wo es eine gibt. */
const perHour = (value: number): string => String(value).replace(".", ",");
const atPlan = ({ facts }: DebriefStory): string =>
  facts.judgedBy === "heart" ? "im geplanten Pulsbereich" : "bei der geplanten Leistung";
const planText = (story: DebriefStory, power: PowerText): string =>
  story.facts.judgedBy === "heart" && story.heartBand !== null
    ? `dem geplanten Puls von ${whole(story.heartBand.lowBpm)} bis ${whole(story.heartBand.highBpm)}`
    : story.targetW === null || byBlocks(story)
      ? "dem Plan"
      : `den geplanten ${power(story.targetW)}`;

/** `, zum Beispiel 49 s bei 275 W, dann 16 s ohne Druck`; leer, wo nichts es zeigt. */
function exampleText({ example }: DebriefStory, power: PowerText): string {
  if (example === null) return "";
  const then = example.offS === null ? "" : `, dann ${length(example.offS)} ohne Druck`;
  return `, zum Beispiel ${length(example.forS)} bei ${power(example.meanW)}${then}`;
}

function changeLine(story: DebriefStory, power: PowerText, who: Voice): string {
  if (story.words.change !== null) return story.words.change;
  const plan = planText(story, power);
  const example = exampleText(story, power);
  const percent = `${whole(story.percent)} % des Hauptteils`;
  const lag = who("lagst du", "lag der Fahrer");
  const rise = who("Geh jede Steigung ruhiger an", "Jede Steigung ruhiger angehen");
  const closer = who("fahr etwas näher am Plan", "etwas näher am Plan fahren");
  const press = who("halte leichten Druck auf den Pedalen", "leichten Druck auf den Pedalen halten");
  const turning = who(
    "Halte die Beine unter leichtem Druck in Bewegung",
    "Die Beine unter leichtem Druck in Bewegung halten",
  );
  const spin = who("Dreh gleichmäßig", "Gleichmäßig drehen");
  const begin = who("Fang leichter an", "Leichter anfangen");
  const easier = who("Fang etwas leichter an", "Etwas leichter anfangen");
  const puls = who("dein Puls", "der Puls des Fahrers");
  const lost = story.lostS === null ? "" : `, zusammen ${length(story.lostS)}`;
  switch (story.teaching) {
    case "offOverTop":
      return `${rise}: ${capital(times(story.times))} ${lag} dort weit über ${plan} und ${who("hast", "hat")} oben nicht mehr getreten${example}.`;
    case "rises":
      return `${rise}: ${percent} ${lag} über ${plan}, meist bergauf${example}.`;
    case "surges":
      return `${who("Fahr gleichmäßiger", "Gleichmäßiger fahren")}: ${percent} ${lag} über ${plan}, viel davon in ${story.times} Spitzen${example}.`;
    case "tooHard":
      if (swings(story))
        return (
          `${who("Fahr gleichmäßiger", "Gleichmäßiger fahren")}: ${percent} ${lag} über ${plan}, ` +
          `${whole(story.facts.shares?.belowPercent ?? null)} % darunter${example}.`
        );
      return `${who("Fahr leichter", "Leichter fahren")}: ${percent} ${lag} über ${plan}${example}.`;
    case "breaks":
      return story.setting === "trainer"
        ? `${turning}: ${capital(times(story.times))} war er weg${lost}.`
        : `Wo die Straße frei ist und eben oder bergauf geht, ${press}: Dort war er ${times(story.times)} weg${lost}.`;
    case "tooEasy":
      return story.setting === "trainer"
        ? `${who("Fahr etwas näher am Plan", "Etwas näher am Plan fahren")}: ${percent} ${lag} unter ${plan}.`
        : `Wo die Straße frei ist und eben oder bergauf geht, ${closer}: ${percent} ${lag} unter ${plan}.`;
    case "fade":
      return `${begin}, damit das Ende hält: Von der ersten zur letzten Stunde fiel die Leistung um ${whole(story.percent)} %.`;
    case "cadence":
      return `${spin}: ${capital(times(story.times))} lag ${who("deine", "die")} Trittfrequenz außerhalb des Üblichen.`;
    case "drift":
      return story.onsetS === null
        ? `${easier}: Bei gleicher Leistung lag ${puls} am Ende ${beats(story.driftBeats ?? 0)} höher ` +
            `(plus/minus ${whole(story.driftGiveOrTake)}).`
        : `${easier}: ${capital(puls)} begann ${climbText(story)} zu steigen.`;
    case "nothing":
      return nothingLine(story, who);
    case "rest":
      return story.facts.hold === null
        ? "Diese Fahrt wird gezeigt, ohne dass daran etwas zu ändern wäre."
        : `An dieser Fahrt gibt es nichts zu ändern: ${FIRST[firstOf(story.facts.hold)]}.`;
  }
}

/** The beginning of a climb as the interval that it is; the one a coach set is one time. */
function climbText({ onsetS, onsetLowS, onsetHighS }: DebriefStory): string {
  return onsetLowS === null || onsetHighS === null || onsetLowS === onsetHighS
    ? `nach etwa ${aboutText(onsetS)}`
    : `irgendwann zwischen ${aboutText(onsetLowS)} und ${aboutText(onsetHighS)}`;
}

function nothingLine(story: DebriefStory, who: Voice): string {
  const { facts } = story;
  if (story.doubt !== null)
    return "Am Plan wird hier nichts gemessen: Was er verlangt, passt nicht zu dem, was gefahren wurde.";
  if (facts.mainS < SHORT_RECORDING_S)
    return littleCounts(story)
      ? "Von dieser Fahrt zählt zu wenig, um zu sagen, was zu ändern ist."
      : "Diese Aufzeichnung ist zu kurz, um zu sagen, was zu ändern ist.";
  if (facts.judgedBy === null) return "Für diese Fahrt gab es keinen Plan, an dem sie zu messen wäre.";
  if (facts.shares === null) return "Von dieser Fahrt ist zu wenig bekannt, um sie am Plan zu messen.";
  return facts.shares.inPercent >= 60
    ? "Nichts zu ändern: Diese Fahrt war wie geplant."
    : who("Nichts sticht heraus: Fahr etwas näher am Plan.", "Nichts sticht heraus: etwas näher am Plan fahren.");
}

/** Was verlangt ist: `160 W`, oder der Pulsbereich. */
function asked(story: DebriefStory, power: PowerText): string {
  if (byBlocks(story)) return "nach Plan";
  if (story.targetW !== null) return power(story.targetW);
  if (story.heartBand !== null)
    return `mit Puls ${whole(story.heartBand.lowBpm)} bis ${whole(story.heartBand.highBpm)}`;
  return "nach Plan";
}

/** Worauf der Plan zielt, mit dem Wort davor. */
function aim(story: DebriefStory, power: PowerText): string {
  const { targetW, heartBand } = story;
  if (byBlocks(story)) return "am Plan";
  if (targetW !== null) return `an ${power(targetW)}`;
  return heartBand === null
    ? "am Plan"
    : `an einem Puls von ${whole(heartBand.lowBpm)} bis ${whole(heartBand.highBpm)}`;
}

/** Was verlangt war und was gefahren wurde. */
const doubtText = (doubt: TargetDoubt, power: PowerText): string =>
  doubt.by === "power"
    ? `Verlangt waren ${power(doubt.askedW)}, gefahren im Mittel ${power(doubt.riddenW)}`
    : `Verlangt war ein Puls von ${doubt.lowBpm} bis ${doubt.highBpm}, gefahren im Mittel ${doubt.riddenBpm}`;

/** `Beim letzten Mal verlangt 1 h 30 min: gehalten 1 h 20 min bis 1 h 35 min.` Leer, wo nichts verlangt war. */
function askedLast({ facts, heldLowS, heldHighS }: DebriefStory): string {
  if (facts.askedLastS === null) return "";
  const held =
    heldLowS === null
      ? `gefahren ${length(facts.mainS)}, wie lange es hielt, sagt diese Fahrt nicht`
      : heldHighS === null
        ? `gehalten mindestens ${aboutText(heldLowS)}`
        : heldHighS === heldLowS
          ? `gehalten ${aboutText(heldLowS)}`
          : `gehalten ${aboutText(heldLowS)} bis ${aboutText(heldHighS)}`;
  return `Beim letzten Mal verlangt ${length(facts.askedLastS)}: ${held}. `;
}

function nextLine(story: DebriefStory, power: PowerText, who: Voice): string {
  if (story.words.next !== null) return story.words.next;
  const { next } = story;
  const what = asked(story, power);
  const ride = who("Fahr", "Für den Fahrer:");
  const before = next.kind === "rest" || next.kind === "no plan" || next.kind === "target" ? "" : askedLast(story);
  switch (next.kind) {
    case "rest":
      return restLine(next.topics);
    case "target":
      return `${who("Sprich mit deinem Trainer zuerst über das Ziel", "Zuerst klären Fahrer und Trainer das Ziel")}: ${doubtText(next.doubt, power)}.`;
    case "not known":
      return `${before}Von dieser Fahrt ist zum Planen zu wenig bekannt${who(": Frag deinen Trainer, was als Nächstes kommt", "")}.`;
    case "coach":
      return `${before}${ride} ${what}, ${length(next.askS)} lang.`;
    case "too short":
      return (
        `${before}${littleCounts(story) ? "Von dieser Fahrt zählt zu wenig" : "Diese Aufzeichnung ist zu kurz"} ` +
        `zum Planen${who(": Frag deinen Trainer, was als Nächstes kommt", "")}.`
      );
    case "no plan":
      return who(
        "Sprich mit deinem Trainer ab, wofür die nächste Ausfahrt ist: Für diese gab es keinen Plan.",
        "Was als Nächstes kommt, entscheiden Fahrer und Trainer.",
      );
    case "enough":
      return `${before}${ride} wieder ${what}, ${length(next.askS)} lang: So viel verlangt ${story.event?.name ?? who("dein Ziel", "das Ziel")}.`;
    case "longer":
      return `${before}${ride} ${what}, ${length(next.askS)} lang, das sind ${length(next.moreS)} mehr als dieses Mal.`;
    case "same": {
      if (next.because === "far")
        return (
          `${before}${ride} noch einmal ${length(next.askS)}, näher ${aim(story, power)}: ` +
          `Dieses Mal ${who("warst du", "war der Fahrer")} ${whole(story.facts.shares?.inPercent ?? null)} % des Hauptteils dort.`
        );
      const why = {
        change: story.teaching === "nothing" ? ", näher am Plan" : ", mit dieser einen Änderung",
        "can't tell": `: Wie lange ${who("dein Puls", "der Puls")} gehalten hat, sagt diese Fahrt nicht`,
        rose: ", am Anfang etwas leichter",
      }[next.because];
      return `${before}${ride} noch einmal ${what}, ${length(next.askS)} lang${why}.`;
    }
  }
}

function compareLine({ facts }: DebriefStory): string | null {
  const { lastLike } = facts;
  // Neben einer Fahrt, auf der es einem nicht gut ging, steht keine andere.
  if (lastLike === null || facts.hold !== null) return null;
  const { inBand, breaksAnHour, heart } = lastLike;
  const parts = [
    ...(inBand === null ? [] : [`${whole(inBand.now)} % im Plan, nach ${whole(inBand.before)} %`]),
    ...(breaksAnHour === null
      ? []
      : [`${perHour(breaksAnHour.now)} lange Druckpausen in der Stunde, nach ${perHour(breaksAnHour.before)}`]),
    ...(heart === null
      ? []
      : [
          `Puls anfangs bei gleicher Leistung ${beats(Math.abs(heart.beats))} ` +
            `${heart.beats > 0 ? "höher" : "niedriger"} (plus/minus ${whole(heart.giveOrTake)})`,
        ]),
  ];
  if (parts.length === 0) return null;
  return `Im Vergleich zur letzten ähnlichen Ausfahrt (${rideDateText(lastLike.startUtcMs, null, "de")}): ${parts.join("; ")}.`;
}

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
        moment.meanW === null
          ? "Die Steigung hinauf"
          : moment.targetW !== null && moment.meanW > moment.targetW
            ? `Am Anstieg: ${power(moment.meanW)}${planned}`
            : `Die Steigung hinauf: ${power(moment.meanW)}${planned}`,
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

/** German: the second language. */
export const debriefDe = (power: PowerText, who: Voice): DebriefPhrases => ({
  language: "de",
  heldLine: (story) => heldLine(story, power, who),
  changeLine: (story) => changeLine(story, power, who),
  nextLine: (story) => nextLine(story, power, who),
  compareLine,
  momentName: (kind) => momentName(kind, who),
  page: pageDe(power, who),
  film: {
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
      { label: "Hauptteil", value: length(plan.mainS) },
      ...skillRows(plan.skills, "de"),
      ...(plan.eventS === null ? [] : [{ label: plan.eventName ?? "Ziel", value: length(plan.eventS) }]),
    ],
    changeTitle: "Eine Sache ändern",
    closingTitle: "Die nächste Ausfahrt",
    closingCaution:
      "Bremse, rolle und halte, wann immer die Straße es verlangt. Fass weder Kamera noch Radcomputer an, solange du fährst. " +
      "Kein ärztlicher Rat: bei Brustschmerz, Schwindel oder Herzrasen anhalten und Hilfe holen.",
    compareTitle: "Neben einer früheren Fahrt",
    chartTitle: ({ hasPower, hasHeart }) =>
      hasPower && hasHeart ? "Leistung und Puls" : hasPower ? "Leistung" : "Puls",
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
  },
});
