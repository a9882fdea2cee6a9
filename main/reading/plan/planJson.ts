import type { Plan } from "../../contract/plan.ts";
import { durationText } from "./duration.ts";

/** A plan as the file form that `parsePlan` takes; what is unset or default is left out, but the keys most wanted stand. */
export function planJson(plan: Plan): Record<string, unknown> {
  const given = (entries: Record<string, unknown>) =>
    Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== null));
  const duration = (seconds: number | null) => (seconds === null ? null : durationText(seconds));
  const note = given({ ...plan.note });
  const event = given({ name: plan.eventName, duration: duration(plan.eventS), date: plan.eventDate });
  const blocks = plan.blocks.map((block) =>
    given({
      from: durationText(block.startS),
      to: durationText(block.endS),
      kind: block.kind,
      target: block.targetW,
      tolerance: block.toleranceW,
    }),
  );
  return given({
    title: plan.title ?? "Base ride",
    rider: plan.rider,
    setting: plan.setting,
    target: plan.targetW,
    tolerance: plan.targetW === null ? null : plan.toleranceW,
    heartBand: plan.heartLowBpm === null ? null : [plan.heartLowBpm, plan.heartHighBpm],
    warmUp: duration(plan.warmUpS) ?? "10:00",
    coolDown: duration(plan.coolDownS) ?? "10:00",
    length: duration(plan.lengthS ?? null),
    blocks: blocks.length === 0 ? null : blocks,
    skills: plan.skills?.map(({ skill, repeats, done }) => ({ ...given({ skill, done }), repeats })) ?? null,
    event: Object.keys(event).length === 0 ? null : event,
    floor: plan.floorW,
    excuses: plan.excuses,
    limits: {
      leastFactor: plan.targetLeastFactor,
      aimFactor: plan.targetAimFactor,
      leastCap: durationText(plan.targetLeastCapS),
      aimCap: durationText(plan.targetAimCapS),
      drift: plan.driftLimitBeats,
    },
    meterOffset: plan.meterOffsetW === 0 ? null : plan.meterOffsetW,
    units: plan.units,
    note: Object.keys(note).length === 0 ? null : note,
  });
}
