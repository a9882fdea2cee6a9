import type { DebriefDocument, Edit } from "../../contract/debrief.ts";
import type { Athlete } from "../../debrief/athlete.ts";

/** What an athlete's file brings to a debrief: target, units, event, language and preset. What the plan says already stays. */
export function athleteDefaults(athlete: Athlete, document: DebriefDocument, label: string): Edit[] {
  const { plan, settings } = document;
  const target = plan.setting === "trainer" ? athlete.trainer : athlete.road;
  const event = athlete.events.at(0) ?? null;
  return [
    {
      part: "plan",
      value: {
        ...plan,
        rider: plan.rider ?? athlete.name,
        units: athlete.units,
        targetW: plan.targetW ?? target.targetW,
        toleranceW: plan.toleranceW ?? target.toleranceW,
        meterOffsetW: plan.meterOffsetW === 0 ? target.meterOffsetW : plan.meterOffsetW,
        eventName: plan.eventName ?? event?.name ?? null,
        eventS: plan.eventS ?? event?.durationS ?? null,
      },
      label,
    },
    { part: "settings", value: { ...settings, language: athlete.language, preset: athlete.preset }, label },
  ];
}
