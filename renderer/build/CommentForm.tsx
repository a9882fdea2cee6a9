import { type RefObject, useEffect, useRef } from "react";
import type { FilmItem } from "../../main/contract/film.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { useKeys } from "../look/keys.ts";
import { build as words } from "../words/build.ts";
import type { FoldState } from "./Fold.tsx";
import { type RecordingState, useRecording } from "./useRecording.ts";

interface Props {
  readonly item: FilmItem;
  readonly locked: boolean;
  /** The section that it stands in: opened where a key begins it. */
  readonly fold: FoldState;
  /** Where the comment plays from; null: there is none, or its file is missing. */
  readonly listenAddress: string | null;
  /** Called as recording begins, so that the part runs along. */
  readonly onBegin: () => void;
  readonly onEnd: () => void;
  /** A WAV file for a part, or null to take its comment away. */
  readonly onComment: (itemId: string, wav: Uint8Array | null) => Promise<boolean>;
}

/** A spoken comment on one part: recorded, listened to, made again or taken away, without touching any other part. */
export function CommentForm({ item, locked, fold, listenAddress, onBegin, onEnd, onComment }: Props) {
  const { state, refused, seconds, meter, toggle } = useRecording({ item, locked, onBegin, onEnd, onComment });
  const box = useRef<HTMLDivElement>(null);
  // Whoever speaks sees that it is heard.
  const { open, onToggle } = fold;
  useEffect(() => {
    if (state === "idle") return;
    if (!open) onToggle();
    else if (state === "recording") box.current?.scrollIntoView({ block: "nearest" });
  }, [state, open]);
  useKeys(
    words.comment,
    locked ? [] : [{ keys: "r", words: state === "recording" ? words.done : words.record, run: toggle }],
  );

  const has = item.commentPath !== null;
  return (
    <div ref={box} className="stack">
      <RecordingSaid item={item} state={state} seconds={seconds} meter={meter} />
      {refused && (
        <p className="note wrong" role="alert">
          {words.noMicrophone}
        </p>
      )}
      {!locked && (
        <div className="row">
          <Button
            keys="r"
            aria-pressed={state === "recording"}
            disabled={state === "asking" || state === "saving"}
            onClick={toggle}
          >
            {state === "recording" ? words.done : has ? words.again : words.record}
          </Button>
          {has && state === "idle" && (
            <>
              {listenAddress !== null && (
                <audio className="build-listen" controls src={listenAddress} aria-label={words.listen} />
              )}
              <Button kind="bare" onClick={() => void onComment(item.id, null)}>
                {words.removeComment}
              </Button>
            </>
          )}
        </div>
      )}
    </div>
  );
}

interface SaidProps extends Pick<Props, "item"> {
  readonly state: RecordingState;
  readonly seconds: number;
  readonly meter: RefObject<HTMLDivElement | null>;
}

/** How loud and how long while one speaks; else whether there is a comment. */
function RecordingSaid({ item, state, seconds, meter }: SaidProps) {
  if (state === "recording")
    return (
      <>
        <div
          ref={meter}
          className="build-meter"
          role="meter"
          aria-label={words.level}
          aria-valuemin={0}
          aria-valuemax={100}
          aria-valuenow={0}
        />
        <p role="status">{words.recording(durationText(seconds))}</p>
      </>
    );
  const has = item.commentPath !== null;
  return (
    <p className="quiet small">
      {state === "asking"
        ? words.asking
        : has
          ? item.commentS === undefined
            ? words.commentHasUnknown
            : words.commentHas(durationText(item.commentS))
          : words.commentNone}
    </p>
  );
}
