import { aboutText } from "./aboutText.ts";
import { clockText, durationText as length, wholeText as whole } from "./numbers.ts";
import type { PowerText } from "./debriefPhrases.ts";
import { byBlocks, type DebriefStory, littleCounts, SHORT_RECORDING_S, swings } from "./debriefStory.ts";
import { FIRST, RIDER_FIRST, restLine } from "./restDe.ts";
import { firstOf } from "./restFirst.ts";
import { skillWords } from "./skillWords.ts";
import type { Voice } from "./voice.ts";
import { rideDateText } from "./dateText.ts";
import type { TargetDoubt } from "../../main/contract/reading.ts";

export const times = (count: number): string => (count === 1 ? "einmal" : count === 2 ? "zweimal" : `${count}-mal`);
export const beats = (value: number): string =>
  `${whole(value)} ${Math.abs(Math.round(value)) === 1 ? "Schlag" : "Schläge"}`;

/** A sentence after a colon begins with a capital letter (Deutsche Rechtschreibung, § 81). */
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export function heldLine(story: DebriefStory, power: PowerText, who: Voice): string {
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
      return `${hast} ${held.asked ? "wie verlangt " : ""}geübt: ${skillWords("de").names[held.skill]}, ${times(held.done)}.`;
    case "smooth":
      return `Die Leistung war gleichmäßig: neun Zehntel der getretenen Zeit ${power(held.lowW)} bis ${power(held.highW)}.`;
    case "better":
      return held.what === "inBand"
        ? `Im Hauptteil ${warst} ${whole(held.now)} % der Zeit ${atPlan(story)}, nach ${whole(held.before)} % auf der letzten ähnlichen Ausfahrt.`
        : `Der Druck war seltener weg: ${perHour(held.now)} Druckpausen in der Stunde, nach ${perHour(held.before)} auf der letzten ähnlichen Ausfahrt.`;
    case "heat":
      return `${war} ${length(held.durationS)} in der Hitze unterwegs.`;
    case "told":
      return `${who("Du hast gesagt, wie es dir ging", "Der Fahrer hat gesagt, wie es ging")}: Das hilft mehr als jede Zahl hier.`;
    case "back":
      return `${bist} nach ${held.days} Tagen wieder da und ${who("warst", "war")} ${length(held.durationS)} unterwegs.`;
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

export function changeLine(story: DebriefStory, power: PowerText, who: Voice): string {
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
    case "efforts": {
      const ride = who("fahr jeden harten Block wie geplant", "jeden harten Block wie geplant fahren");
      return (
        `${story.setting === "trainer" ? capital(ride) : `Wo die Straße frei ist, ${ride}`}: ` +
        `${capital(someOf(story))} unter dem Plan${example}. ` +
        `${who("War es zu viel, sag es deinem Trainer", "War es zu viel, sollte der Trainer es wissen")}.`
      );
    }
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
        : `An dieser Fahrt gibt es nichts zu ändern: ${who(FIRST[firstOf(story.facts.hold)], RIDER_FIRST[firstOf(story.facts.hold)])}.`;
  }
}

/** `2 von 5 lagen`, of planned efforts. */
function someOf({ times: missed, facts }: DebriefStory): string {
  const of = facts.blocks.filter(({ kind }) => kind === "effort").length;
  if (of <= 1) return "er lag";
  if (missed >= of) return of === 2 ? "beide lagen" : `alle ${of} lagen`;
  return `${missed === 1 ? "einer" : missed} von ${of} ${missed === 1 ? "lag" : "lagen"}`;
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

export function nextLine(story: DebriefStory, power: PowerText, who: Voice): string {
  if (story.words.next !== null) return story.words.next;
  const { next } = story;
  const what = asked(story, power);
  const ride = who("Fahr", "Für den Fahrer:");
  const before = next.kind === "rest" || next.kind === "no plan" || next.kind === "target" ? "" : askedLast(story);
  switch (next.kind) {
    case "rest":
      return restLine(next.topics, who);
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
        // Neben "nichts zu ändern" wird keine Änderung erbeten.
        rose:
          story.teaching === "nothing"
            ? `: ${who("Dein Puls", "Der Puls")} ist unterwegs gestiegen, darum bleibt es bei dieser Dauer`
            : ", am Anfang etwas leichter",
      }[next.because];
      return `${before}${ride} noch einmal ${what}, ${length(next.askS)} lang${why}.`;
    }
  }
}

export function compareLine({ facts }: DebriefStory): string | null {
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
