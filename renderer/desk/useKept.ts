import { useState } from "react";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { PlaceName } from "../../main/contract/keptPlace.ts";
import { desk } from "./desk.ts";

/** What was kept since the page was loaded: newer than what the program last sent. By folder and name. */
const since = new Map<string, string | null>();

const keyOf = (folder: string, name: PlaceName): string => `${name} ${folder}`;

/** Where a debrief was left, through other steps, a reload and a restart of the program; null: not known. */
export function keptIn({ folder, place }: DebriefView, name: PlaceName): string | null {
  return since.get(keyOf(folder, name)) ?? place[name] ?? null;
}

/** Keeps where one is in a debrief; null lets it go. Without a ride it has no folder yet: nothing is kept. */
export function keepIn({ folder }: DebriefView, name: PlaceName, text: string | null): void {
  if (folder === "") return;
  since.set(keyOf(folder, name), text);
  // Nothing is lost where the program does not answer: the place is kept with the next one.
  desk.keepPlace(folder, name, text).catch(() => undefined);
}

/** A state that comes back as it was after other steps, a reload and a restart, for one debrief. */
export function useKept(name: PlaceName, debrief: DebriefView): [string | null, (text: string | null) => void] {
  const [text, setText] = useState<string | null>(() => keptIn(debrief, name));
  const set = (next: string | null) => {
    keepIn(debrief, name, next);
    setText(next);
  };
  return [text, set];
}
