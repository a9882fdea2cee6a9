import { type PlanSkill, SKILLS, type Skill } from "../../main/contract/plan.ts";
import { skillWords } from "../../overlay/words/skillWords.ts";
import { NumberField } from "../look/NumberField.tsx";
import { Options } from "../look/SelectField.tsx";
import { skim as words } from "../words/skim.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

export interface SkillProps {
  readonly skills: readonly PlanSkill[];
  readonly locked: boolean;
  /** How often one was done; null: not said. */
  readonly onPractised: (skill: Skill, done: number | null) => void;
}

/** Times one may be done; as the form of a plan has it. */
const MOST = 99;

/** Skills to practise, each with how often the coach saw it done: no sensor tells. */
export function SkillTicks({ skills, locked, onPractised }: SkillProps) {
  const { title, names } = skillWords(WINDOW_LANGUAGE);
  const others = SKILLS.filter((one) => skills.every(({ skill }) => skill !== one));
  if (locked && skills.length === 0) return null;
  return (
    <section className="part" aria-label={title}>
      <header>
        <h2>{title}</h2>
      </header>
      <p className="quiet small">{words.skillsHint}</p>
      {skills.map(({ skill, repeats, done }) => (
        <NumberField
          key={skill}
          label={names[skill]}
          unit={repeats === null || (done !== null && done > repeats) ? undefined : words.ofRepeats(repeats)}
          value={done}
          least={0}
          most={MOST}
          disabled={locked}
          onChange={(value) => onPractised(skill, value === null ? null : Math.round(value))}
        />
      ))}
      {!locked && others.length > 0 && (
        <label className="skim-filter">
          <span>{words.anotherSkill}</span>
          <select className="input" value="" onChange={(event) => onPractised(event.target.value as Skill, 1)}>
            <option value="">{words.askedChoose}</option>
            <Options of={others.map((one) => [one, names[one]])} />
          </select>
        </label>
      )}
    </section>
  );
}
