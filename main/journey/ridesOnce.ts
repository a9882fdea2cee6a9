import { stat } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import type { MediaRef } from "../contract/debrief.ts";
import { note, type Note } from "../contract/notice.ts";
import { DEBRIEF_FILE } from "../debrief/debriefStore.edge.ts";
import type { FoundDebrief } from "../debrief/debriefsUnder.edge.ts";
import { isSameContent } from "../debrief/sameContent.ts";

/** The ride file that a debrief shows; undefined where it names none. */
function shownFile({ document }: FoundDebrief): MediaRef | undefined {
  return document.media.find(({ id }) => id === document.shownRideId);
}

/** True where both debriefs are of one file: the same start, and the same size or content. */
function isSameRide(one: FoundDebrief, other: FoundDebrief): boolean {
  const startUtcMs = one.figures?.startUtcMs ?? null;
  if (startUtcMs === null || startUtcMs !== other.figures?.startUtcMs) return false;
  const [file, otherFile] = [shownFile(one), shownFile(other)];
  if (file === undefined || otherFile === undefined) return false;
  const { fingerprint } = otherFile;
  return (
    file.bytes === otherFile.bytes ||
    isSameContent(file.fingerprint, fingerprint) ||
    isSameContent(fingerprint, file.fingerprint)
  );
}

/**
 * Debriefs of a folder, each ride once: of several of one and the same ride the one that was saved last, with a note that
 * names them all.
 */
export async function ridesOnce(
  folder: string,
  debriefs: readonly FoundDebrief[],
): Promise<{ readonly once: readonly FoundDebrief[]; readonly notes: readonly Note[] }> {
  const groups: [FoundDebrief, ...FoundDebrief[]][] = [];
  for (const one of debriefs) {
    const group = groups.find(([first]) => isSameRide(first, one));
    if (group === undefined) groups.push([one]);
    else group.push(one);
  }
  const once: FoundDebrief[] = [];
  const notes: Note[] = [];
  for (const group of groups) {
    const counted = group.length === 1 ? group[0] : await savedLast(folder, group);
    once.push(counted);
    const nameOf = ({ name }: FoundDebrief): string => basename(resolve(folder, name));
    if (group.length > 1)
      notes.push(note("debriefs-of-one-ride", { debriefs: group.map(nameOf), counted: nameOf(counted) }));
  }
  return { once, notes };
}

async function savedLast(folder: string, group: readonly [FoundDebrief, ...FoundDebrief[]]): Promise<FoundDebrief> {
  let last = { one: group[0], savedMs: -Infinity };
  for (const one of group) {
    const saved = await stat(join(resolve(folder, one.name), DEBRIEF_FILE)).catch(() => null);
    if (saved !== null && saved.mtimeMs > last.savedMs) last = { one, savedMs: saved.mtimeMs };
  }
  return last.one;
}
