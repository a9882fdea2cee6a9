import { join } from "node:path";
import type { Language } from "../../overlay/words/phrases.ts";
import { debriefsUnder } from "../debrief/debriefsUnder.edge.ts";
import { writeAtomic } from "../debrief/writeAtomic.edge.ts";
import { weeksHtml } from "../weeks/weeksHtml.ts";
import { weeksLog, type WeeksLog } from "../weeks/weeksLog.ts";
import { pageFonts } from "./pageFonts.ts";

/** The log over the debriefs in a folder, written as `weeks.html` into it. */
export async function weeksJourney(folder: string, athleteName: string | null, language: Language): Promise<{ log: WeeksLog; written: string[]; warnings: readonly string[] }> {
  const { debriefs, warnings } = await debriefsUnder(folder);
  const log = weeksLog(debriefs);
  const path = join(folder, "weeks.html");
  await writeAtomic(path, weeksHtml(log, athleteName, language, await pageFonts()));
  return { log, written: [path], warnings };
}
