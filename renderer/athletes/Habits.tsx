import type { Athlete } from "../../main/contract/athlete.ts";
import { Field } from "../look/Field.tsx";
import { athletes as words } from "../words/athletes.ts";

interface Props {
  readonly athlete: Pick<Athlete, "language" | "units" | "preset">;
  readonly onChange: (part: Partial<Athlete>) => void;
}

const PRESETS = Object.keys(words.presets) as Athlete["preset"][];

/** Language, units and the usual film. */
export function Habits({ athlete, onChange }: Props) {
  return (
    <div className="plan-row">
      <Field label={words.language}>
        {(props) => (
          <select
            {...props}
            value={athlete.language}
            onChange={(changed) => onChange({ language: changed.target.value as Athlete["language"] })}
          >
            <option value="en">{words.languages.en}</option>
            <option value="de">{words.languages.de}</option>
          </select>
        )}
      </Field>
      <Field label={words.units}>
        {(props) => (
          <select
            {...props}
            value={athlete.units}
            onChange={(changed) => onChange({ units: changed.target.value as Athlete["units"] })}
          >
            <option value="metric">{words.unitNames.metric}</option>
            <option value="imperial">{words.unitNames.imperial}</option>
          </select>
        )}
      </Field>
      <Field label={words.preset}>
        {(props) => (
          <select
            {...props}
            value={athlete.preset}
            onChange={(changed) => onChange({ preset: changed.target.value as Athlete["preset"] })}
          >
            {PRESETS.map((preset) => (
              <option key={preset} value={preset}>
                {words.presets[preset]}
              </option>
            ))}
          </select>
        )}
      </Field>
    </div>
  );
}
