import type { CardItem } from "../../main/contract/film.ts";
import { NumberField } from "../look/NumberField.tsx";
import { TextField } from "../look/TextField.tsx";
import { build as words } from "../words/build.ts";
import { CARD_STAYS_S } from "../film/filmEdits.ts";
import { FadeField } from "./FadeField.tsx";

interface Props {
  readonly item: CardItem;
  readonly first: boolean;
  readonly locked: boolean;
  readonly onChange: (item: CardItem, label: string) => void;
}

/** One card: how long it stays and what it says. Rows of numbers are the reading's and are not typed over. */
export function CardForm({ item, first, locked, onChange }: Props) {
  const { card } = item;
  return (
    <>
      <NumberField
        label={words.stays}
        unit={words.seconds}
        value={Math.round(item.durationS * 10) / 10}
        least={CARD_STAYS_S.least}
        most={CARD_STAYS_S.most}
        disabled={locked}
        onChange={(value) => value !== null && onChange({ ...item, durationS: value }, words.labels.stays)}
      />
      {!first && <FadeField item={item} locked={locked} onChange={onChange} />}
      <TextField
        label={words.cardTitle}
        value={card.title}
        disabled={locked}
        onChange={(title) => onChange({ ...item, card: { ...card, title: title ?? "" } }, words.labels.text)}
      />
      {"lines" in card && (
        <TextField
          label={words.cardLines}
          lines
          value={card.lines.join("\n")}
          disabled={locked}
          onChange={(text) =>
            onChange(
              { ...item, card: { ...card, lines: (text ?? "").split("\n").filter((line) => line.trim() !== "") } },
              words.labels.text,
            )
          }
        />
      )}
    </>
  );
}
