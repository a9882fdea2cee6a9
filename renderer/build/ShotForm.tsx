import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Shot } from "../../main/contract/film.ts";
import { useKeys } from "../look/keys.ts";
import { build as words } from "../words/build.ts";
import { ShotCaptions } from "./ShotCaptions.tsx";
import { ShotCut } from "./ShotCut.tsx";
import { ShotHolds } from "./ShotHolds.tsx";
import { ShotPace } from "./ShotPace.tsx";
import { frozenAt, trimmed, withNewCaption } from "./filmEdits.ts";

interface Props {
  readonly shot: Shot;
  readonly clip: ClipView;
  readonly first: boolean;
  readonly locked: boolean;
  readonly onLook: (mediaS: number) => void;
  /** Clip time on the screen, s. */
  readonly mediaNow: () => number | null;
  readonly itemNow: () => number;
  readonly onChange: (shot: Shot, label: string) => void;
}

const HOLD_S = 3;

/** One shot: where it is cut, how fast it runs, where it holds, what it says. */
export function ShotForm({ shot, clip, first, locked, onLook, mediaNow, itemNow, onChange }: Props) {
  const holdHere = () => {
    const atS = mediaNow();
    if (atS !== null) onChange(frozenAt(shot, Math.min(atS, shot.mediaEndS - 0.05), HOLD_S), words.labels.hold);
  };
  const cut = (startS: number, endS: number) => onChange(trimmed(shot, startS, endS, clip.durationS), words.labels.cut);
  const beginHere = () => cut(mediaNow() ?? shot.mediaStartS, shot.mediaEndS);
  const endHere = () => cut(shot.mediaStartS, mediaNow() ?? shot.mediaEndS);
  const addCaption = () => onChange(withNewCaption(shot, itemNow(), words.newCaption), words.labels.caption);
  useKeys(
    words.shot,
    locked
      ? []
      : [
          ...["i", "["].map((keys) => ({ keys, words: words.beginsHere, run: beginHere })),
          ...["o", "]"].map((keys) => ({ keys, words: words.endsHere, run: endHere })),
          { keys: "f", words: words.holdHere, run: holdHere },
          { keys: "c", words: words.addCaption, run: addCaption },
        ],
  );
  return (
    <>
      <ShotCut
        shot={shot}
        clip={clip}
        locked={locked}
        onLook={onLook}
        onTrim={cut}
        onBegin={beginHere}
        onEnd={endHere}
      />
      <ShotPace shot={shot} clip={clip} first={first} locked={locked} onChange={onChange} />
      <ShotHolds shot={shot} locked={locked} onChange={onChange} onHold={holdHere} />
      <ShotCaptions shot={shot} locked={locked} onChange={onChange} onAdd={addCaption} />
    </>
  );
}
