import type { Athlete } from "../contract/athlete.ts";
import { Failure } from "../contract/failure.ts";
import type { Ride } from "../contract/ride.ts";
import type { Plan, RiderNote, Setting } from "../contract/plan.ts";
import { loadAthlete } from "../debrief/athleteStore.edge.ts";
import { localStartMs } from "../reading/plan/targetFor.ts";
import { athletePlan } from "../reading/plan/athletePlan.ts";
import { defaultPlan, parsePlan } from "../reading/plan/parsePlan.ts";
import { readText } from "../host/readText.edge.ts";

/** The form of a plan file, for a person. */
export { planHelp } from "../reading/plan/planHelp.ts";

/** What the command line can say about the plan without a file; it wins over the file. */
export interface PlanChoices {
  readonly planPath: string | null;
  /** Folder of the athlete's file, whose lasting values stand where neither file nor command line says anything; null or left out: none. */
  readonly athleteDir?: string | null;
  readonly targetW: number | null;
  readonly toleranceW: number | null;
  readonly setting: Setting | null;
}

/** JSON of a file a person wrote; a Failure that names the file when it is unreadable or no JSON. */
async function readJson(path: string): Promise<unknown> {
  let text: string;
  try {
    text = await readText(path);
  } catch (error) {
    throw new Failure("plan-file-unreadable", { path }, error);
  }
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    const said = error instanceof Error ? error.message : String(error);
    throw new Failure("plan-file-no-json", { path, said }, error);
  }
}

/** What was said about a ride beforehand: its plan waits for the ride's day, which decides the athlete's target. */
export interface PlanSource {
  /** Null: no athlete was named, or the folder holds no file yet. */
  readonly athlete: Athlete | null;
  /** The plan of a ride that began then on the local clock, as ms since 1970; null: not known, then the athlete's newest target holds. */
  readonly on: (rideLocalMs: number | null) => Plan;
}

/** The athlete's values, over them the plan file, over that what the command line says. All of it is checked at once. */
export async function planSource(choices: PlanChoices): Promise<PlanSource> {
  const { planPath, athleteDir = null, targetW, toleranceW, setting } = choices;
  const file = planPath === null ? {} : await readJson(planPath);
  const alone = parsePlan(file, planPath ?? "");
  const athlete = athleteDir === null ? null : await loadAthlete(athleteDir);
  const flags = {
    ...(targetW === null ? {} : { targetW }),
    ...(toleranceW === null ? {} : { toleranceW }),
    ...(setting === null ? {} : { setting }),
  };
  return {
    athlete,
    on: (rideLocalMs) => ({
      ...parsePlan(
        file,
        planPath ?? "",
        athlete === null ? defaultPlan() : athletePlan(athlete, setting ?? alone.setting, rideLocalMs),
      ),
      ...flags,
    }),
  };
}

/** As `planSource`; a folder without an athlete's file is a Failure `file-unreadable`. */
export async function planSourceOfKnown(choices: PlanChoices): Promise<PlanSource> {
  const source = await planSource(choices);
  if (source.athlete === null && typeof choices.athleteDir === "string")
    throw new Failure("athlete-none-there", { folder: choices.athleteDir });
  return source;
}

/** The plan that a file says for a ride, over the values of the athlete in a folder (null: of nobody) and of today. */
export async function planOfFile(
  planPath: string,
  athleteDir: string | null,
  today: Plan,
  ride: Ride | null,
): Promise<Plan> {
  const source = await planSource({ planPath, athleteDir, targetW: null, toleranceW: null, setting: null });
  const plan = source.on(ride && localStartMs(ride));
  const { note, title, rider } = today;
  // What the file leaves open stays as it was said: the place, the debrief's name, the rider and how the ride felt.
  return {
    ...plan,
    setting: parsedSetting(await readJson(planPath)) ? plan.setting : today.setting,
    title: plan.title ?? title,
    rider: plan.rider ?? rider,
    note: Object.fromEntries(
      Object.entries(plan.note).map(([part, said]) => [part, said ?? note[part as keyof RiderNote]]),
    ) as unknown as RiderNote,
  };
}

function parsedSetting(file: unknown): boolean {
  return typeof file === "object" && file !== null && "setting" in file;
}
