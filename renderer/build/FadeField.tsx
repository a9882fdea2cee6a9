import { NumberField } from "../look/NumberField.tsx";
import { build as words } from "../words/build.ts";

interface Props<Item> {
  readonly item: Item;
  readonly locked: boolean;
  readonly onChange: (item: Item, label: string) => void;
}

/** How long a part takes to fade in over the one before, s. */
export function FadeField<Item extends { readonly crossfadeS: number }>({ item, locked, onChange }: Props<Item>) {
  return (
    <NumberField
      label={words.fade}
      unit={words.seconds}
      hint={words.fadeOff + ": 0"}
      value={item.crossfadeS}
      least={0}
      most={2}
      disabled={locked}
      onChange={(value) => onChange({ ...item, crossfadeS: value ?? 0 }, words.labels.fade)}
    />
  );
}
