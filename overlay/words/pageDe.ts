import type { DriftFacts } from "../../main/contract/debriefFacts.ts";
import { aboutText } from "./aboutText.ts";
import { rideDateText } from "./dateText.ts";
import { driftLine } from "./driftLine.ts";
import { clockText, distanceText, durationText as length, wholeText as whole } from "./numbers.ts";
import type { HeartFacts, MomentFacts, PagePhrases, PowerText } from "./debriefPhrases.ts";
import { harderAtTheEndW, heartStory, saysNothingMore, type HeartStory } from "./heartStory.ts";
import { firstOf } from "./restFirst.ts";
import type { Voice } from "./voice.ts";
import { shownRise } from "./reading/shownRise.ts";

const percent = (value: number | null): string => (value === null ? "–" : `${whole(value)} %`);
/** Without its unit. */
const number = (text: string): string => text.replace(/ \S+$/, "");
const beats = (value: number): string =>
  `${whole(Math.abs(value))} ${Math.abs(Math.round(value)) === 1 ? "Schlag" : "Schläge"}`;
const change = (value: number): string =>
  Math.round(value) === 0 ? "gleich viel" : `${beats(value)} ${value > 0 ? "mehr" : "weniger"}`;

const would = (value: number): string => (Math.abs(Math.round(value)) < 2 ? "wäre" : "wären");

const CLIMB: Record<Exclude<HeartStory, "began">, string> = {
  "start unclear": "Er stieg, aber diese Fahrt kann nicht zeigen, ab wann.",
  "rose from the start": "Er stieg von Anfang an.",
  unsteady: "Dazwischen stieg er nicht stetig.",
  "within noise": "Eine Fahrt allein zeigt da keinen Unterschied.",
  level: "Er blieb bis zum Ende auf gleicher Höhe.",
  "no start": "Es gibt zu wenig Daten, um zu sagen, ab wann er stieg.",
  "no data": "Es gibt zu wenig Daten, um zu sagen, ob er stieg.",
};

function climb(heart: HeartFacts): string {
  const story = heartStory(heart);
  return story === "began"
    ? `Er begann nach etwa ${aboutText(heart.onsetS)} zu steigen, irgendwann zwischen ${aboutText(heart.onsetLowS)} und ${aboutText(heart.onsetHighS)}.`
    : CLIMB[story];
}

function heartSentences(heart: HeartFacts, drift: DriftFacts | null, power: PowerText, who: Voice): string[] {
  const rise = shownRise(heart.firstBpm, heart.lastBpm);
  if (rise === null) return [climb(heart)];
  const harderW = harderAtTheEndW(heart);
  const why =
    harderW === null || harderW === 0
      ? ""
      : `: Am Ende ${who("hast du", "hat der Fahrer")} ${power(Math.abs(harderW))} ${harderW > 0 ? "mehr" : "weniger"} getreten`;
  const same = driftLine(heart, drift, {
    told: (facts) =>
      `Bei gleicher Leistung ${would(facts.beats)} es ${change(facts.beats)} (plus/minus ${whole(facts.giveOrTake)})${why}.`,
    cannot: () => `Wie viel es bei gleicher Leistung wären, sagt diese Fahrt nicht${why}.`,
  });
  return [
    `${who("Dein Puls", "Der Puls")} war anfangs ${whole(heart.firstBpm)} und am Ende ${whole(heart.lastBpm)}: ${change(rise.beats)}.`,
    ...(heart.correctedForPower || heart.driftBeats === null
      ? same
      : ["Die Aufzeichnung hat keine Leistung, also steckt auch leichteres oder härteres Fahren in dieser Zahl."]),
    ...(saysNothingMore(heart, drift) ? [] : [climb(heart)]),
  ];
}

const DOCTOR = "Hast du mit einem Arzt gesprochen, oder willst du das?";

/** German page and message. */
export const pageDe = (power: PowerText, who: Voice): PagePhrases => ({
  three: "In drei Zeilen",
  wentWell: "Was gut war",
  toChange: "Was zu ändern ist",
  nextRide: "Die nächste Ausfahrt",
  planAndRide: "Der Plan und die Fahrt",
  columns: ["", "Plan", "Gefahren"],
  rows: (facts) => {
    const { plan } = facts;
    const distance = distanceText(facts.distanceM, facts.units, { decimal: "," });
    const band =
      plan.lowW === null || plan.highW === null ? null : `${number(power(plan.lowW))} bis ${number(power(plan.highW))}`;
    const asked = plan.targetW === null ? "" : band === null ? power(plan.targetW) : `${power(plan.targetW)} (${band})`;
    const heart =
      plan.heartLowBpm === null || plan.heartHighBpm === null
        ? ""
        : `${whole(plan.heartLowBpm)} bis ${whole(plan.heartHighBpm)}`;
    const { shares, pressed, meanW, meanBpm, meanRpm, mainS, longestUnbrokenS } = facts.facts;
    const row = (label: string, value: number | null, asked = ""): { label: string; plan: string; ride: string }[] =>
      value === null ? [] : [{ label, plan: asked, ride: whole(value) }];
    const off = shares?.offPercent ?? pressed?.offPercent ?? null;
    const unknown = shares?.unknownPercent ?? pressed?.unknownPercent ?? 0;
    return [
      ...(mainS < 1 ? [] : [{ label: "Hauptteil", plan: "", ride: length(mainS) }]),
      ...(meanW === null ? [] : [{ label: "Leistung im Mittel", plan: asked, ride: power(meanW) }]),
      ...(shares === null
        ? []
        : [
            {
              label: facts.facts.judgedBy === "heart" ? "Im Pulsbereich" : "Im Plan",
              plan: "",
              ride: percent(shares.inPercent),
            },
            { label: "Darunter", plan: "", ride: percent(shares.belowPercent) },
            { label: "Darüber", plan: "", ride: percent(shares.abovePercent) },
          ]),
      ...(pressed === null ? [] : [{ label: "Ohne Druck auf den Pedalen", plan: "", ride: percent(off) }]),
      ...(unknown === 0 ? [] : [{ label: "Nicht bekannt", plan: "", ride: percent(unknown) }]),
      ...(longestUnbrokenS === null
        ? []
        : [{ label: "Längste Zeit mit Druck", plan: "", ride: length(longestUnbrokenS) }]),
      ...row("Puls im Mittel", meanBpm, heart),
      ...row("Trittfrequenz im Mittel", meanRpm),
      {
        label: "Ganze Fahrt",
        plan: "",
        ride:
          facts.distanceM === null
            ? length(facts.elapsedS)
            : `${length(facts.elapsedS)}, ${distance.figure} ${distance.unit}`,
      },
    ];
  },
  setByCoach: "vom Trainer gesetzt",
  blocks: "Die Blöcke",
  blockColumns: ["", "Plan", "Gefahren", "Im Plan", "Zweite Hälfte", "Geschafft"],
  blockRow: (block) => [
    `${block.kind === "effort" ? "Hart" : "Gleichmäßig"}, ${clockText(block.startS)}, ${length(block.endS - block.startS)}`,
    block.targetW === null ? "–" : power(block.targetW),
    block.meanW === null ? "–" : power(block.meanW),
    percent(block.inPercent),
    block.halvesStepW === null
      ? "–"
      : block.halvesStepW === 0
        ? "gleich"
        : `${power(Math.abs(block.halvesStepW))} ${block.halvesStepW > 0 ? "mehr" : "weniger"}`,
    block.done === null ? "nicht bekannt" : block.done ? "ja" : "nein",
  ],
  powerAxis: (asPercent) => (asPercent ? "Leistung (% des Plans)" : "Leistung (W)"),
  heartAxis: "Puls (Schläge je Minute)",
  timeAxis: "Fahrzeit (h:mm)",
  bandKey: "geplante Leistung",
  mainPartKey: "Hauptteil",
  firstKey: "früh",
  lastKey: "spät",
  onsetKey: "beginnt zu steigen",
  chartAlt: (heart, facts) =>
    [
      `Diagramm: ${facts.hasPower && facts.hasHeart ? "Leistung und Puls" : facts.hasPower ? "Leistung" : "Puls"} über der Fahrzeit.`,
      facts.facts.meanW === null ? "" : `Die Leistung im Hauptteil war im Mittel ${power(facts.facts.meanW)}.`,
      heart.firstBpm === null || heart.lastBpm === null
        ? ""
        : `Der Puls war anfangs ${whole(heart.firstBpm)} und am Ende ${whole(heart.lastBpm)}.`,
    ]
      .filter((text) => text !== "")
      .join(" "),
  heart: (heart, drift) => heartSentences(heart, drift, power, who),
  moments: "Momente zum Ansehen",
  stillAlt: (name, startS) => `Bild von der Fahrt bei ${clockText(startS)}: ${name}`,
  momentHeading: (name, startS, about) => `${name}, bei ${about ? `etwa ${aboutText(startS)}` : clockText(startS)}`,
  momentSentence: (caption) => caption.map((line) => (/[.?!]$/.test(line) ? line : `${line}.`)).join(" "),
  event: who("Dein Ziel", "Das Ziel"),
  eventLines: (event, { hasHeart, hasPower }) => [
    `${event.name ?? "Das Ziel"} dauert etwa ${length(event.eventS)}.`,
    (hasHeart
      ? `Faustregel: ${hasPower ? "bei der geplanten Leistung " : ""}${length(event.leastS)} lang ein Puls auf ` +
        `gleicher Höhe, besser ${length(event.aimS)}. `
      : `Faustregel: ${length(event.leastS)} lang die geplante Leistung, besser ${length(event.aimS)}. `) +
      who("Dahin kommst du in kleinen Schritten, über Wochen.", "Dahin führen kleine Schritte, über Wochen."),
  ],
  weeksIntro: "Der Weg dahin, jede Woche ein Schritt, wenn alles gut geht:",
  weekLine: ({ mondayUtcMs, askS }) => `Woche vom ${rideDateText(mondayUtcMs, null, "de")}: ${length(askS)}`,
  eventKeys: { event: "das Ziel", least: "mindestens", aim: "besser", held: "diese Fahrt" },
  heldText: (lowS, highS) =>
    lowS === null
      ? "diese Fahrt sagt es nicht"
      : highS === null
        ? `mindestens ${aboutText(lowS)}`
        : highS === 0
          ? "noch nicht, er stieg von Anfang an"
          : `${aboutText(lowS)} bis ${aboutText(highS)}`,
  notes: "Von deinem Trainer",
  questions: "Fragen an dich",
  lessonQuestion: "Was würdest du diesem Fahrer sagen?",
  makeQuestions: (story, moments, heart, known) => {
    const asked = (one: MomentFacts): boolean =>
      story.facts.askable.some(({ startS, endS }) => startS < one.endS && endS > one.startS);
    const gone = moments.find((one) => one.kind === "lapse" && !one.setByCoach && asked(one));
    const hard = moments.find((one) => one.kind === "surge" || one.kind === "riseThenOff");
    if (story.next.kind === "rest")
      return [
        "Wie geht es dir jetzt?",
        {
          ...{ doctor: DOCTOR, well: DOCTOR, health: DOCTOR },
          sleep: "Hast du seither ausgeschlafen?",
          food: "Was hast du vor der Fahrt und unterwegs gegessen und getrunken?",
          "sleep and food": "Hast du seither genug geschlafen, gegessen und getrunken?",
          note: "Magst du mir mehr zu deiner Notiz sagen?",
        }[firstOf(story.next.topics)],
      ];
    return [
      ...(gone?.offS === undefined || gone.offS === null
        ? []
        : [`Was war bei ${clockText(gone.startS)}, als ${length(gone.offS)} lang kein Druck da war?`]),
      ...(hard === undefined || story.doubt !== null
        ? []
        : [`Wie hat es sich bei ${clockText(hard.startS)} angefühlt, wo du hart getreten hast?`]),
      ...(known.day ? [] : ["Wie war der Tag: Hitze, Schlaf, Essen und Trinken?"]),
      ...(heart.verdict === "began" ? [`Wie waren die Beine nach ${aboutText(heart.onsetS)}?`] : []),
      ...(story.teaching === "nothing" && story.next.kind === "longer" ? ["Hättest du so weiterfahren können?"] : []),
    ].slice(0, 3);
  },
  cautionsTitle: "Gut zu wissen",
  cautions: [
    "Das dient nur der Besprechung des Trainings. Es ist kein ärztlicher Rat, und Sportsensoren können falsch messen.",
    "Halt an und ruf Hilfe (112), wenn die Brust schmerzt, dir schwindlig wird, die Luft wegbleibt oder das Herz rast.",
    "Ein Puls weit über dem gewohnten, oder einer, der springt, liegt meist am Sensor. " +
      "Wenn du es spürst oder es wiederkommt: anhalten und einen Arzt fragen.",
    "Frag vor hartem Training einen Arzt, wenn du oder deine Familie Herzprobleme habt. Manche Medikamente " +
      "halten den Puls unten: dann sagen diese Zahlen wenig.",
    "An heißen Tagen leichter fahren und nach Durst trinken. Wenn jemand überhitzt: anhalten, sofort den ganzen Körper kühlen und Hilfe rufen.",
    "Bremse, rolle und halte, wann immer die Straße es verlangt. Das ist nie ein Fehler. Schau auf die " +
      "Straße, nicht auf die Zahlen, und fass weder Kamera noch Radcomputer an, solange du fährst. Was erlaubt ist, " +
      "sagt das Recht vor Ort.",
  ],
  footer: who(
    "Auf dem Rechner deines Trainers aus deiner Aufzeichnung erstellt. Jede Zahl stammt aus ihr.",
    "Auf dem Rechner des Trainers aus der Aufzeichnung erstellt. Jede Zahl stammt aus ihr.",
  ),
  message: (facts) => [
    `${facts.rider === null ? "Hallo" : `Hallo ${facts.rider}`}, hier ist der Film von ` +
      `${facts.title === null ? who("deiner Ausfahrt", "einer Ausfahrt") : `„${facts.title}“`} (${facts.filmLength}).`,
    facts.lines[0],
    facts.lines[1],
    facts.lines[2],
    facts.question ?? "Sag mir, wie es war.",
  ],
});
