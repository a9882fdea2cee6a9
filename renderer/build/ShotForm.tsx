import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Shot } from "../../main/contract/film.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { useKeys } from "../look/keys.ts";
import { build as words } from "../words/build.ts";
import { Fold } from "./Fold.tsx";
import type { FoldOf } from "./useFolds.ts";
import { ShotCaptions } from "./ShotCaptions.tsx";
import { ShotCut } from "./ShotCut.tsx";
import { ShotHolds } from "./ShotHolds.tsx";
import { ShotPace } from "./ShotPace.tsx";
import { frozenAt, trimmed } from "../film/filmEdits.ts";

interface Props {
  readonly shot: Shot;
  readonly clip: ClipView;
  readonly first: boolean;
  readonly locked: boolean;
  readonly fold: FoldOf;
  readonly onLook: (mediaS: number) => void;
  /** Clip time on the screen, s. */
  readonly mediaNow: () => number | null;
  readonly onChange: (shot: Shot, label: string) => void;
  /** A caption more, typed on the picture. */
  readonly onCaption: () => void;
}

const HOLD_S = 3;

/** One shot: where it is cut, how fast it runs, where it holds, what it says. */
export function ShotForm({ shot, clip, first, locked, fold, onLook, mediaNow, onChange, onCaption }: Props) {
  const holdHere = () => {
    const atS = mediaNow();
    if (atS !== null) onChange(frozenAt(shot, Math.min(atS, shot.mediaEndS - 0.05), HOLD_S), words.labels.hold);
  };
  const cut = (startS: number, endS: number) => onChange(trimmed(shot, startS, endS, clip.durationS), words.labels.cut);
  const beginHere = () => cut(mediaNow() ?? shot.mediaStartS, shot.mediaEndS);
  const endHere = () => cut(shot.mediaStartS, mediaNow() ?? shot.mediaEndS);
  useKeys(
    words.shot,
    locked
      ? []
      : [
          ...["i", "["].map((keys) => ({ keys, words: words.beginsHere, run: beginHere })),
          ...["o", "]"].map((keys) => ({ keys, words: words.endsHere, run: endHere })),
          { keys: "f", words: words.holdHere, run: holdHere },
          { keys: "c", words: words.addCaption, run: onCaption },
        ],
  );
  const { freezes, captions, speed } = shot;
  return (
    <>
      <Fold
        title={words.cut}
        said={words.cutSaid(clockText(shot.mediaStartS), clockText(shot.mediaEndS))}
        state={fold("cut")}
      >
        <ShotCut
          shot={shot}
          clip={clip}
          locked={locked}
          onLook={onLook}
          onTrim={cut}
          onBegin={beginHere}
          onEnd={endHere}
        />
      </Fold>
      <Fold title={words.pace} said={speed === 1 ? words.asFilmed : words.times(speed)} state={fold("pace")}>
        <ShotPace shot={shot} clip={clip} first={first} locked={locked} onChange={onChange} />
      </Fold>
      <Fold title={words.hold} said={words.count(freezes.length)} state={fold("hold")}>
        <ShotHolds shot={shot} locked={locked} onChange={onChange} onHold={holdHere} />
      </Fold>
      <Fold title={words.captions} said={words.count(captions.length)} state={fold("captions")}>
        <ShotCaptions shot={shot} locked={locked} onChange={onChange} onAdd={onCaption} />
      </Fold>
    </>
  );
}
