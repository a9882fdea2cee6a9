import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Shot } from "../../main/contract/film.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { build as words } from "../words/build.ts";
import { TrimBar } from "./TrimBar.tsx";

interface Props {
  readonly shot: Shot;
  readonly clip: ClipView;
  readonly locked: boolean;
  readonly onLook: (mediaS: number) => void;
  readonly onTrim: (startS: number, endS: number) => void;
  readonly onBegin: () => void;
  readonly onEnd: () => void;
}

/** Where a shot is cut out of its clip. */
export function ShotCut({ shot, clip, locked, onLook, onTrim, onBegin, onEnd }: Props) {
  return (
    <>
      <TrimBar shot={shot} clip={clip} locked={locked} onLook={onLook} onTrim={onTrim} />
      <p className="row apart small">
        <span>
          {words.begins} {words.clipTime(clockText(shot.mediaStartS))}
        </span>
        <span>
          {words.ends} {words.clipTime(clockText(shot.mediaEndS))}
        </span>
      </p>
      {!locked && (
        <div className="row">
          <Button keys="i" onClick={onBegin}>
            {words.beginsHere}
          </Button>
          <Button keys="o" onClick={onEnd}>
            {words.endsHere}
          </Button>
        </div>
      )}
    </>
  );
}
