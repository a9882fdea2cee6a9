import { resolve } from "node:path";
import type { DebriefDocument } from "../contract/debrief.ts";
import type { EarlierPlan } from "../contract/debriefApi.ts";
import type { Plan } from "../contract/plan.ts";
import { loadDebrief } from "../debrief/debriefStore.edge.ts";
import { debriefsUnder } from "../debrief/debriefsUnder.edge.ts";
import { rideDateText } from "../../overlay/words/dateText.ts";

/**
 * What was asked of the athlete's other rides, those of debriefs elsewhere among them, the latest first; a plan that was
 * asked more than once is given once.
 */
export async function earlierPlans(
  athleteDir: string | null,
  folder: string | null,
  elsewhere: readonly string[],
): Promise<(Omit<EarlierPlan, "id"> & { readonly folder: string })[]> {
  if (athleteDir === null) return [];
  const { debriefs } = await debriefsUnder(athleteDir, elsewhere).catch(() => ({ debriefs: [] }));
  const latest = debriefs
    .map(({ name, figures }) => ({ of: resolve(athleteDir, name), startUtcMs: figures?.startUtcMs ?? 0 }))
    .filter(({ of }) => folder === null || of !== resolve(folder))
    .sort((a, b) => b.startUtcMs - a.startUtcMs);
  const found = new Map<string, Omit<EarlierPlan, "id"> & { readonly folder: string }>();
  for (const { of } of latest) {
    const document = (await loadDebrief(of).catch(() => null))?.document;
    if (document === undefined) continue;
    const { plan } = document;
    const { note: _note, rider: _rider, meterOffsetW: _meter, ...rest } = asked(plan);
    const same = JSON.stringify(rest);
    if (found.has(same)) continue;
    found.set(same, {
      folder: of,
      title: plan.title,
      rideDateText: dateOf(document),
      setting: plan.setting,
      targetW: plan.targetW,
      warmUpS: plan.warmUpS,
      blocks: plan.blocks.length,
    });
  }
  return [...found.values()];
}

/**
 * The plan of the debrief in a folder, to be asked once more: whose ride it is, what the meter reads and how the rider
 * felt stay as they are today. @throws Failure where the debrief can't be read
 */
export async function earlierPlan(
  folder: string,
  today: Plan,
): Promise<{ readonly plan: Plan; readonly dateText: string | null }> {
  const { document } = await loadDebrief(folder);
  const { rider, meterOffsetW, units, note } = today;
  const then = asked(document.plan);
  // A name that the coach has given this one stays where the earlier one has none.
  const title = then.title ?? today.title;
  return { plan: { ...then, title, rider, meterOffsetW, units, note }, dateText: dateOf(document) };
}

/** A plan as it was before the ride: nothing is practised yet. */
function asked(plan: Plan): Plan {
  const { skills } = plan;
  return skills === undefined ? plan : { ...plan, skills: skills.map((one) => ({ ...one, done: null })) };
}

function dateOf({ figures }: DebriefDocument): string | null {
  return figures === null || figures.startUtcMs === null
    ? null
    : rideDateText(figures.startUtcMs, figures.utcOffsetMin, "en");
}
