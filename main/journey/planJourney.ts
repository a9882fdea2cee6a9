import { access } from "node:fs/promises";
import { join } from "node:path";
import { Failure } from "../contract/failure.ts";
import { writeAtomic } from "../debrief/writeAtomic.edge.ts";
import { planJson } from "../reading/plan/planJson.ts";
import { planFor, type PlanChoices } from "./planFor.ts";
import { makeFolder } from "./makeFolder.ts";

/** Writes `plan.json` into a folder and gives its path. Failure `output-not-writable` where one is there already. */
export async function planJourney(choices: PlanChoices, folder: string): Promise<string> {
  const plan = await planFor(choices);
  await makeFolder(folder);
  const path = join(folder, "plan.json");
  if (await access(path).then(() => true, () => false)) {
    throw new Failure("output-not-writable", `${path} is there already and was not overwritten.`, "Choose another folder with --out.");
  }
  await writeAtomic(path, `${JSON.stringify(planJson(plan), null, 2)}\n`);
  return path;
}
