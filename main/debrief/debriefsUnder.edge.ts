import { readdir } from "node:fs/promises";
import { resolve } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { DebriefDocument } from "../contract/debrief.ts";
import type { RideFigures } from "../contract/rideFigures.ts";
import { DEBRIEF_FILE, loadDebrief } from "./debriefStore.edge.ts";
import type { Notice } from "../contract/notice.ts";

export interface FoundDebrief {
  /** Folder of the debrief, from the folder searched; `.` for that folder itself. Of one elsewhere: its whole path. */
  readonly name: string;
  readonly figures: RideFigures | null;
  readonly document: DebriefDocument;
}

/**
 * The debriefs in a folder and in the folders right below it, by name; then those of folders elsewhere that are known.
 * One that can't be read is a warning that names it, never an end. Failure `file-unreadable` where the folder itself
 * can't be read.
 */
export async function debriefsUnder(
  folder: string,
  elsewhere: readonly string[] = [],
): Promise<{ readonly debriefs: readonly FoundDebrief[]; readonly warnings: readonly Notice[] }> {
  let entries;
  try {
    entries = await readdir(folder, { withFileTypes: true });
  } catch (error) {
    throw new Failure("debriefs-folder-unreadable", { folder }, error);
  }
  const names = [
    ...(entries.some((entry) => entry.name === DEBRIEF_FILE) ? ["."] : []),
    ...entries
      .filter((entry) => entry.isDirectory())
      .map((entry) => entry.name)
      .sort(),
    ...elsewhere,
  ];
  const debriefs: FoundDebrief[] = [];
  const warnings: Notice[] = [];
  for (const name of names) {
    const inside = name === "." ? [DEBRIEF_FILE] : await readdir(resolve(folder, name)).catch(() => []);
    if (!inside.includes(DEBRIEF_FILE)) continue;
    try {
      const { document } = await loadDebrief(resolve(folder, name));
      debriefs.push({ name, figures: document.figures, document });
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      warnings.push(error.notice);
    }
  }
  return { debriefs, warnings };
}
