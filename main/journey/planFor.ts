import { readFile } from "node:fs/promises";
import { Failure } from "../contract/failure.ts";
import type { Plan, Setting } from "../contract/plan.ts";
import { defaultPlan, parsePlan } from "../reading/plan/parsePlan.ts";

/** What the command line can say about the plan without a file; it wins over the file. */
export interface PlanChoices {
  readonly planPath: string | null;
  readonly targetW: number | null;
  readonly toleranceW: number | null;
  readonly setting: Setting | null;
}

/** JSON of a file a person wrote; a Failure that names the file when it is unreadable or no JSON. */
export async function readJson(path: string, what: string): Promise<unknown> {
  let text: string;
  try {
    text = await readFile(path, "utf8");
  } catch (error) {
    throw new Failure("file-unreadable", `The ${what} ${path} cannot be read.`, "Check the path and its permissions.", error);
  }
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    const where = error instanceof Error ? error.message : String(error);
    throw new Failure("plan-not-valid", `The ${what} ${path} is no JSON: ${where}.`, "Correct it, or see: followcar plan --help.", error);
  }
}

/** The plan in force: the file where one is named, else the defaults; then what the command line says. */
export async function planFor(choices: PlanChoices): Promise<Plan> {
  const plan = choices.planPath === null ? defaultPlan() : parsePlan(await readJson(choices.planPath, "plan"), choices.planPath);
  return {
    ...plan,
    ...(choices.targetW === null ? {} : { targetW: choices.targetW }),
    ...(choices.toleranceW === null ? {} : { toleranceW: choices.toleranceW }),
    ...(choices.setting === null ? {} : { setting: choices.setting }),
  };
}
