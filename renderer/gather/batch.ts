import { useSyncExternalStore } from "react";
import type { BatchEntry, PathId } from "../../main/contract/debriefApi.ts";

/** The batch that the coach is going through; it stays while its debriefs are opened one after the other. */
export interface Batch {
  readonly folder: PathId;
  readonly rides: readonly BatchEntry[];
  /** Of `rides`, that was opened last; null: none yet. */
  readonly at: number | null;
}

let batch: Batch | null = null;
const listeners = new Set<() => void>();

export function setBatch(next: Batch | null): void {
  batch = next;
  for (const listener of listeners) listener();
}

export function useBatch(): Batch | null {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => batch,
  );
}

/** The ride so many further in the list that has a debrief to open; null: there is none that way. */
export function rideFrom({ rides, at }: Batch, by: 1 | -1): number | null {
  for (let index = at === null ? (by === 1 ? 0 : rides.length - 1) : at + by; index in rides; index += by)
    if (rides[index]!.id !== null) return index;
  return null;
}
