import { Field } from "./Field.tsx";

/** What is handed on, and what is shown for it. */
export type Option<T extends string> = readonly [value: T, name: string];

interface Props<T extends string> {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly value: T;
  readonly options: readonly Option<T>[];
  readonly disabled?: boolean;
  /** As wide as its longest option. */
  readonly narrow?: boolean;
  readonly onChoose: (value: T) => void;
}

/** One of a list that opens, with its label. */
export function SelectField<T extends string>(props: Props<T>) {
  const { label, hint, value, options, disabled = false, narrow = false, onChoose } = props;
  return (
    <Field label={label} hint={hint}>
      {({ className, ...told }) => (
        <select
          {...told}
          className={narrow ? `${className} narrow` : className}
          value={value}
          disabled={disabled}
          onChange={({ target }) => onChoose(target.value as T)}
        >
          <Options of={options} />
        </select>
      )}
    </Field>
  );
}

/** The options of a list that opens. */
export function Options({ of }: { readonly of: readonly Option<string>[] }) {
  return of.map(([value, name]) => (
    <option key={value} value={value}>
      {name}
    </option>
  ));
}
