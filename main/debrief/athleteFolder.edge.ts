import { isAbsolute, join, relative } from "node:path";
import type { DebriefDocument } from "../contract/debrief.ts";
import { type Athlete, newAthlete } from "./athlete.ts";
import { loadAthlete, saveAthlete } from "./athleteStore.edge.ts";
import { portablePath } from "./mediaPath.ts";

/** The athlete of a folder; a new file of the name given is made where there is none. */
export async function athleteIn(folder: string, name: string): Promise<Athlete> {
  const found = await loadAthlete(folder);
  if (found !== null) return found;
  const athlete = newAthlete(name);
  await saveAthlete(folder, athlete);
  return athlete;
}

/** An athlete's folder as a document in `debriefFolder` names it; absolute where the two share no root. */
export function athletePathFrom(debriefFolder: string, athleteFolder: string): string {
  return portablePath(relative(debriefFolder, athleteFolder) || ".");
}

/**
 * The athlete with a consent given just now. It is kept in the athlete's file where there is one; without a file it
 * holds this once.
 * @param consent when and how, in the coach's words; null: as it stands
 */
export async function consentedAthlete(
  folder: string,
  document: Pick<DebriefDocument, "athletePath" | "plan">,
  athlete: Athlete | null,
  consent: string | null,
): Promise<Athlete | null> {
  if (consent === null) return athlete;
  const agreed: Athlete = {
    ...(athlete ?? newAthlete(document.plan.rider ?? "-")),
    lessonConsent: { given: true, dateText: consent },
  };
  const { athletePath } = document;
  if (athlete !== null && athletePath !== null)
    await saveAthlete(isAbsolute(athletePath) ? athletePath : join(folder, athletePath), agreed);
  return agreed;
}
