import { useEffect, useRef, useState } from "react";
import type { FilmItem } from "../../main/contract/film.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { useKeys } from "../look/keys.ts";
import { build as words } from "../words/build.ts";
import { type Recording, recordComment } from "./recordComment.ts";

interface Props {
  readonly item: FilmItem;
  readonly locked: boolean;
  /** Where the comment plays from; null: there is none, or its file is missing. */
  readonly listenAddress: string | null;
  /** Called as recording begins, so that the part runs along. */
  readonly onBegin: () => void;
  readonly onEnd: () => void;
  /** A WAV file for a part, or null to take its comment away. */
  readonly onComment: (itemId: string, wav: Uint8Array | null) => Promise<boolean>;
}

/** A spoken comment on one part: recorded, listened to, made again or taken away, without touching any other part. */
export function CommentForm({ item, locked, listenAddress, onBegin, onEnd, onComment }: Props) {
  const [state, setState] = useState<"idle" | "asking" | "recording" | "saving">("idle");
  const [refused, setRefused] = useState(false);
  const [seconds, setSeconds] = useState(0);
  /** What is recorded, and for which part: that one gets it, wherever the film stands when it ends. */
  const recording = useRef<(Recording & { readonly itemId: string }) | null>(null);
  const box = useRef<HTMLElement>(null);
  const meter = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (state !== "recording") return;
    const began = performance.now();
    let frame = requestAnimationFrame(function tick(now) {
      const level = recording.current?.level() ?? 0;
      if (meter.current !== null) {
        meter.current.style.setProperty("--level", String(Math.sqrt(level)));
        meter.current.setAttribute("aria-valuenow", String(Math.round(Math.sqrt(level) * 100)));
      }
      setSeconds(Math.floor((now - began) / 1000));
      frame = requestAnimationFrame(tick);
    });
    return () => cancelAnimationFrame(frame);
  }, [state]);

  const begin = async () => {
    if (locked || state !== "idle") return;
    setRefused(false);
    setState("asking");
    try {
      recording.current = { ...(await recordComment()), itemId: item.id };
      setSeconds(0);
      setState("recording");
      onBegin();
    } catch {
      setRefused(true);
      setState("idle");
    }
  };
  const end = async () => {
    const { current } = recording;
    recording.current = null;
    if (current === null) return;
    setState("saving");
    onEnd();
    try {
      await onComment(current.itemId, await current.stop());
    } catch {
      setRefused(true);
    }
    setState("idle");
  };
  // Another part, or another screen, ends what is being said; it is kept.
  const latestEnd = useRef(end);
  latestEnd.current = end;
  useEffect(() => () => void latestEnd.current(), [item.id]);
  // Whoever speaks sees that it is heard.
  useEffect(() => {
    if (state === "recording") box.current?.scrollIntoView({ block: "nearest" });
  }, [state]);
  const toggle = () => void (state === "recording" ? end() : begin());
  useKeys(
    words.comment,
    locked ? [] : [{ keys: "r", words: state === "recording" ? words.done : words.record, run: toggle }],
  );

  const has = item.commentPath !== null;
  return (
    <section ref={box} className="stack" aria-labelledby="build-comment">
      <h3 id="build-comment">{words.comment}</h3>
      {state === "recording" ? (
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
      ) : (
        <p className="quiet small">
          {state === "asking"
            ? words.asking
            : has
              ? item.commentS === undefined
                ? words.commentHasUnknown
                : words.commentHas(durationText(item.commentS))
              : words.commentNone}
        </p>
      )}
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
    </section>
  );
}
