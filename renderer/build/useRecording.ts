import { type RefObject, useEffect, useRef, useState } from "react";
import type { FilmItem } from "../../main/contract/film.ts";
import { type Recording, recordComment } from "./recordComment.ts";

interface Given {
  readonly item: FilmItem;
  readonly locked: boolean;
  readonly onBegin: () => void;
  readonly onEnd: () => void;
  readonly onComment: (itemId: string, wav: Uint8Array | null) => Promise<boolean>;
}

export type RecordingState = "idle" | "asking" | "recording" | "saving";

/** Records a comment for the part that is open, and hands it on when it ends. */
export function useRecording({ item, locked, onBegin, onEnd, onComment }: Given): {
  readonly state: RecordingState;
  /** The microphone was refused, there is none, or the recording could not be kept. */
  readonly refused: boolean;
  readonly seconds: number;
  /** For the element whose `--level` shows how loud it is. */
  readonly meter: RefObject<HTMLDivElement | null>;
  readonly toggle: () => void;
} {
  const [state, setState] = useState<RecordingState>("idle");
  const [refused, setRefused] = useState(false);
  const [seconds, setSeconds] = useState(0);
  /** What is recorded, and for which part: that one gets it, wherever the film stands when it ends. */
  const recording = useRef<(Recording & { readonly itemId: string }) | null>(null);
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
  const toggle = () => void (state === "recording" ? end() : begin());
  return { state, refused, seconds, meter, toggle };
}
