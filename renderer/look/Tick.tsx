import type { ReactNode } from "react";

interface Props {
  readonly on: boolean;
  readonly disabled?: boolean;
  readonly className?: string;
  readonly onChange: (on: boolean) => void;
  /** What is on or off. */
  readonly children: ReactNode;
}

/** Something that is on or off. */
export function Tick({ on, disabled = false, className, onChange, children }: Props) {
  return (
    <label className={className}>
      <input type="checkbox" checked={on} disabled={disabled} onChange={({ target }) => onChange(target.checked)} />
      {children}
    </label>
  );
}
