import { UNIT_SYSTEMS } from "../../contract/languageAndUnits.ts";
import { SETTINGS, BLOCK_KINDS, SKILLS, type Plan, type PlanBlock } from "../../contract/plan.ts";
import { z } from "zod";
import { Failure } from "../../contract/failure.ts";
import { defaultPlan } from "./defaultPlan.ts";
import { parseDurationS } from "./duration.ts";
import { formFault, type FormRule } from "../../contract/formFault.ts";

export { defaultPlan };

/** A duration in JSON, turned into seconds. */
const durationInput = z.union([z.number(), z.string()]).transform((value, context) => {
  const seconds = parseDurationS(value);
  if (seconds === null) {
    context.addIssue({
      code: "custom",
      params: { rule: "duration" satisfies FormRule },
    });
    return z.NEVER;
  }
  return seconds;
});

const watts = z.number().min(1).max(2000);
const bpm = z.number().min(30).max(240);
const words = z.string().trim().min(1);
const band = (edge: typeof watts) =>
  z
    .tuple([edge, edge])
    .refine(([low, high]) => low < high, { params: { rule: "lower number first" satisfies FormRule } });

/** What a break may be excused by; the first four are the default. */
const excuseNames = ["stopped", "corner", "braking", "steep descent", "slowed, cause not in the data"] as const;

const block = z
  .strictObject({
    from: durationInput,
    to: durationInput,
    kind: z.enum(BLOCK_KINDS).default("steady"),
    target: watts.optional(),
    tolerance: watts.optional(),
  })
  .refine((one) => one.from < one.to, { params: { rule: "to after from" satisfies FormRule }, path: ["to"] });

const planInput = z
  .strictObject({
    title: words.optional(),
    rider: words.optional(),
    setting: z.enum(SETTINGS).optional(),
    target: watts.optional(),
    tolerance: watts.optional(),
    range: band(watts).optional(),
    heartBand: band(bpm).optional(),
    warmUp: durationInput.optional(),
    coolDown: durationInput.optional(),
    length: durationInput.optional(),
    blocks: z.array(block).max(100).optional(),
    skills: z
      .array(
        z.strictObject({
          skill: z.enum(SKILLS),
          repeats: z.number().int().min(1).max(99).nullable().default(1),
          done: z.number().int().min(0).max(99).optional(),
        }),
      )
      .max(SKILLS.length)
      .optional(),
    event: z
      .strictObject({ name: words.optional(), duration: durationInput.optional(), date: z.iso.date().optional() })
      .optional(),
    floor: z.number().min(1).max(200).optional(),
    excuses: z.array(z.enum(excuseNames)).optional(),
    limits: z
      .strictObject({
        leastFactor: z.number().min(0.1).max(5).optional(),
        aimFactor: z.number().min(0.1).max(5).optional(),
        leastCap: durationInput.optional(),
        aimCap: durationInput.optional(),
        drift: z.number().min(1).max(40).optional(),
      })
      .optional(),
    meterOffset: z.number().min(-200).max(200).optional(),
    units: z.enum(UNIT_SYSTEMS).optional(),
    note: z
      .strictObject({
        feel: words.exactOptional(),
        heat: words.exactOptional(),
        foodAndDrink: words.exactOptional(),
        sleep: words.exactOptional(),
        illness: words.exactOptional(),
        medicine: words.exactOptional(),
        kit: words.exactOptional(),
      })
      .optional(),
  })
  .superRefine((plan, context) => {
    const wrong = (path: string, rule: FormRule) =>
      context.addIssue({ code: "custom", path: [path], params: { rule } });
    if (plan.range && plan.target !== undefined) wrong("range", "target or range");
    if (plan.range && plan.tolerance !== undefined) wrong("tolerance", "range without tolerance");
    if (plan.tolerance !== undefined && plan.target === undefined && !plan.range)
      wrong("tolerance", "tolerance needs target");
    if (plan.target !== undefined && plan.tolerance !== undefined && plan.tolerance >= plan.target) {
      wrong("tolerance", "tolerance below target");
    }
    const duration = plan.event?.duration;
    if (duration !== undefined && duration < 600) {
      wrong("event", "event under 10 minutes");
    }
    const parts = [plan.warmUp, plan.coolDown].reduce<number>((sum, one) => sum + (one ?? 0), 0);
    const last = plan.blocks?.at(-1)?.to ?? 0;
    if (plan.length !== undefined && plan.length < Math.max(60, parts, last)) wrong("length", "length of its parts");
    let end = -1;
    for (const one of plan.blocks ?? []) {
      if (one.from < end) wrong("blocks", "blocks in order");
      end = one.to;
    }
  });

/**
 * A plan file's JSON as a `Plan`; the keys and units are described by `planHelp`.
 *
 * @param usual what stands where the file says nothing, as the athlete's own target; a target or range in the file
 *   brings its own tolerance, and a heart band stands without a target
 * @throws Failure `plan-not-valid`, naming the file, the key and the remedy.
 */
export function parsePlan(json: unknown, fileName: string, usual: Plan = defaultPlan()): Plan {
  const result = planInput.safeParse(json);
  if (!result.success) {
    throw new Failure("plan-unusable", { fileName, fault: formFault(result.error.issues) }, result.error);
  }
  const input = result.data;
  const targetW = input.range
    ? (input.range[0] + input.range[1]) / 2
    : (input.target ?? (input.heartBand ? null : usual.targetW));
  const ownTarget = input.range !== undefined || input.target !== undefined;
  const toleranceW = input.range
    ? (input.range[1] - input.range[0]) / 2
    : (input.tolerance ?? (ownTarget || targetW === null ? null : usual.toleranceW));
  // An event in the file stands for itself: the athlete's name with the file's duration would be an event of nobody's.
  const event = input.event ?? { name: usual.eventName, duration: usual.eventS, date: usual.eventDate };
  return defaultPlan({
    title: input.title ?? usual.title,
    rider: input.rider ?? usual.rider,
    setting: input.setting ?? usual.setting,
    targetW,
    toleranceW,
    heartLowBpm: input.heartBand?.[0] ?? usual.heartLowBpm,
    heartHighBpm: input.heartBand?.[1] ?? usual.heartHighBpm,
    warmUpS: input.warmUp ?? usual.warmUpS,
    coolDownS: input.coolDown ?? usual.coolDownS,
    blocks: (input.blocks ?? []).map((one): PlanBlock => ({
      startS: one.from,
      endS: one.to,
      kind: one.kind,
      targetW: one.target ?? null,
      toleranceW: one.tolerance ?? null,
    })),
    ...(input.length === undefined ? {} : { lengthS: input.length }),
    ...(input.skills === undefined || input.skills.length === 0
      ? {}
      : { skills: input.skills.map(({ skill, repeats, done }) => ({ skill, repeats, done: done ?? null })) }),
    eventS: event.duration ?? null,
    eventName: event.name ?? null,
    eventDate: event.date ?? null,
    floorW: input.floor ?? usual.floorW,
    excuses: input.excuses ?? usual.excuses,
    targetLeastFactor: input.limits?.leastFactor ?? usual.targetLeastFactor,
    targetAimFactor: input.limits?.aimFactor ?? usual.targetAimFactor,
    targetLeastCapS: input.limits?.leastCap ?? usual.targetLeastCapS,
    targetAimCapS: input.limits?.aimCap ?? usual.targetAimCapS,
    driftLimitBeats: input.limits?.drift ?? usual.driftLimitBeats,
    meterOffsetW: input.meterOffset ?? usual.meterOffsetW,
    units: input.units ?? usual.units,
    note: { ...usual.note, ...input.note },
  });
}
