import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { PlanSkill } from "../../main/contract/plan.ts";
import { askedSkills, skillRows, skillWords } from "./skillWords.ts";
import { durationText as length, wholeText as whole } from "./numbers.ts";

/** A plan in plain values, for the half page an athlete reads before the ride. Null: not asked for. */
interface PlanSheetFacts {
  readonly setting: "road" | "trainer" | "group";
  readonly lowW: number | null;
  readonly highW: number | null;
  readonly heartLowBpm: number | null;
  readonly heartHighBpm: number | null;
  readonly warmUpS: number | null;
  readonly coolDownS: number | null;
  readonly blocks: readonly {
    readonly startS: number;
    readonly endS: number;
    readonly kind: "steady" | "effort" | "rest";
    readonly targetW: number | null;
  }[];
  readonly skills?: readonly PlanSkill[];
  /** The whole ride, s. */
  readonly lengthS: number | null;
  readonly eventName: string | null;
  readonly eventS: number | null;
}

export interface PlanSheetPhrases {
  readonly title: string;
  readonly doTitle: string;
  /** Of the drawing of what is asked for. */
  readonly drawingTitle: string;
  readonly powerAxis: string;
  readonly timeAxis: string;
  readonly bandKey: string;
  readonly mainPart: string;
  rows(facts: PlanSheetFacts): { label: string; value: string }[];
  todo(facts: PlanSheetFacts): string[];
  readonly filmTitle: string;
  readonly film: readonly string[];
  readonly caution: string;
}

const en: PlanSheetPhrases = {
  title: "Your next ride",
  doTitle: "How to ride it",
  drawingTitle: "What is asked for",
  powerAxis: "power (W)",
  timeAxis: "ride time (h:mm)",
  bandKey: "planned power",
  mainPart: "main part",
  rows: (facts) => [
    { label: "The whole ride", value: facts.lengthS === null ? "as long as you agreed" : length(facts.lengthS) },
    ...(facts.warmUpS === null ? [] : [{ label: "Warm up", value: length(facts.warmUpS) }]),
    ...(facts.lowW === null || facts.highW === null
      ? []
      : [{ label: "Main part", value: `${whole(facts.lowW)} to ${whole(facts.highW)} W` }]),
    ...(facts.heartLowBpm === null || facts.heartHighBpm === null
      ? []
      : [{ label: "Heart rate", value: `${whole(facts.heartLowBpm)} to ${whole(facts.heartHighBpm)}` }]),
    ...facts.blocks.map((block) => ({
      label: { steady: "Steady", effort: "Effort", rest: "Rest" }[block.kind],
      value: `${length(block.endS - block.startS)}${block.targetW === null ? "" : ` at ${whole(block.targetW)} W`}, from ${length(block.startS)}`,
    })),
    ...skillRows(askedSkills(facts.skills ?? []), "en"),
    ...(facts.coolDownS === null ? [] : [{ label: "Cool down", value: length(facts.coolDownS) }]),
    ...(facts.eventS === null ? [] : [{ label: facts.eventName ?? "Your event", value: length(facts.eventS) }]),
  ],
  todo: (facts) => [
    facts.setting === "trainer"
      ? "Keep a light, even pressure on the pedals."
      : "Where the road is free and level or rising, keep a light, even pressure on the pedals.",
    ...(facts.setting === "trainer"
      ? ["Put the fan on and the bottle in reach before you start."]
      : ["Start each rise gently. Brake, coast and stop whenever the road asks."]),
    ...(askedSkills(facts.skills ?? []).length === 0 ? [] : [skillWords("en").where]),
    "Afterwards, write down how it felt, the heat, and what you ate and drank.",
  ],
  filmTitle: "If you film",
  film: [
    "Set the clocks of camera and bike computer from one phone.",
    "Standing still, film the bike computer's clock for 3 s at the start and after each battery change.",
    "Wait for the bike computer to know where it is. Let it record every second, also while you stand.",
    "Check what local law allows. Touch nothing while you ride.",
  ],
  caution: "Not medical advice. Stop and call for help if you have chest pain, feel faint or your heart races.",
};

const de: PlanSheetPhrases = {
  title: "Deine nächste Ausfahrt",
  doTitle: "So fährst du sie",
  drawingTitle: "Was verlangt ist",
  powerAxis: "Leistung (W)",
  timeAxis: "Fahrzeit (h:mm)",
  bandKey: "geplante Leistung",
  mainPart: "Hauptteil",
  rows: (facts) => [
    { label: "Die ganze Ausfahrt", value: facts.lengthS === null ? "so lang wie abgemacht" : length(facts.lengthS) },
    ...(facts.warmUpS === null ? [] : [{ label: "Einrollen", value: length(facts.warmUpS) }]),
    ...(facts.lowW === null || facts.highW === null
      ? []
      : [{ label: "Hauptteil", value: `${whole(facts.lowW)} bis ${whole(facts.highW)} W` }]),
    ...(facts.heartLowBpm === null || facts.heartHighBpm === null
      ? []
      : [{ label: "Puls", value: `${whole(facts.heartLowBpm)} bis ${whole(facts.heartHighBpm)}` }]),
    ...facts.blocks.map((block) => ({
      label: { steady: "Gleichmäßig", effort: "Hart", rest: "Pause" }[block.kind],
      value: `${length(block.endS - block.startS)}${block.targetW === null ? "" : ` bei ${whole(block.targetW)} W`}, ab ${length(block.startS)}`,
    })),
    ...skillRows(askedSkills(facts.skills ?? []), "de"),
    ...(facts.coolDownS === null ? [] : [{ label: "Ausrollen", value: length(facts.coolDownS) }]),
    ...(facts.eventS === null ? [] : [{ label: facts.eventName ?? "Dein Ziel", value: length(facts.eventS) }]),
  ],
  todo: (facts) => [
    facts.setting === "trainer"
      ? "Halte leichten, gleichmäßigen Druck auf den Pedalen."
      : "Wo die Straße frei ist und eben oder bergauf geht, halte leichten, gleichmäßigen Druck auf den Pedalen.",
    ...(facts.setting === "trainer"
      ? ["Stell den Lüfter an und die Flasche bereit, bevor du beginnst."]
      : ["Geh jede Steigung ruhig an. Bremse, rolle und halte, wann immer die Straße es verlangt."]),
    ...(askedSkills(facts.skills ?? []).length === 0 ? [] : [skillWords("de").where]),
    "Schreib danach auf, wie es war, wie heiß, und was du gegessen und getrunken hast.",
  ],
  filmTitle: "Wenn du filmst",
  film: [
    "Stell die Uhren von Kamera und Radcomputer nach einem Telefon.",
    "Filme im Stehen 3 s lang die Uhr des Radcomputers, am Anfang und nach jedem Akkuwechsel.",
    "Warte, bis der Radcomputer weiß, wo er ist. Lass ihn jede Sekunde aufzeichnen, auch im Stand.",
    "Prüfe, was das Recht vor Ort erlaubt. Fass beim Fahren nichts an.",
  ],
  caution:
    "Kein ärztlicher Rat. Halt an und ruf Hilfe, wenn die Brust schmerzt, dir schwindlig wird oder das Herz rast.",
};

/** The phrases of the plan's half page in one language. */
export function planSheetWords(language: Language): PlanSheetPhrases {
  return language === "de" ? de : en;
}
