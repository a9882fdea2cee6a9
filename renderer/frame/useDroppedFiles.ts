import { useCallback, useState } from "react";
import type { PathId } from "../../main/contract/debriefApi.ts";
import { desk, deskState, dropTokens, seesDroppedPaths } from "../desk/desk.ts";
import type { Calls } from "../look/useCalls.ts";
import type { DroppedFile } from "../picker/droppedMatches.ts";
import { useDrop } from "./useDrop.ts";

/** What came of the last drop. */
export interface Taken {
  readonly files: number;
  /** Of them, that are no use. */
  readonly unusable: number;
}

interface Dropped {
  /** Files are held over the window. */
  readonly over: boolean;
  /** Dropped where this browser does not tell: asked for in the picker. */
  readonly asked: readonly DroppedFile[] | null;
  readonly taken: Taken | null;
  readonly take: (ids: readonly PathId[]) => void;
  readonly forget: () => void;
}

const unusableNow = () => deskState()?.debrief?.files.filter(({ kind }) => kind === "unusable").length ?? 0;

/** Files dropped on any screen go on the desk that is open, or on a new one. */
export function useDroppedFiles(call: Calls["call"]): Dropped {
  const [asked, setAsked] = useState<readonly DroppedFile[] | null>(null);
  const [taken, setTaken] = useState<Taken | null>(null);
  const put = useCallback(
    async (idsOf: () => Promise<readonly PathId[]>) => {
      setTaken(null);
      const before = unusableNow();
      await call(async () => {
        const ids = await idsOf();
        await desk.addFiles(ids);
        if (ids.length > 0) setTaken({ files: ids.length, unusable: Math.max(0, unusableNow() - before) });
      });
    },
    [call],
  );
  const over = useDrop(
    useCallback(
      (files: readonly File[]) => {
        // A debrief that may only be looked at takes nothing: the program says why before anyone is asked for a folder.
        const locked = (deskState()?.debrief?.readOnly ?? null) !== null;
        if (locked) void put(() => Promise.resolve([]));
        else if (seesDroppedPaths()) void put(() => desk.idsOfDropped(dropTokens(files)));
        else setAsked(files.map(({ name, size }) => ({ name, bytes: size })));
      },
      [put],
    ),
  );
  const forget = () => {
    setAsked(null);
    setTaken(null);
  };
  const take = (ids: readonly PathId[]) => {
    setAsked(null);
    void put(() => Promise.resolve(ids));
  };
  return { over, asked, taken, take, forget };
}
