import { access } from "node:fs/promises";
import { join } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Language } from "../../overlay/words/phrases.ts";
import { planSheetHtml } from "../handover/planSheetHtml.ts";
import { writeAtomic } from "../debrief/writeAtomic.edge.ts";
import { planBand } from "../reading/band.ts";
import { planJson } from "../reading/plan/planJson.ts";
import { pageFonts } from "./pageFonts.ts";
import { planFor, type PlanChoices } from "./planFor.ts";
import { makeFolder } from "./makeFolder.ts";

/**
 * Writes `plan.json`, and `plan.html`: half a page for the athlete before the ride. Gives both paths. Failure
 * `output-not-writable` where one is there already.
 */
export async function planJourney(choices: PlanChoices, folder: string, language: Language): Promise<string[]> {
  const plan = await planFor(choices);
  await makeFolder(folder);
  const files = [
    { path: join(folder, "plan.json"), text: `${JSON.stringify(planJson(plan), null, 2)}\n` },
    { path: join(folder, "plan.html"), text: planSheetHtml(plan, planBand(plan), language, await pageFonts()) },
  ];
  for (const { path } of files) {
    if (await access(path).then(() => true, () => false)) {
      throw new Failure("output-not-writable", `${path} is there already and was not overwritten.`, "Choose another folder with --out.");
    }
  }
  for (const { path, text } of files) await writeAtomic(path, text);
  return files.map(({ path }) => path);
}
