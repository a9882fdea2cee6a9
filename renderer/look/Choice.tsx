import { Button } from "./Button.tsx";

interface Props<T extends string> {
  readonly label: string;
  readonly options: readonly T[];
  readonly chosen: T;
  readonly said: Readonly<Record<T, string>>;
  readonly locked: boolean;
  readonly onChoose: (option: T) => void;
}

/** One of few ways, each a button. */
export function Choice<T extends string>({ label, options, chosen, said, locked, onChoose }: Props<T>) {
  return (
    <div role="group" aria-label={label}>
      <p className="small">{label}</p>
      <div className="row">
        {options.map((option) => (
          <Button
            key={option}
            kind="bare"
            aria-pressed={option === chosen}
            disabled={locked}
            onClick={() => option !== chosen && onChoose(option)}
          >
            {said[option]}
          </Button>
        ))}
      </div>
    </div>
  );
}
