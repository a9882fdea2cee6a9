import type { Drawing } from "../../main/contract/film.ts";
import { clockText, fixedText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { TextField } from "../look/TextField.tsx";
import { draw as words } from "../words/draw.ts";
import type { Shape } from "./shapes.ts";

interface Props {
  readonly drawings: readonly Drawing[];
  readonly picked: number | null;
  readonly locked: boolean;
  readonly onTool: (tool: Shape | "move" | null) => void;
  readonly onPick: (index: number | null) => void;
  readonly onLook: (itemS: number) => void;
  readonly onChange: (index: number, drawing: Drawing) => void;
  readonly onRemove: (index: number) => void;
}

/** The drawings on the shot, and the form of the one that is chosen. */
export function DrawnList(props: Props) {
  const { drawings, picked, locked, onChange, onRemove } = props;
  const chosen = picked === null ? undefined : drawings[picked];
  return (
    <>
      {drawings.length === 0 ? <p className="quiet small">{words.none}</p> : <DrawingList {...props} />}
      {chosen !== undefined && picked !== null && (
        <DrawingForm
          drawing={chosen}
          locked={locked}
          onChange={(drawing) => onChange(picked, drawing)}
          onRemove={() => onRemove(picked)}
        />
      )}
    </>
  );
}

/** One is chosen to be moved. */
function DrawingList({ drawings, picked, onPick, onTool, onLook }: Props) {
  return (
    <ul className="draw-list">
      {drawings.map((drawing, index) => (
        <li key={index}>
          <button
            type="button"
            className="draw-one"
            aria-pressed={picked === index}
            onClick={() => {
              onPick(index);
              onTool("move");
              onLook(drawing.startS);
            }}
          >
            {words.shapes[drawing.shape]}
            {drawing.text !== null && ` \u201c${drawing.text}\u201d`}{" "}
            <span className="quiet">
              {words.from(clockText(drawing.startS), fixedText(drawing.endS - drawing.startS, 1))}
            </span>
          </button>
        </li>
      ))}
    </ul>
  );
}

interface DrawingFormProps {
  readonly drawing: Drawing;
  readonly locked: boolean;
  readonly onChange: (drawing: Drawing) => void;
  readonly onRemove: () => void;
}

/** What one drawing says and when it shows. */
function DrawingForm({ drawing, locked, onChange, onRemove }: DrawingFormProps) {
  return (
    <div className="stack">
      {drawing.shape === "text" && (
        <TextField
          label={words.text}
          value={drawing.text}
          disabled={locked}
          onChange={(text) => text !== null && onChange({ ...drawing, text })}
        />
      )}
      <div className="row">
        {(["startS", "endS"] as const).map((end) => (
          <NumberField
            key={end}
            label={words.times[end]}
            unit="s"
            value={round(drawing[end])}
            least={0}
            most={600}
            disabled={locked}
            onChange={(value) => {
              const next = { ...drawing, [end]: value ?? Number.NaN };
              if (next.startS < next.endS) onChange(next);
            }}
          />
        ))}
      </div>
      <Button kind="bare" keys="Backspace" disabled={locked} onClick={onRemove}>
        {words.remove}
      </Button>
    </div>
  );
}

function round(seconds: number): number {
  return Math.round(seconds * 100) / 100;
}
