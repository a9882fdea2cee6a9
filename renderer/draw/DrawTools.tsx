import type { Drawing } from "../../main/contract/film.ts";
import { Button } from "../look/Button.tsx";
import { Tick } from "../look/Tick.tsx";
import { keyText, useKeys } from "../look/keys.ts";
import { draw as words } from "../words/draw.ts";
import { type Shape, endMoved, movedShape, startingShape } from "./shapes.ts";
import { arrowMoves } from "../look/sliderSteps.ts";

interface Props {
  readonly drawings: readonly Drawing[];
  readonly tool: Shape | "move" | null;
  readonly picked: number | null;
  readonly hold: boolean;
  readonly locked: boolean;
  /** A shot is open: on a card nothing is drawn. */
  readonly shot: boolean;
  readonly onTool: (tool: Shape | "move" | null) => void;
  readonly onHold: (hold: boolean) => void;
  readonly onAdd: (shape: Shape, points: Drawing["points"]) => void;
  readonly onChange: (index: number, drawing: Drawing) => void;
  readonly onRemove: (index: number) => void;
}

const SHAPES: readonly { readonly shape: Shape; readonly keys: string }[] = [
  { shape: "arrow", keys: "Shift+r" },
  { shape: "ring", keys: "Shift+o" },
  { shape: "line", keys: "Shift+l" },
  { shape: "free", keys: "Shift+f" },
  { shape: "text", keys: "Shift+t" },
];
const MOVE_KEYS = "Shift+m";
const ARROWS = arrowMoves(0.01);

/** The tools below the picture; each stays in its place, whatever is drawn. */
export function DrawTools(props: Props) {
  const { drawings, tool, picked, hold, locked, shot, onTool, onHold } = props;
  useDrawKeys(props, picked === null ? undefined : drawings[picked]);
  const closed = locked || !shot;
  const button = (name: Shape | "move", keys: string, text: string, disabled: boolean) => (
    <Button
      key={name}
      title={keyText(keys)}
      aria-pressed={tool === name}
      aria-keyshortcuts={keys}
      disabled={disabled}
      onClick={() => onTool(tool === name ? null : name)}
    >
      {text}
    </Button>
  );
  return (
    <div className="row draw-shapes" role="group" aria-label={words.title}>
      {SHAPES.map(({ shape, keys }) => button(shape, keys, words.shapes[shape], closed))}
      {button("move", MOVE_KEYS, words.move, closed || drawings.length === 0)}
      <Tick className="draw-hold" on={hold} disabled={closed} onChange={onHold}>
        {words.hold}
      </Tick>
    </div>
  );
}

/** Keys that take a tool, and those that move and remove the drawing that is chosen. */
function useDrawKeys(props: Props, chosen: Drawing | undefined): void {
  const { drawings, tool, picked, locked, shot, onTool, onAdd, onChange, onRemove } = props;
  const move = (key: string, whole: boolean) => {
    if (chosen === undefined || picked === null) return;
    const by = ARROWS[key];
    if (by === undefined) return;
    onChange(picked, { ...chosen, points: (whole ? movedShape : endMoved)(chosen.points, ...by) });
  };
  const bindings = [
    ...SHAPES.map(({ shape, keys }) => ({
      keys,
      words: words.shapes[shape],
      run: () => onTool(tool === shape ? null : shape),
    })),
    ...(drawings.length === 0
      ? []
      : [{ keys: MOVE_KEYS, words: words.move, run: () => onTool(tool === "move" ? null : "move") }]),
    ...(tool !== null ? [{ keys: "Escape", words: words.done, run: () => onTool(null) }] : []),
    ...(tool !== null && tool !== "move"
      ? [{ keys: "Enter", words: words.middle, run: () => onAdd(tool, startingShape(tool)) }]
      : []),
    ...(chosen !== undefined && tool !== null
      ? [
          ...Object.keys(ARROWS).map((key) => ({ keys: key, words: words.moveKey, run: () => move(key, true) })),
          ...Object.keys(ARROWS).map((key) => ({
            keys: `Shift+${key}`,
            words: words.endKey,
            run: () => move(key, false),
          })),
          { keys: "Backspace", words: words.remove, run: () => onRemove(picked!) },
        ]
      : []),
  ];
  useKeys(words.title, locked || !shot ? [] : bindings);
}
