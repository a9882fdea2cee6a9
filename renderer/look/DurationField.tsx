import { useState } from "react";
import { hourText } from "../../overlay/words/numbers.ts";
import { Field } from "./Field.tsx";
import { secondsOf } from "./secondsOf.ts";
import { TypedInput } from "./TypedInput.tsx";
import { useTyped } from "./useTyped.ts";

interface Props {
  readonly label: string;
  readonly hint?: string | undefined;
  /** Said when what was typed is no time. */
  readonly fault: string;
  /** Seconds, or null for nothing. */
  readonly valueS: number | null;
  /** What may be asked, s. */
  readonly leastS?: number;
  readonly mostS?: number;
  /** How it is written; every way is read. */
  readonly written?: (valueS: number) => string;
  readonly onChange: (valueS: number | null) => void;
}

/** A length of time, or nothing. */
export function DurationField(props: Props) {
  const { label, hint, fault, valueS, onChange } = props;
  const { leastS = 1, mostS = Infinity, written = hourText } = props;
  const text = valueS === null ? "" : written(valueS);
  const [wrong, setWrong] = useState(false);
  const { typed, type, done: handedOn, back } = useTyped(text, () => setWrong(false));
  const done = () => {
    handedOn();
    const next = typed.trim() === "" ? null : secondsOf(typed, leastS);
    const good = next === null || next <= mostS;
    setWrong(!good);
    if (!good || typed.trim() === text) return;
    if (next === valueS) back();
    else onChange(next);
  };
  return (
    <Field label={label} hint={hint} fault={wrong ? fault : null}>
      {(props) => <TypedInput {...props} typed={typed} onType={type} onDone={done} />}
    </Field>
  );
}
