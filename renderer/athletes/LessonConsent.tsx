import type { Athlete } from "../../main/contract/athlete.ts";
import { TextField } from "../look/TextField.tsx";
import { athletes as words } from "../words/athletes.ts";

interface Props {
  readonly value: Athlete["lessonConsent"];
  /** It was given or refused, but not when and how. */
  readonly fault: boolean;
  readonly onChange: (value: Athlete["lessonConsent"]) => void;
}

type Consent = "unasked" | "given" | "refused";

/** Whether others may be shown a lesson made of this athlete's rides. */
export function LessonConsent({ value, fault, onChange }: Props) {
  const consent: Consent = value === null ? "unasked" : value.given ? "given" : "refused";
  return (
    <fieldset className="stack">
      <legend>{words.consent}</legend>
      <div className="oneof">
        {(["unasked", "given", "refused"] as const).map((one) => (
          <label key={one}>
            <input
              type="radio"
              name="consent"
              checked={consent === one}
              onChange={() =>
                onChange(one === "unasked" ? null : { given: one === "given", dateText: value?.dateText ?? "" })
              }
            />
            {words.consents[one]}
          </label>
        ))}
      </div>
      {value !== null && (
        <TextField
          label={words.consentWhen}
          fault={fault ? words.consentFault : null}
          value={value.dateText === "" ? null : value.dateText}
          onChange={(dateText) => onChange({ given: value.given, dateText: dateText ?? "" })}
        />
      )}
    </fieldset>
  );
}
