import { useCallback } from "react";
import type { PathId } from "../../main/contract/debriefApi.ts";
import type { Calls } from "../look/useCalls.ts";
import { desk } from "../desk/desk.ts";
import { type Batch, rideFrom, setBatch, useBatch } from "./batch.ts";
import { useKeys } from "../look/keys.ts";
import { gather as words } from "../words/gather.ts";

/** The batch that is gone through: its list, and its rides opened one after the other. */
export function useBatchRides(call: Calls["call"], openIt: (id: PathId) => Promise<boolean>) {
  const batch = useBatch();
  /** Asked for anew each time: what was opened is seen. */
  const listBatch = useCallback(
    (folder: PathId) => call(async () => setBatch({ folder, rides: await desk.batch(folder), at: null })),
    [call],
  );
  const openRide = useCallback(
    (of: Batch, index: number | null) => {
      const id = index === null ? null : (of.rides[index]?.id ?? null);
      if (id === null) return;
      void openIt(id).then((opened) => {
        if (!opened) return;
        setBatch({
          ...of,
          rides: of.rides.map((ride, at) => (at === index ? { ...ride, seen: true } : ride)),
          at: index,
        });
      });
    },
    [openIt],
  );
  const next = batch === null ? null : rideFrom(batch, 1);
  const before = batch === null ? null : rideFrom(batch, -1);
  useKeys(
    words.batch,
    batch === null
      ? []
      : [
          { keys: "n", words: words.batchNext, run: () => openRide(batch, next) },
          { keys: "p", words: words.batchBefore, run: () => openRide(batch, before) },
        ],
  );
  return { batch, next, before, listBatch, openRide };
}
