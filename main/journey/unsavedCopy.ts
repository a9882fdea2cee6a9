import { mkdir } from "node:fs/promises";
import { basename, join } from "node:path";
import type { DebriefDocument } from "../contract/debrief.ts";
import { Failure } from "../contract/failure.ts";
import { DEBRIEF_FILE } from "../debrief/debriefStore.edge.ts";
import { debriefText } from "../debrief/parseDebrief.ts";
import { stateFolder } from "../host/stateFolder.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";

/** Keeps a document that can't be saved in its own folder in the program's, where that can be written, and says so as the failure to throw. */
export async function unsavedFailure(document: DebriefDocument, folder: string, diskFull: boolean): Promise<Failure> {
  const kept = join(stateFolder(), "unsaved", `${basename(folder)}-${Date.now()}`);
  const keptAt = await mkdir(kept, { recursive: true, mode: 0o700 })
    .then(() => writeAtomic(join(kept, DEBRIEF_FILE), debriefText(document)))
    .then(() => writeAtomic(join(kept, "folder.txt"), `${folder}\n`))
    .then(
      () => kept,
      () => null,
    );
  return new Failure("debrief-not-saved", { folder, keptAt, diskFull });
}
