import { type ReactNode, useId } from "react";

interface Props {
  readonly label: string;
  readonly hint?: string | undefined;
  /** What is wrong with the value, in words. */
  readonly fault?: string | null;
  readonly unit?: string | undefined;
  /** Gets the ids that tie the control to its label and its hint. */
  readonly children: (props: {
    readonly id: string;
    readonly "aria-describedby": string | undefined;
    readonly "aria-invalid": boolean;
    readonly className: string;
  }) => ReactNode;
}

/** A label, its control, its unit, what helps and what is wrong. */
export function Field({ label, hint, fault = null, unit, children }: Props) {
  const id = useId();
  const told = hint !== undefined || fault !== null;
  const control = children({
    id,
    "aria-describedby": told ? `${id}-told` : undefined,
    "aria-invalid": fault !== null,
    className: "input",
  });
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {unit === undefined ? (
        control
      ) : (
        <div className="with-unit">
          {control}
          <span className="unit">{unit}</span>
        </div>
      )}
      {told && (
        <div id={`${id}-told`}>
          {fault !== null && <div className="fault">{fault}</div>}
          {hint !== undefined && <div className="hint">{hint}</div>}
        </div>
      )}
    </div>
  );
}
