import { useEffect, useRef, useState } from "react";
import { clockText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { Dialog } from "../look/Dialog.tsx";
import { Field } from "../look/Field.tsx";
import { SelectField } from "../look/SelectField.tsx";
import { common } from "../words/common.ts";
import { skim as words } from "../words/skim.ts";

/** What a moment of the coach's own is. */
export interface OwnMomentSaid {
  readonly kind: string;
  readonly words: string;
  readonly lengthS: number;
}

interface Props {
  readonly atS: number;
  /** Kinds used before in this debrief. */
  readonly kinds: readonly string[];
  readonly onClose: () => void;
  readonly onAdd: (own: OwnMomentSaid) => void;
}

const LENGTHS_S = [5, 10, 20, 40, 90];

/** Asks what a moment of the coach's own is. */
export function OwnMoment({ atS, kinds, onClose, onAdd }: Props) {
  const [kind, setKind] = useState("");
  const [said, setSaid] = useState("");
  const [lengthS, setLength] = useState(10);
  const [fault, setFault] = useState<string | null>(null);
  const first = useRef<HTMLInputElement>(null);
  useEffect(() => {
    // The dialog opens after this and would focus its first button.
    const frame = requestAnimationFrame(() => first.current?.focus());
    return () => cancelAnimationFrame(frame);
  }, []);
  const add = () =>
    kind.trim() === "" ? setFault(words.addFault) : onAdd({ kind: kind.trim(), words: said.trim(), lengthS });
  return (
    <Dialog
      title={`${words.addTitle}, ${clockText(atS)}`}
      onClose={onClose}
      actions={
        <>
          <Button onClick={onClose}>{common.cancel}</Button>
          <Button kind="main" onClick={add}>
            {words.addGo}
          </Button>
        </>
      }
    >
      <form
        className="stack"
        onSubmit={(event) => {
          event.preventDefault();
          add();
        }}
      >
        <Field label={words.addKind} hint={words.addKindHint} fault={fault}>
          {(props) => (
            <input
              {...props}
              ref={first}
              list="own-kinds"
              maxLength={60}
              value={kind}
              onChange={(event) => setKind(event.target.value)}
            />
          )}
        </Field>
        <datalist id="own-kinds">
          {kinds.map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
        <Field label={words.addWords}>
          {(props) => (
            <input {...props} maxLength={200} value={said} onChange={(event) => setSaid(event.target.value)} />
          )}
        </Field>
        <SelectField
          label={words.addLength}
          value={String(lengthS)}
          options={LENGTHS_S.map((one) => [String(one), `${one} s`])}
          onChoose={(one) => setLength(Number(one))}
        />
        <button type="submit" hidden />
      </form>
    </Dialog>
  );
}
