import { useState } from "react";
import { Field } from "./Field.tsx";
import { TypedInput } from "./TypedInput.tsx";
import { useTyped } from "./useTyped.ts";
import { common } from "../words/common.ts";

interface Props {
  readonly label: string;
  readonly unit?: string | undefined;
  readonly hint?: string | undefined;
  /** Null: empty, not asked for. */
  readonly value: number | null;
  readonly least: number;
  readonly most: number;
  readonly disabled?: boolean;
  /** Called when the field is left or Enter is pressed, with a valid value only. */
  readonly onChange: (value: number | null) => void;
}

/** A number, or nothing. What can't be used is said and not handed on; either decimal mark is understood. */
export function NumberField({ label, unit, hint, value, least, most, disabled = false, onChange }: Props) {
  const [fault, setFault] = useState<string | null>(null);
  const { typed, type, done: handedOn, back } = useTyped(textOf(value), () => setFault(null));
  const done = () => {
    handedOn();
    const trimmed = typed.trim().replace(",", ".");
    const next = trimmed === "" ? null : Number(trimmed);
    if (next !== null && !(next >= least && next <= most)) return setFault(common.between(least, most));
    setFault(null);
    if (next !== value) onChange(next);
    else back();
  };
  return (
    <Field label={label} unit={unit} hint={hint} fault={fault}>
      {(props) => (
        <TypedInput {...props} inputMode="decimal" typed={typed} disabled={disabled} onType={type} onDone={done} />
      )}
    </Field>
  );
}

function textOf(value: number | null): string {
  return value === null ? "" : String(value);
}
