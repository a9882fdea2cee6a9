import { UNIT_SYSTEMS } from "../../contract/languageAndUnits.ts";
import { SETTINGS, BLOCK_KINDS, type Plan, type PlanBlock } from "../../contract/plan.ts";
import { z } from "zod";
import { Failure } from "../../contract/failure.ts";
import { defaultPlan } from "./defaultPlan.ts";
import { parseDurationS } from "./duration.ts";

export { defaultPlan };

/** A duration in JSON, turned into seconds. */
const durationInput = z.union([z.number(), z.string()]).transform((value, context) => {
  const seconds = parseDurationS(value);
  if (seconds === null) {
    context.addIssue({
      code: "custom",
      message: 'write minutes as a number, or text such as "10:00", "1:30:00" or "2 h 30"',
    });
    return z.NEVER;
  }
  return seconds;
});

const watts = z.number().min(1).max(2000);
const bpm = z.number().min(30).max(240);
const words = z.string().trim().min(1);
const band = (edge: typeof watts) =>
  z.tuple([edge, edge]).refine(([low, high]) => low < high, "the first number must be the lower one");

/** What a break may be excused by; the first four are the default. */
export const excuseNames = ["stopped", "corner", "braking", "steep descent", "slowed, cause not in the data"] as const;

const block = z
  .strictObject({
    from: durationInput,
    to: durationInput,
    kind: z.enum(BLOCK_KINDS).default("steady"),
    target: watts.optional(),
    tolerance: watts.optional(),
  })
  .refine((one) => one.from < one.to, { message: '"to" must come after "from"', path: ["to"] });

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
    blocks: z.array(block).max(100).optional(),
    event: z.strictObject({ name: words.optional(), duration: durationInput.optional() }).optional(),
    floor: z.number().min(1).max(200).optional(),
    excuses: z.array(z.enum(excuseNames)).optional(),
    limits: z
      .strictObject({
        leastFactor: z.number().min(0.1).max(5).optional(),
        aimFactor: z.number().min(0.1).max(5).optional(),
        leastCap: durationInput.optional(),
        aimCap: durationInput.optional(),
      })
      .optional(),
    meterOffset: z.number().min(-200).max(200).optional(),
    units: z.enum(UNIT_SYSTEMS).optional(),
    note: z
      .strictObject({
        feel: words.optional(),
        heat: words.optional(),
        foodAndDrink: words.optional(),
        sleep: words.optional(),
        illness: words.optional(),
        medicine: words.optional(),
        kit: words.optional(),
      })
      .optional(),
  })
  .superRefine((plan, context) => {
    const wrong = (path: string, message: string) => context.addIssue({ code: "custom", path: [path], message });
    if (plan.range && plan.target !== undefined) wrong("range", "give either a target with a tolerance, or a range");
    if (plan.range && plan.tolerance !== undefined) wrong("tolerance", "a range needs no tolerance");
    if (plan.tolerance !== undefined && plan.target === undefined && !plan.range)
      wrong("tolerance", "a tolerance needs a target");
    if (plan.target !== undefined && plan.tolerance !== undefined && plan.tolerance >= plan.target) {
      wrong("tolerance", "the tolerance must be smaller than the target");
    }
    const duration = plan.event?.duration;
    if (duration !== undefined && duration < 600) {
      wrong("event", 'an event of less than 10 minutes: write hours as "2:00:00" or "2 h"');
    }
    let end = -1;
    for (const one of plan.blocks ?? []) {
      if (one.from < end) wrong("blocks", "blocks must come in order and not overlap");
      end = one.to;
    }
  });

/** Says what is wrong with a JSON value, naming the key, as one sentence. */
function firstIssue(error: z.ZodError): string {
  const issue = error.issues[0];
  if (!issue) return "it is not valid";
  if (issue.code === "unrecognized_keys") return `"${issue.keys.join('", "')}" is not a key it knows`;
  const path = issue.path.map(String).join(".");
  return `${path === "" ? "the whole" : `"${path}"`}: ${issue.message}`;
}

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
    throw new Failure(
      "plan-not-valid",
      `The plan ${fileName} can't be used: ${firstIssue(result.error)}.`,
      "Correct that key; `followcar plan --help` lists all keys with their units.",
    );
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
  const event = input.event ?? { name: usual.eventName, duration: usual.eventS };
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
    eventS: event.duration ?? null,
    eventName: event.name ?? null,
    floorW: input.floor ?? usual.floorW,
    excuses: input.excuses ?? usual.excuses,
    targetLeastFactor: input.limits?.leastFactor ?? usual.targetLeastFactor,
    targetAimFactor: input.limits?.aimFactor ?? usual.targetAimFactor,
    targetLeastCapS: input.limits?.leastCap ?? usual.targetLeastCapS,
    targetAimCapS: input.limits?.aimCap ?? usual.targetAimCapS,
    meterOffsetW: input.meterOffset ?? usual.meterOffsetW,
    units: input.units ?? usual.units,
    note: { ...usual.note, ...input.note },
  });
}
