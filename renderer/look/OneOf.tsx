import type { ReactNode } from "react";

interface Props<T extends string> {
  /** Tells the group from others on the screen. */
  readonly name: string;
  readonly options: readonly T[];
  /** Null: none yet. */
  readonly chosen: T | null;
  /** What is said of an option. */
  readonly said: (option: T) => ReactNode;
  /** Further classes of the group. */
  readonly look?: string;
  readonly onChoose: (option: T) => void;
}

/** One of a few: the choices all in sight, one of them taken. It stands in a fieldset that says what they are of. */
export function OneOf<T extends string>({ name, options, chosen, said, look = "", onChoose }: Props<T>) {
  return (
    <div className={`oneof ${look}`}>
      {options.map((option) => (
        <label key={option}>
          <input type="radio" name={name} checked={chosen === option} onChange={() => onChoose(option)} />
          {said(option)}
        </label>
      ))}
    </div>
  );
}

/** What a choice is called, and what it means. */
export function ChoiceText({ name, more }: { readonly name: string; readonly more: string }) {
  return (
    <span className="choice">
      <b>{name}</b>
      <span>{more}</span>
    </span>
  );
}
