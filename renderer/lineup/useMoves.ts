import { useCallback, useEffect, useRef, useState } from "react";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import { fixedText } from "../../overlay/words/numbers.ts";
import { desk, deskState } from "../desk/desk.ts";
import type { Calls } from "../look/useCalls.ts";
import { lineup as words } from "../words/lineup.ts";
import { moveFootage } from "./moveFootage.ts";

interface Move {
  readonly clipId: string;
  readonly byS: number;
  readonly sigmaS: number;
  readonly atMediaS: number;
}

/**
 * Moves of footage, gathered while one is under way, so that a held key never outruns the program: each edit is made on
 * the desk as it then stands. Gives what is still to come, to be drawn at once.
 */
export function useMoves(call: Calls["call"]): { readonly pendingS: number; readonly move: (clipId: string, byS: number, sigmaS: number, atMediaS: number) => void } {
  const waiting = useRef<Move | null>(null);
  const running = useRef<Move | null>(null);
  const [pendingS, setPending] = useState(0);
  const here = useRef(true);
  useEffect(() => {
    here.current = true;
    return () => {
      here.current = false;
    };
  }, []);
  const move = useCallback(
    (clipId: string, byS: number, sigmaS: number, atMediaS: number) => {
      const before = waiting.current?.clipId === clipId ? waiting.current.byS : 0;
      waiting.current = { clipId, byS: before + byS, sigmaS, atMediaS };
      const tell = () => here.current && setPending((running.current?.byS ?? 0) + (waiting.current?.byS ?? 0));
      tell();
      if (running.current !== null) return;
      void (async () => {
        for (let next = waiting.current; next !== null; next = waiting.current) {
          running.current = next;
          waiting.current = null;
          await call(() => editFor(next));
          running.current = null;
          tell();
        }
      })();
    },
    [call],
  );
  return { pendingS, move };
}

async function editFor({ clipId, atMediaS, byS, sigmaS }: Move): Promise<void> {
  const debrief = deskState()?.debrief ?? null;
  if (debrief === null) return;
  const value = moveFootage(debrief.document.anchors, debrief.lineup?.clips ?? [], clipId, atMediaS, byS, sigmaS);
  await desk.edit({ part: "anchors", value, label: words.moved(nameOf(debrief, clipId), byText(byS)) }, debrief.edit);
}

function nameOf(debrief: DebriefView, clipId: string): string {
  return debrief.clips.find((clip) => clip.id === clipId)?.name ?? clipId;
}

function byText(byS: number): string {
  const size = Math.abs(byS);
  const text = size < 60 ? `${fixedText(size, size < 1 ? 2 : 1)} s` : `${fixedText(size / 60, 1)} min`;
  return byS < 0 ? `\u2212${text}` : `+${text}`;
}
