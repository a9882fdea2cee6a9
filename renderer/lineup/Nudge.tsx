import { Button } from "../look/Button.tsx";
import { lineup as words } from "../words/lineup.ts";

/** How far the footage is moved at a time; `byS` null: by one frame of the clip. */
export const MOVES = [
  { how: "minute", byS: 60, less: "Alt+ArrowLeft", more: "Alt+ArrowRight" },
  { how: "second", byS: 1, less: "Shift+ArrowLeft", more: "Shift+ArrowRight" },
  { how: "frame", byS: null, less: "ArrowLeft", more: "ArrowRight" },
] as const;

interface Props {
  /** Length of one frame of the clip, s. */
  readonly frameS: number;
  readonly onMove: (byS: number, how: (typeof MOVES)[number]["how"]) => void;
}

/** Moves the footage along the ride by a frame, a second or a minute; each button says its key. */
export function Nudge({ frameS, onMove }: Props) {
  return (
    <div className="nudge" role="group" aria-label={words.nudge}>
      <span className="small quiet">{words.nudgeEarlier}</span>
      {MOVES.map(({ how, byS, less }) => (
        <Button
          key={less}
          kind="bare"
          keys={less}
          aria-label={words.earlier[how]}
          onClick={() => onMove(-(byS ?? frameS), how)}
        >
          {words.step[how]}
        </Button>
      ))}
      <span className="small quiet nudge-later">{words.nudgeLater}</span>
      {[...MOVES].reverse().map(({ how, byS, more }) => (
        <Button
          key={more}
          kind="bare"
          keys={more}
          aria-label={words.later[how]}
          onClick={() => onMove(byS ?? frameS, how)}
        >
          {words.step[how]}
        </Button>
      ))}
    </div>
  );
}
