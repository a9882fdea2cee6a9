import type { Plan } from "../contract/plan.ts";
import type { Language } from "../contract/languageAndUnits.ts";
import { access } from "node:fs/promises";
import { join } from "node:path";
import { Failure } from "../contract/failure.ts";
import { planSheetHtml } from "../handover/planSheetHtml.tsx";
import { writeAtomic } from "../host/writeAtomic.edge.ts";
import { planBand, plannedBlocks } from "../reading/band.ts";
import { planJson } from "../reading/plan/planJson.ts";
import { targetWarnings } from "../reading/plan/targetFor.ts";
import { withoutPastEvent } from "../reading/plan/withoutPastEvent.ts";
import { pageFonts } from "../host/pageFonts.edge.ts";
import type { Host } from "./host.ts";
import { planSourceOfKnown, type PlanChoices } from "./planSource.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";
import type { Note } from "../contract/notice.ts";

/** Now on the clock of this computer, as ms since 1970 of that clock. */
function localNowMs(host: Host): number {
  const now = new Date(host.nowMs());
  return now.getTime() - now.getTimezoneOffset() * 60_000;
}

/** Whether the plan says how hard to ride: by power, by heart rate, or by blocks of their own power. */
function asksForSome({ targetW, heartLowBpm, blocks }: Plan): boolean {
  return targetW !== null || heartLowBpm !== null || blocks.some((block) => block.targetW !== null);
}

interface PlanSheet {
  readonly written: readonly string[];
  /** Which of them is the plan, and which the athlete's page. */
  readonly planPath: string;
  readonly sheetPath: string;
  readonly hasTarget: boolean;
  readonly warnings: readonly Note[];
}

/**
 * Writes `plan.json`, and `plan.html`: half a page for the athlete before the ride. Gives both paths, and what
 * should be said about the athlete's target. Failures:
 * `output-not-writable` where one is there already, `file-unreadable` for a folder without an athlete.
 *
 * @param language of the page; null: the athlete's, else English
 */
export async function planJourney(
  choices: PlanChoices,
  folder: string,
  language: Language | null,
  host: Host,
): Promise<PlanSheet> {
  const { athlete, on } = await planSourceOfKnown(choices);
  const nowMs = localNowMs(host);
  const plan = on(nowMs);
  await makeFolder(folder);
  const files = [
    { path: join(folder, "plan.json"), text: `${JSON.stringify(planJson(plan), null, 2)}\n` },
    {
      path: join(folder, "plan.html"),
      text: planSheetHtml(
        withoutPastEvent(plan, nowMs),
        planBand(plan),
        language ?? athlete?.language ?? "en",
        await pageFonts(),
        plannedBlocks(plan),
      ),
    },
  ];
  for (const { path } of files) {
    if (
      await access(path).then(
        () => true,
        () => false,
      )
    ) {
      throw new Failure("plan-sheet-there", { path });
    }
  }
  for (const { path, text } of files) await writeAtomic(path, text);
  const warnings = athlete === null ? [] : targetWarnings(athlete, plan.setting, nowMs, plan.targetW);
  const [planPath, sheetPath] = files.map(({ path }) => path) as [string, string];
  return { written: [planPath, sheetPath], planPath, sheetPath, hasTarget: asksForSome(plan), warnings };
}
