import type { InputHTMLAttributes } from "react";

interface Props extends InputHTMLAttributes<HTMLInputElement> {
  readonly typed: string;
  readonly onType: (text: string) => void;
  /** The field is left, or gone on from by Enter. */
  readonly onDone: () => void;
}

/** The line in a field that is typed into. */
export function TypedInput({ typed, onType, onDone, ...rest }: Props) {
  return (
    <input
      {...rest}
      autoComplete="off"
      value={typed}
      onChange={({ target }) => onType(target.value)}
      onBlur={onDone}
      onKeyDown={({ key }) => {
        if (key === "Enter") onDone();
      }}
    />
  );
}
