import type { Shot } from "../../main/contract/film.ts";
import { COVER_KINDS, type Cover } from "../../main/contract/framing.ts";
import { Button } from "../look/Button.tsx";
import { framing as words } from "../words/framing.ts";
import type { FramingTool } from "./boxes.ts";
import { clipTimeText } from "./clipTimeText.ts";
import { coverCut, coverSpan, coverWhole, type KeyedClip, withCover, withoutCoverKey } from "./framingEdits.ts";
import { KeyList } from "./KeyList.tsx";
import { FRAMING_KEYS } from "./keys.ts";

interface Props {
  /** Null: nothing can be changed. */
  readonly shot: Shot | null;
  readonly clip: KeyedClip;
  readonly tool: FramingTool | null;
  readonly picked: number | null;
  /** Clip time on the screen, s. */
  readonly now: () => number | null;
  readonly onTool: (tool: FramingTool | null) => void;
  readonly onPick: (index: number | null) => void;
  readonly onLook: (mediaS: number) => void;
  readonly onChange: (shot: Shot, label: string) => void;
  readonly onRemove: () => void;
}

/** What is hidden on a shot, and of the cover that is chosen how, from when to when, and where its box was put. */
export function CoversForm(props: Props) {
  const { shot, clip, tool, picked, onTool, onPick } = props;
  const covers = shot?.covers ?? [];
  const chosen = picked === null ? undefined : covers[picked];
  return (
    <>
      <p className="quiet small">{words.covers.hint}</p>
      <div>
        <Button
          keys={FRAMING_KEYS.cover}
          aria-pressed={tool === "cover"}
          disabled={shot === null}
          onClick={() => onTool(tool === "cover" ? null : "cover")}
        >
          {words.covers.tool}
        </Button>
      </div>
      {covers.length > 0 && (
        <ul className="draw-list" aria-label={words.covers.title}>
          {covers.map((cover, index) => (
            <li key={index}>
              <button
                type="button"
                className="draw-one"
                aria-pressed={picked === index}
                onClick={() => {
                  onPick(index);
                  onTool("cover");
                }}
              >
                {words.covers.one(index + 1)}, <span className="quiet">{spanText(cover, clip)}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {chosen !== undefined && shot !== null && <ChosenCover {...props} shot={shot} cover={chosen} index={picked!} />}
    </>
  );
}

function ChosenCover({
  shot,
  cover,
  index,
  clip,
  now,
  onLook,
  onChange,
  onRemove,
}: Props & { readonly shot: Shot; readonly cover: Cover; readonly index: number }) {
  const put = (next: Cover | null) => onChange(withCover(shot, index, next), words.labels.coverChanged);
  const cut = (which: "from" | "until") => () => {
    const atS = now();
    if (atS !== null) put(coverCut(cover, which, atS, clip));
  };
  const { keys } = coverSpan(cover, clip);
  return (
    <div className="stack">
      <div className="row" role="group" aria-label={words.covers.kind}>
        {COVER_KINDS.map((kind) => (
          <Button key={kind} kind="bare" aria-pressed={cover.kind === kind} onClick={() => put({ ...cover, kind })}>
            {words.covers.kinds[kind]}
          </Button>
        ))}
      </div>
      <div className="row">
        <Button kind="bare" onClick={cut("from")}>
          {words.covers.fromHere}
        </Button>
        <Button kind="bare" onClick={cut("until")}>
          {words.covers.untilHere}
        </Button>
        <Button kind="bare" onClick={() => put(coverWhole(cover, clip))}>
          {words.covers.wholeShot}
        </Button>
      </div>
      <KeyList
        keys={keys}
        onLook={onLook}
        onRemove={keys.length < 2 ? null : (at) => put(withoutCoverKey(cover, at, clip))}
      />
      <div>
        <Button kind="bare" keys="Backspace" onClick={onRemove}>
          {words.covers.remove}
        </Button>
      </div>
    </div>
  );
}

function spanText(cover: Cover, clip: KeyedClip): string {
  const { keys, fromStart, toEnd } = coverSpan(cover, clip);
  const [from, to] = [clipTimeText(keys[0]!.atMediaS), clipTimeText(keys.at(-1)!.atMediaS)];
  if (fromStart && toEnd) return words.covers.whole;
  return fromStart ? words.covers.until(to) : toEnd ? words.covers.from(from) : words.covers.span(from, to);
}
