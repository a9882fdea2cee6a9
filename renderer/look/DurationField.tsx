import { useEffect, useState } from "react";
import { hourText } from "../../overlay/words/numbers.ts";
import { Field } from "./Field.tsx";
import { secondsOf } from "./secondsOf.ts";

interface Props {
  readonly label: string;
  readonly hint?: string | undefined;
  /** Said when what was typed is no time. */
  readonly fault: string;
  /** Seconds, or null for nothing. */
  readonly valueS: number | null;
  readonly disabled?: boolean;
  readonly onChange: (valueS: number | null) => void;
}

/** A length of time in hours and minutes, or nothing. */
export function DurationField({ label, hint, fault, valueS, disabled = false, onChange }: Props) {
  const text = valueS === null ? "" : hourText(valueS);
  const [typed, setTyped] = useState(text);
  const [wrong, setWrong] = useState(false);
  useEffect(() => {
    setTyped(text);
    setWrong(false);
  }, [text]);
  const done = () => {
    const next = typed.trim() === "" ? null : secondsOf(typed);
    setWrong(next !== null && Number.isNaN(next));
    if (next !== null && Number.isNaN(next)) return;
    if (typed.trim() !== text) onChange(next);
  };
  return (
    <Field label={label} hint={hint} fault={wrong ? fault : null}>
      {(props) => (
        <input
          {...props}
          value={typed}
          disabled={disabled}
          autoComplete="off"
          onChange={(event) => setTyped(event.target.value)}
          onBlur={done}
          onKeyDown={(event) => {
            if (event.key === "Enter") done();
          }}
        />
      )}
    </Field>
  );
}
