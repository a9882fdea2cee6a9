import { useCallback, useRef, useState } from "react";
import type { Listing, PathId } from "../../main/contract/debriefApi.ts";
import type { PickerWants } from "./pickerWants.ts";

type Entry = Listing["entries"][number];

const NOTHING: ReadonlySet<PathId> = new Set();

/** What is chosen, over several folders: one by one, a range of entries, or all that are shown. */
export function useChosen(wants: PickerWants) {
  const [chosen, setChosen] = useState(NOTHING);
  /** Where a range begins: the entry that was pressed last. */
  const anchor = useRef<number | null>(null);
  /** Another folder: what was chosen before stays so, with what was dropped and lies here. */
  const keep = useCallback(
    (found: readonly PathId[]) => {
      anchor.current = null;
      setChosen((old) => (wants === "files" ? new Set([...old, ...found]) : NOTHING));
    },
    [wants],
  );
  const toggle = (entry: Entry, entries: readonly Entry[]) => {
    if (!canBeTaken(entry, wants)) return;
    anchor.current = entries.indexOf(entry);
    setChosen((old) => toggled(old, entry.id));
  };
  const all = (entries: readonly Entry[]) => setChosen((old) => withAll(old, entries, wants));
  /** All from the entry that was pressed last (none: from `at`) to this one. */
  const range = (entries: readonly Entry[], at: number, to: number) => {
    const from = anchor.current ?? at;
    anchor.current = from;
    all(entries.slice(Math.min(from, to), Math.max(from, to) + 1));
  };
  return { chosen, keep, toggle, all, range };
}

/** Whether an entry can be among several that are taken. */
function canBeTaken({ kind }: Entry, wants: PickerWants): boolean {
  return wants === "files" && ["ride", "clip", "plan", "debrief"].includes(kind);
}

/** A plan is taken by itself: of several files of its form only one can be what was asked. */
function withAll(set: ReadonlySet<PathId>, entries: readonly Entry[], wants: PickerWants): ReadonlySet<PathId> {
  return new Set([
    ...set,
    ...entries.filter((entry) => entry.kind !== "plan" && canBeTaken(entry, wants)).map(({ id }) => id),
  ]);
}

function toggled(set: ReadonlySet<PathId>, id: PathId): ReadonlySet<PathId> {
  const next = new Set(set);
  if (!next.delete(id)) next.add(id);
  return next;
}
