import type { Drawing } from "../../main/contract/film.ts";
import { clockText, fixedText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { TextField } from "../look/TextField.tsx";
import { useKeys } from "../look/keys.ts";
import { draw as words } from "../words/draw.ts";
import { type Shape, endMoved, movedShape, startingShape } from "./shapes.ts";

interface Props {
  readonly drawings: readonly Drawing[];
  readonly tool: Shape | "move" | null;
  readonly picked: number | null;
  readonly hold: boolean;
  readonly locked: boolean;
  readonly onTool: (tool: Shape | "move" | null) => void;
  readonly onPick: (index: number | null) => void;
  readonly onHold: (hold: boolean) => void;
  readonly onAdd: (shape: Shape, points: Drawing["points"]) => void;
  readonly onChange: (index: number, drawing: Drawing) => void;
  readonly onRemove: (index: number) => void;
  readonly onLook: (itemS: number) => void;
}

const SHAPES: readonly { readonly shape: Shape; readonly keys: string }[] = [
  { shape: "arrow", keys: "Shift+r" },
  { shape: "ring", keys: "Shift+o" },
  { shape: "line", keys: "Shift+l" },
  { shape: "free", keys: "Shift+f" },
  { shape: "text", keys: "Shift+t" },
];
const STEP = 0.01;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-STEP, 0],
  ArrowRight: [STEP, 0],
  ArrowUp: [0, -STEP],
  ArrowDown: [0, STEP],
};

/** Drawing on the picture: which shape, what is drawn on this shot, when it shows. */
export function DrawTools(props: Props) {
  const { drawings, tool, picked, hold, locked, onTool, onPick, onHold, onChange, onRemove, onLook } = props;
  const chosen = picked === null ? undefined : drawings[picked];
  useDrawKeys(props, chosen);
  return (
    <section className="stack draw-tools">
      <h3>{words.title}</h3>
      <div className="row draw-shapes" role="group" aria-label={words.title}>
        {SHAPES.map(({ shape, keys }) => (
          <Button
            key={shape}
            keys={keys}
            aria-pressed={tool === shape}
            disabled={locked}
            onClick={() => onTool(tool === shape ? null : shape)}
          >
            {words.shapes[shape]}
          </Button>
        ))}
        {drawings.length > 0 && (
          <Button
            keys="Shift+m"
            aria-pressed={tool === "move"}
            disabled={locked}
            onClick={() => onTool(tool === "move" ? null : "move")}
          >
            {words.move}
          </Button>
        )}
      </div>
      {tool !== null && <p className="small quiet">{tool === "move" ? words.moveHint : words.hint}</p>}
      <label className="draw-hold">
        <input type="checkbox" checked={hold} disabled={locked} onChange={(event) => onHold(event.target.checked)} />{" "}
        {words.hold}
      </label>
      {drawings.length > 0 && (
        <DrawingList drawings={drawings} picked={picked} onPick={onPick} onTool={onTool} onLook={onLook} />
      )}
      {chosen !== undefined && picked !== null && (
        <DrawingForm
          drawing={chosen}
          locked={locked}
          onChange={(drawing) => onChange(picked, drawing)}
          onRemove={() => onRemove(picked)}
        />
      )}
    </section>
  );
}

/** Keys that take a tool, and those that move and remove the drawing that is chosen. */
function useDrawKeys(props: Props, chosen: Drawing | undefined): void {
  const { tool, picked, locked, onTool, onAdd, onChange, onRemove } = props;
  const move = (key: string, whole: boolean) => {
    if (chosen === undefined || picked === null || locked) return;
    const by = ARROWS[key];
    if (by === undefined) return;
    onChange(picked, { ...chosen, points: (whole ? movedShape : endMoved)(chosen.points, ...by) });
  };
  useKeys(words.title, [
    ...SHAPES.map(({ shape, keys }) => ({
      keys,
      words: words.shapes[shape],
      run: () => !locked && onTool(tool === shape ? null : shape),
    })),
    { keys: "Shift+m", words: words.move, run: () => onTool(tool === "move" ? null : "move") },
    ...(tool !== null ? [{ keys: "Escape", words: words.done, run: () => onTool(null) }] : []),
    ...(tool !== null && tool !== "move"
      ? [{ keys: "Enter", words: words.middle, run: () => !locked && onAdd(tool, startingShape(tool)) }]
      : []),
    ...(chosen !== undefined && tool !== null
      ? [
          ...Object.keys(ARROWS).map((key) => ({ keys: key, words: words.moveKey, run: () => move(key, true) })),
          ...Object.keys(ARROWS).map((key) => ({
            keys: `Shift+${key}`,
            words: words.endKey,
            run: () => move(key, false),
          })),
          { keys: "Backspace", words: words.remove, run: () => !locked && onRemove(picked!) },
        ]
      : []),
  ]);
}

/** The drawings on this shot; one is chosen to be moved. */
function DrawingList({
  drawings,
  picked,
  onPick,
  onTool,
  onLook,
}: Pick<Props, "drawings" | "picked" | "onPick" | "onTool" | "onLook">) {
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
        <NumberField
          label={words.start}
          unit="s"
          value={round(drawing.startS)}
          least={0}
          most={600}
          disabled={locked}
          onChange={(startS) => startS !== null && startS < drawing.endS && onChange({ ...drawing, startS })}
        />
        <NumberField
          label={words.end}
          unit="s"
          value={round(drawing.endS)}
          least={0}
          most={600}
          disabled={locked}
          onChange={(endS) => endS !== null && endS > drawing.startS && onChange({ ...drawing, endS })}
        />
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
