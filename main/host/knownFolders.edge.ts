import { mkdir, readFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { z } from "zod";
import { stateFolder } from "./stateFolder.edge.ts";
import { writeAtomic } from "./writeAtomic.edge.ts";

/** So many of each are remembered. */
const KEPT = 100;

const form = z.object({ debriefs: z.array(z.string()).default([]), athletes: z.array(z.string()).default([]) });
type Lists = z.infer<typeof form>;

function listPath(): string {
  return join(stateFolder(), "known.json");
}

/** Folders of debriefs and athletes that were used, the last used first. Empty where nothing is remembered. */
export async function knownFolders(): Promise<Lists> {
  try {
    return form.parse(JSON.parse(await readFile(listPath(), "utf8")));
  } catch {
    return { debriefs: [], athletes: [] };
  }
}

let writing: Promise<void> = Promise.resolve();

/** Puts a folder first on one of the lists, or takes it off. Best effort: what can't be remembered is asked again. */
export function remember(list: keyof Lists, folder: string, keep = true): Promise<void> {
  writing = writing.then(async () => {
    try {
      const known = await knownFolders();
      const rest = known[list].filter((one) => one !== folder);
      const next = { ...known, [list]: (keep ? [folder, ...rest] : rest).slice(0, KEPT) };
      await mkdir(dirname(listPath()), { recursive: true, mode: 0o700 });
      await writeAtomic(listPath(), `${JSON.stringify(next, null, 1)}\n`);
    } catch {
      // Nothing of the user's is lost.
    }
  });
  return writing;
}
