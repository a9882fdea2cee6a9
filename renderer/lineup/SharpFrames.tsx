import { useState } from "react";
import { clockText, fixedText } from "../../overlay/words/numbers.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { faultText } from "../look/faultText.ts";
import { lineup as words } from "../words/lineup.ts";

interface Props {
  readonly clipId: string;
  /** Clip time of the picture that is shown, s. */
  readonly atMediaS: number;
  readonly onLook: (mediaS: number) => void;
}

type Found = "looking" | { readonly timesS: readonly number[] } | { readonly fault: string };

/** The sharpest frames about the one that is shown, where a filmed clock is read best; a press goes to one. */
export function SharpFrames({ clipId, atMediaS, onLook }: Props) {
  const [found, setFound] = useState<Found | null>(null);
  const look = () => {
    setFound("looking");
    desk.sharpFrames(clipId, atMediaS).then(
      (timesS) => setFound({ timesS }),
      (error: unknown) => setFound({ fault: faultText(error) }),
    );
  };
  return (
    <div className="sharp-frames">
      <div className="row">
        <Button onClick={look} disabled={found === "looking"}>
          {words.sharpFrames}
        </Button>
        {found !== null &&
          found !== "looking" &&
          "timesS" in found &&
          found.timesS.map((timeS) => (
            <Button
              key={timeS}
              kind="bare"
              aria-pressed={Math.abs(timeS - atMediaS) < 1e-3}
              aria-label={words.sharpFrame(frameTimeText(timeS))}
              onClick={() => onLook(timeS)}
            >
              {frameTimeText(timeS)}
            </Button>
          ))}
      </div>
      <p className="quiet small" role="status">
        {told(found)}
      </p>
    </div>
  );
}

function told(found: Found | null): string {
  if (found === null) return words.sharpFramesMore;
  if (found === "looking") return words.sharpFramesLooking;
  if ("fault" in found) return found.fault;
  return found.timesS.length === 0 ? words.sharpFramesNone : words.sharpFramesNext;
}

/** `0:00:12.37`: frames of one second are told apart. */
function frameTimeText(seconds: number): string {
  const hundredths = Math.round(seconds * 100);
  return clockText(Math.floor(hundredths / 100)) + fixedText((hundredths % 100) / 100, 2).slice(1);
}
