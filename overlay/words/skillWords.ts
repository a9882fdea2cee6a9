import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { PlanSkill, Skill } from "../../main/contract/plan.ts";

/** What is said of skills to practise: before the ride, after it, on paper and on film. */
export interface SkillPhrases {
  readonly title: string;
  readonly names: Readonly<Record<Skill, string>>;
  /** How often: as asked for, or as done where the coach ticked it. */
  times(skill: PlanSkill): string;
  /** Where to practise, before the ride. */
  readonly where: string;
}

const en: SkillPhrases = {
  title: "Practice",
  names: { drops: "Hands in the drops", "one hand": "One hand", breathing: "Breathing", corners: "Cornering drill" },
  times: ({ repeats, done }) => {
    if (done === null) return repeats === null ? "" : repeats === 1 ? "once" : `${repeats} times`;
    if (repeats === null || done > repeats) return done === 1 ? "done once" : `done ${done} times`;
    return `${done} of ${repeats} done`;
  },
  where: "Practise on a dry, open road without traffic, one thing at a time; leave it out where you are not sure.",
};

const de: SkillPhrases = {
  title: "Übungen",
  names: { drops: "Unterlenker", "one hand": "Einhändig", breathing: "Atmung", corners: "Kurvenübung" },
  times: ({ repeats, done }) => {
    if (done === null) return repeats === null ? "" : `${repeats}-mal`;
    return repeats === null || done > repeats ? `${done}-mal gemacht` : `${done} von ${repeats} gemacht`;
  },
  where:
    "Übe auf trockener, übersichtlicher Straße ohne Verkehr, eines nach dem anderen; lass es weg, wo du unsicher bist.",
};

/** The phrases of practised skills in one language. */
export function skillWords(language: Language): SkillPhrases {
  return language === "de" ? de : en;
}

/** Those that were asked for: a plan shows no others, whatever was seen on the ride. */
export function askedSkills(skills: readonly PlanSkill[]): PlanSkill[] {
  return skills.filter(({ repeats }) => repeats !== null);
}

/** Rows of a table, a skill each. */
export function skillRows(skills: readonly PlanSkill[], language: Language): { label: string; value: string }[] {
  const words = skillWords(language);
  return skills.map((one) => ({ label: words.names[one.skill], value: words.times(one) }));
}
