import { Field } from "./Field.tsx";
import { TypedInput } from "./TypedInput.tsx";
import { useTyped } from "./useTyped.ts";

interface Props {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly fault?: string | null;
  /** Null: nothing written. */
  readonly value: string | null;
  readonly lines?: boolean;
  readonly disabled?: boolean;
  /** Called when the field is left, or gone on from by Enter (lines: Ctrl Enter), with null for nothing. */
  readonly onChange: (value: string | null) => void;
}

/** Letters. */
const LONGEST = 2000;

/** A text, handed on when the field is left. */
export function TextField({ label, hint, fault = null, value, lines = false, disabled = false, onChange }: Props) {
  const { typed, type, done: handedOn } = useTyped(value ?? "");
  const done = () => {
    handedOn();
    const next = typed.trim() === "" ? null : typed.trim();
    if (next !== value) onChange(next);
  };
  return (
    <Field label={label} hint={hint} fault={fault}>
      {(props) =>
        lines ? (
          <textarea
            {...props}
            value={typed}
            disabled={disabled}
            autoComplete="off"
            maxLength={LONGEST}
            rows={3}
            onChange={({ target }) => type(target.value)}
            onBlur={done}
            onKeyDown={(event) => {
              // Ctrl Enter goes on from here: what was typed goes with it.
              if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) done();
            }}
          />
        ) : (
          <TypedInput {...props} typed={typed} disabled={disabled} maxLength={LONGEST} onType={type} onDone={done} />
        )
      }
    </Field>
  );
}
