import type { Shot } from "../../main/contract/film.ts";
import { Button } from "../look/Button.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { TextField } from "../look/TextField.tsx";
import { build as words } from "../words/build.ts";
import { tenth } from "./tenth.ts";
import { captioned, shownInstead } from "../film/filmEdits.ts";

interface Props {
  readonly shot: Shot;
  readonly locked: boolean;
  readonly onChange: (shot: Shot, label: string) => void;
  readonly onAdd: () => void;
}

const longCaption = (text: string) => text.trim().split(/\s+/).length > 10;

/** What a shot says, and when. */
export function ShotCaptions({ shot, locked, onChange, onAdd }: Props) {
  const captionFault = (index: number) => {
    const other = shownInstead(shot.captions, index);
    if (other !== null) return words.captionHidden(other + 1);
    return longCaption(shot.captions[index]!.text) ? words.tooLong : null;
  };
  return (
    <>
      {shot.captions.map((caption, index) => (
        <div key={`${index}-${caption.startS}`} className="build-caption">
          <TextField
            label={words.caption(index + 1)}
            value={caption.text}
            disabled={locked}
            fault={captionFault(index)}
            onChange={(text) =>
              onChange(captioned(shot, index, { ...caption, text: text ?? "" }), words.labels.caption)
            }
          />
          {(["startS", "endS"] as const).map((end) => (
            <NumberField
              key={end}
              label={words.captionTimes[end]}
              unit={words.seconds}
              value={tenth(caption[end])}
              least={0}
              most={600}
              disabled={locked}
              onChange={(value) =>
                value !== null && onChange(captioned(shot, index, { ...caption, [end]: value }), words.labels.caption)
              }
            />
          ))}
        </div>
      ))}
      {!locked && (
        <div>
          <Button keys="c" onClick={onAdd}>
            {words.addCaption}
          </Button>
        </div>
      )}
    </>
  );
}
