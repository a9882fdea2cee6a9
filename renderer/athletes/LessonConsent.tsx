import type { Athlete } from "../../main/contract/athlete.ts";
import { OneOf } from "../look/OneOf.tsx";
import { TextField } from "../look/TextField.tsx";
import { athletes as words } from "../words/athletes.ts";

interface Props {
  readonly value: Athlete["lessonConsent"];
  /** It was given or refused, but not when and how. */
  readonly fault: boolean;
  readonly onChange: (value: Athlete["lessonConsent"]) => void;
}

const CONSENTS = ["unasked", "given", "refused"] as const;

/** Whether others may be shown a lesson made of this athlete's rides. */
export function LessonConsent({ value, fault, onChange }: Props) {
  return (
    <fieldset className="stack">
      <legend>{words.consent}</legend>
      <OneOf
        name="consent"
        options={CONSENTS}
        chosen={value === null ? "unasked" : value.given ? "given" : "refused"}
        said={(one) => words.consents[one]}
        onChoose={(one) =>
          onChange(one === "unasked" ? null : { given: one === "given", dateText: value?.dateText ?? "" })
        }
      />
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
