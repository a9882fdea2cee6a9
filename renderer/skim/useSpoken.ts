import { useEffect, useRef, useState } from "react";
import { type Recording, recordComment } from "../build/recordComment.ts";
import { base64Of } from "../desk/base64Of.ts";
import { desk } from "../desk/desk.ts";
import type { Calls } from "../look/useCalls.ts";

/** Let go sooner than this it was a touch, nothing said, ms. */
const LEAST_MS = 400;

type SpokenState = "idle" | "asking" | "recording" | "saving";

/** Speaking a comment while skimming: for as long as a key or the button is held, kept at the instant it began. */
export interface Spoken {
  readonly state: SpokenState;
  /** What became of the last: nothing was said yet, it was too short, there is no microphone, or it could not be kept. */
  readonly said: "nothing" | "short" | "refused" | "kept";
  readonly begin: () => void;
  readonly end: () => void;
}

/** `here`: the ride time that is seen. A hold that ends before the microphone is there records nothing. */
export function useSpoken(here: () => number | null, locked: boolean, call: Calls["call"]): Spoken {
  const [state, setState] = useState<SpokenState>("idle");
  const [said, setSaid] = useState<Spoken["said"]>("nothing");
  const hold = useRef<{ readonly atS: number; recording: Recording | null; sinceMs: number; over: boolean } | null>(
    null,
  );

  const begin = async () => {
    const atS = here();
    if (locked || atS === null || hold.current !== null || state === "saving") return;
    const mine = { atS, recording: null as Recording | null, sinceMs: 0, over: false };
    hold.current = mine;
    setSaid("nothing");
    setState("asking");
    try {
      const recording = await recordComment();
      if (mine.over) {
        recording.cancel();
        return;
      }
      mine.recording = recording;
      mine.sinceMs = performance.now();
      setState("recording");
    } catch {
      if (hold.current === mine) hold.current = null;
      setSaid("refused");
      setState("idle");
    }
  };
  const end = async () => {
    const { current } = hold;
    if (current === null) return;
    hold.current = null;
    current.over = true;
    const { recording, sinceMs, atS } = current;
    if (recording === null || performance.now() - sinceMs < LEAST_MS) {
      recording?.cancel();
      setSaid("short");
      return setState("idle");
    }
    setState("saving");
    const kept = await recording
      .stop()
      .then((wav) => call(() => desk.speakAt(atS, base64Of(wav))))
      .catch(() => false);
    setSaid(kept ? "kept" : "refused");
    setState("idle");
  };
  const latestEnd = useRef(end);
  latestEnd.current = end;
  useEffect(() => {
    // Let go anywhere, and where the window loses its keys, it has been let go.
    const over = () => void latestEnd.current();
    const up = (event: KeyboardEvent) => event.key.toLowerCase() === SPEAK_KEY && over();
    window.addEventListener("keyup", up);
    window.addEventListener("blur", over);
    window.addEventListener("pointerup", over);
    window.addEventListener("pointercancel", over);
    return () => {
      window.removeEventListener("keyup", up);
      window.removeEventListener("blur", over);
      window.removeEventListener("pointerup", over);
      window.removeEventListener("pointercancel", over);
      over();
    };
  }, []);
  return { state, said, begin: () => void begin(), end: () => void end() };
}

/** Held to speak. */
export const SPEAK_KEY = "v";
