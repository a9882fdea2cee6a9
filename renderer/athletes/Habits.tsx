import type { Athlete } from "../../main/contract/athlete.ts";
import { LANGUAGES, UNIT_SYSTEMS } from "../../main/contract/languageAndUnits.ts";
import { PRESETS_BY_USE } from "../../main/contract/presets.ts";
import { SelectField } from "../look/SelectField.tsx";
import { athletes as words } from "../words/athletes.ts";

interface Props {
  readonly athlete: Pick<Athlete, "language" | "units" | "preset">;
  readonly onChange: (part: Partial<Athlete>) => void;
}

/** Language, units and the usual film. */
export function Habits({ athlete, onChange }: Props) {
  return (
    <div className="plan-row">
      <SelectField
        label={words.language}
        value={athlete.language}
        options={LANGUAGES.map((language) => [language, words.languages[language]])}
        onChoose={(language) => onChange({ language })}
      />
      <SelectField
        label={words.units}
        value={athlete.units}
        options={UNIT_SYSTEMS.map((units) => [units, words.unitNames[units]])}
        onChoose={(units) => onChange({ units })}
      />
      <SelectField
        label={words.preset}
        value={athlete.preset}
        options={PRESETS_BY_USE.map((preset) => [preset, words.presets[preset]])}
        onChoose={(preset) => onChange({ preset })}
      />
    </div>
  );
}
