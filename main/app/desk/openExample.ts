import { existsSync } from "node:fs";
import { join } from "node:path";
import { exampleRide, type ExampleRide } from "../../journey/exampleRide.ts";
import { defaultFolder } from "../../journey/savedDebrief.ts";
import { planSource } from "../../journey/planSource.ts";
import type { DeskContext } from "./deskContext.ts";
import { gatherFiles } from "./gatherFiles.ts";
import { openSession } from "./openSession.ts";
import type { Session } from "./session.ts";

/** The example's files, made as a job the first time; null: it was stopped. @throws Failure where they can't be made */
export async function exampleFiles({ jobs, host }: DeskContext): Promise<ExampleRide | null> {
  const made: { example: ExampleRide | null; error: unknown } = { example: null, error: null };
  const job = jobs.add({
    what: "gather",
    title: { of: "example ride" },
    background: false,
    beside: true,
    async run(context) {
      try {
        made.example = await exampleRide(host, context);
      } catch (error) {
        made.error = error;
        throw error;
      }
    },
  });
  const { state } = await job.settled;
  if (state === "failed") throw made.error;
  return state === "cancelled" ? null : made.example;
}

/** The debrief of the example that was begun before; null: there is none. */
export function openBegunExample({ ridePath }: ExampleRide, desk: DeskContext): Promise<Session> | null {
  const folder = defaultFolder(ridePath, null);
  return existsSync(join(folder, "debrief.json")) ? openSession(folder, false, desk) : null;
}

/** Puts the example's files and its plan on an empty desk. */
export async function putExample(session: Session, example: ExampleRide, desk: DeskContext): Promise<void> {
  await gatherFiles(session, [example.ridePath, ...example.clipPaths], desk);
  const source = await planSource({ planPath: example.planPath, targetW: null, toleranceW: null, setting: null });
  await session.note({ plan: source.on(null) });
}
