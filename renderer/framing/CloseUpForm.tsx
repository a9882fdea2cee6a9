import type { Shot } from "../../main/contract/film.ts";
import { Button } from "../look/Button.tsx";
import { framing as words } from "../words/framing.ts";
import type { FramingTool } from "./boxes.ts";
import { type KeyedClip, withCloseUpKey, withoutCloseUpKey } from "./framingEdits.ts";
import { KeyList } from "./KeyList.tsx";
import { FRAMING_KEYS } from "./keys.ts";

interface Props {
  /** Null: nothing can be changed. */
  readonly shot: Shot | null;
  readonly clip: KeyedClip;
  readonly tool: FramingTool | null;
  /** Clip time on the screen, s. */
  readonly now: () => number | null;
  readonly onTool: (tool: FramingTool | null) => void;
  readonly onLook: (mediaS: number) => void;
  readonly onChange: (shot: Shot, label: string) => void;
}

/** Which part of a shot's picture fills the frame, and when. */
export function CloseUpForm({ shot, clip, tool, now, onTool, onLook, onChange }: Props) {
  const keys = shot?.closeUp ?? [];
  const all = () => {
    const atMediaS = now();
    if (shot !== null && atMediaS !== null)
      onChange(withCloseUpKey(shot, { atMediaS, x: 0.5, y: 0.5, share: 1 }, clip), words.labels.closeUp);
  };
  return (
    <>
      <p className="quiet small">{words.closeUp.hint}</p>
      <div className="row">
        <Button
          keys={FRAMING_KEYS.closeUp}
          aria-pressed={tool === "closeUp"}
          disabled={shot === null}
          onClick={() => onTool(tool === "closeUp" ? null : "closeUp")}
        >
          {words.closeUp.tool}
        </Button>
        {keys.length > 0 && (
          <Button kind="bare" onClick={all}>
            {words.closeUp.all}
          </Button>
        )}
      </div>
      {shot !== null && keys.length > 0 && (
        <KeyList
          keys={keys.map(({ atMediaS, share }) => ({
            atMediaS,
            said: words.closeUp.share(Math.round(100 * share)),
          }))}
          onLook={onLook}
          onRemove={(index) => onChange(withoutCloseUpKey(shot, index), words.labels.closeUpRemoved)}
        />
      )}
    </>
  );
}
