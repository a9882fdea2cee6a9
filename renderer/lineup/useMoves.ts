import { useCallback, useEffect, useRef, useState } from "react";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import { fixedText } from "../../overlay/words/numbers.ts";
import { desk, deskConnection, deskState, onDesk } from "../desk/desk.ts";
import type { Calls } from "../look/useCalls.ts";
import { lineup as words } from "../words/lineup.ts";
import { moveFootage } from "./moveFootage.ts";

interface Move {
  readonly clipId: string;
  readonly byS: number;
  readonly sigmaS: number;
  readonly atMediaS: number;
}

/** What is drawn before the program has told: `onEdit` is the edit that the sent move was made on. */
interface Pending {
  readonly waitingS: number;
  readonly sentS: number;
  readonly onEdit: number;
}

const NONE: Pending = { waitingS: 0, sentS: 0, onEdit: -1 };

/**
 * Moves of footage, gathered while one is under way, so that a held key never outruns the program: each edit is made on
 * the desk as it then stands. Gives what the desk that is drawn (`edit`) does not hold yet, so that no move is shown
 * twice or, for a moment, taken back.
 */
export function useMoves(
  call: Calls["call"],
  edit: number,
): {
  readonly pendingS: number;
  readonly move: (clipId: string, byS: number, sigmaS: number, atMediaS: number) => void;
} {
  const waiting = useRef<Move | null>(null);
  const sent = useRef<{ readonly byS: number; readonly onEdit: number } | null>(null);
  const [pending, setPending] = useState(NONE);
  const here = useRef(true);
  useEffect(() => {
    here.current = true;
    return () => {
      here.current = false;
    };
  }, []);
  const move = useCallback(
    (clipId: string, byS: number, sigmaS: number, atMediaS: number) => {
      if (byS === 0) return;
      const before = waiting.current?.clipId === clipId ? waiting.current.byS : 0;
      waiting.current = { clipId, byS: before + byS, sigmaS, atMediaS };
      const tell = () =>
        here.current &&
        setPending({
          waitingS: waiting.current?.byS ?? 0,
          sentS: sent.current?.byS ?? 0,
          onEdit: sent.current?.onEdit ?? -1,
        });
      tell();
      if (sent.current !== null) return;
      void (async () => {
        for (let next = waiting.current; next !== null; next = waiting.current) {
          const onEdit = deskState()?.debrief?.edit ?? -1;
          sent.current = { byS: next.byS, onEdit };
          waiting.current = null;
          tell();
          const one = next;
          if (await call(() => editFor(one))) await toldAfter(onEdit);
          sent.current = null;
          tell();
        }
      })();
    },
    [call],
  );
  return { pendingS: pending.waitingS + (edit > pending.onEdit ? 0 : pending.sentS), move };
}

/** Resolves once the desk was told with a later edit, or is gone. */
function toldAfter(onEdit: number): Promise<void> {
  return new Promise((resolve) => {
    const settled = () => {
      const debrief = deskState()?.debrief ?? null;
      return debrief === null || debrief.edit > onEdit || deskConnection() !== "open";
    };
    if (settled()) {
      resolve();
      return;
    }
    const stop = onDesk(() => {
      if (!settled()) return;
      stop();
      resolve();
    });
  });
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
