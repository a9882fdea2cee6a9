import { type Ref, type RefObject, useEffect, useImperativeHandle, useRef, useState } from "react";
import { clockText, factorText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { useKeys } from "../look/keys.ts";
import { player as words } from "../words/player.ts";
import type { PlayerHandle, ShownInstant } from "./Player.tsx";

/** Told of every frame, outside React. */
export interface TransportHandle {
  show(shown: ShownInstant): void;
}

interface Props {
  readonly player: RefObject<PlayerHandle | null>;
  readonly playing: boolean;
  readonly handle: Ref<TransportHandle>;
  /** Moves by ride seconds. */
  readonly onMove: (byS: number) => void;
  /** Where the arrow keys move something else and one place is looked for: steps of a second and a minute instead of speeds. */
  readonly exact?: boolean;
}

/** The keys across move the footage there; those up and down, with the same keys beside them, the picture. */
const EXACT_STEPS = [
  { how: "minute", byS: 60, less: "Alt+ArrowUp", more: "Alt+ArrowDown" },
  { how: "second", byS: 1, less: "Shift+ArrowUp", more: "Shift+ArrowDown" },
] as const;

/** Speeds on offer; from 4 on without sound. */
const SPEEDS = [0.5, 1, 2, 4, 8];
const MOVE_S = 5;

/** Play, speed, single frames, and where in the ride one is. */
export function Transport({ player, playing, handle, onMove, exact = false }: Props) {
  const [speed, setSpeed] = useState(1);
  const ride = useRef<HTMLSpanElement>(null);
  const frame = useRef<HTMLSpanElement>(null);
  useImperativeHandle(handle, () => ({
    show(shown) {
      ride.current!.textContent = clockText(shown.rideS);
      frame.current!.textContent = shown.frame === null ? "" : words.frame(String(shown.frame));
    },
  }));
  // A new speed holds at once.
  const first = useRef(true);
  useEffect(() => {
    if (first.current) first.current = false;
    else if (player.current?.playing === true) player.current.play(speed);
  }, [speed, player]);
  const toggle = () => (player.current?.playing === true ? player.current.pause() : player.current?.play(speed));
  const change = (by: number) =>
    setSpeed((now) => SPEEDS[Math.max(0, Math.min(SPEEDS.length - 1, SPEEDS.indexOf(now) + by))]!);
  const stepFrame = (by: 1 | -1) => player.current?.step(by);
  useKeys(words.title, [
    { keys: " ", words: words.playKey, run: toggle },
    ...(exact
      ? [
          { keys: "ArrowUp", words: words.frameBack, run: () => stepFrame(-1) },
          { keys: "ArrowDown", words: words.frameOn, run: () => stepFrame(1) },
          ...EXACT_STEPS.flatMap(({ how, byS, less, more }) => [
            { keys: less, words: words.backBy[how], run: () => onMove(-byS) },
            { keys: more, words: words.onBy[how], run: () => onMove(byS) },
          ]),
        ]
      : [
          { keys: "ArrowLeft", words: words.frameBack, run: () => stepFrame(-1) },
          { keys: "ArrowRight", words: words.frameOn, run: () => stepFrame(1) },
          { keys: "Shift+ArrowLeft", words: words.backBy.second, run: () => onMove(-1) },
          { keys: "Shift+ArrowRight", words: words.onBy.second, run: () => onMove(1) },
          { keys: "Alt+ArrowLeft", words: words.back, run: () => onMove(-MOVE_S) },
          { keys: "Alt+ArrowRight", words: words.on, run: () => onMove(MOVE_S) },
          { keys: "s", words: words.slower, run: () => change(-1) },
          { keys: "f", words: words.faster, run: () => change(1) },
        ]),
  ]);
  return (
    <div className={exact ? "transport exact" : "transport"} role="group" aria-label={words.title}>
      <Button kind="main" keys=" " onClick={toggle}>
        {playing ? words.stop : words.play}
      </Button>
      {exact ? (
        <ExactSteps onMove={onMove} onFrame={stepFrame} />
      ) : (
        <FramesAndSpeeds speed={speed} onFrame={stepFrame} onSpeed={setSpeed} />
      )}
      <span className="transport-at">
        <span ref={ride} className="figure" />
        <span ref={frame} className="quiet small" />
      </span>
    </div>
  );
}

interface StepProps extends Pick<Props, "onMove"> {
  readonly onFrame: (by: 1 | -1) => void;
}

/** Steps of a minute, a second and a frame, back and on. */
function ExactSteps({ onMove, onFrame }: StepProps) {
  return (
    <>
      <span className="small quiet transport-way">{words.backWay}</span>
      {EXACT_STEPS.map(({ how, byS, less }) => (
        <Button key={how} kind="bare" keys={less} aria-label={words.backBy[how]} onClick={() => onMove(-byS)}>
          {words.step[how]}
        </Button>
      ))}
      <Button kind="bare" keys="ArrowUp" aria-label={words.frameBack} onClick={() => onFrame(-1)}>
        {words.step.frame}
      </Button>
      <span className="small quiet transport-way">{words.onWay}</span>
      <Button kind="bare" keys="ArrowDown" aria-label={words.frameOn} onClick={() => onFrame(1)}>
        {words.step.frame}
      </Button>
      {[...EXACT_STEPS].reverse().map(({ how, byS, more }) => (
        <Button key={how} kind="bare" keys={more} aria-label={words.onBy[how]} onClick={() => onMove(byS)}>
          {words.step[how]}
        </Button>
      ))}
    </>
  );
}

interface SpeedProps extends Pick<StepProps, "onFrame"> {
  readonly speed: number;
  readonly onSpeed: (speed: number) => void;
}

/** Single frames, and how fast it plays. */
function FramesAndSpeeds({ speed, onFrame, onSpeed }: SpeedProps) {
  return (
    <>
      <Button kind="bare" keys="ArrowLeft" onClick={() => onFrame(-1)}>
        {words.frameBack}
      </Button>
      <Button kind="bare" keys="ArrowRight" onClick={() => onFrame(1)}>
        {words.frameOn}
      </Button>
      <div className="transport-speeds" role="group" aria-label={words.speedNow(factorText(speed))}>
        {SPEEDS.map((one) => (
          <button
            key={one}
            type="button"
            className="transport-speed"
            aria-pressed={one === speed}
            onClick={() => onSpeed(one)}
          >
            {factorText(one)}
          </button>
        ))}
      </div>
    </>
  );
}
