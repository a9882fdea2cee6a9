import type { Edit } from "../../contract/debrief.ts";
import { Failure } from "../../contract/failure.ts";
import { loadAthlete } from "../../debrief/athleteStore.edge.ts";
import { athletePathFrom } from "../../debrief/athleteFolder.edge.ts";
import { athleteDefaults } from "../../journey/athleteDefaults.ts";
import type { Session } from "./session.ts";
import { remember } from "../../host/knownFolders.edge.ts";

/**
 * Makes a debrief one of an athlete, with their defaults; a null folder takes it from them. `begin` gives the debrief
 * once the athlete's file was read. @throws Failure `file-unreadable` without an athlete.json there
 */
export async function useAthlete(folder: string | null, begin: () => Promise<Session>): Promise<void> {
  const athlete = folder === null ? null : await loadAthlete(folder);
  if (folder !== null && athlete === null) throw new Failure("athlete-none-there", { folder });
  const session = await begin();
  session.mayEdit();
  session.rider = { athlete, athleteDir: folder };
  if (folder !== null) await remember("athletes", folder);
  const path = folder === null || session.folder === null ? null : athletePathFrom(session.folder, folder);
  const shown = session.rides.get(session.document.shownRideId);
  const label = athlete === null ? "no athlete" : `athlete ${athlete.name}`;
  const edits: Edit[] = [
    { part: "athletePath", value: path, label },
    ...(athlete === null ? [] : athleteDefaults(athlete, session.document, shown?.ride ?? null, label)),
  ];
  // Whose a new desk is, is no edit: there is nothing yet that could be undone.
  if (session.folder === null) await session.note(Object.fromEntries(edits.map((edit) => [edit.part, edit.value])));
  else await session.arrange(edits);
}
