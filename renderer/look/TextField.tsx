import { Field } from "./Field.tsx";
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
      {(props) => {
        const shared = { ...props, value: typed, disabled, autoComplete: "off", maxLength: 2000, onBlur: done };
        return lines ? (
          <textarea
            {...shared}
            rows={3}
            onChange={(event) => type(event.target.value)}
            onKeyDown={(event) => {
              // Ctrl Enter goes on from here: what was typed goes with it.
              if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) done();
            }}
          />
        ) : (
          <input
            {...shared}
            onChange={(event) => type(event.target.value)}
            onKeyDown={(event) => {
              if (event.key === "Enter") done();
            }}
          />
        );
      }}
    </Field>
  );
}
