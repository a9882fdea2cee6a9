import type { Athlete, AthleteEvent } from "../../contract/athlete.ts";
import type { Plan, Setting } from "../../contract/plan.ts";
import { defaultPlan } from "./defaultPlan.ts";
import { targetFor, whereOf } from "./targetFor.ts";
import { eventIsOver } from "./withoutPastEvent.ts";

/** The day that a text is, or null: a coach may have written `early June`. */
const dayOf = (text: string | null): string | null => (text !== null && /^\d{4}-\d{2}-\d{2}$/.test(text) ? text : null);

/** The first event that is not known to lie before the ride's day; dated ones in the order of their days, then the rest. */
function nextEvent(events: readonly AthleteEvent[], rideLocalMs: number | null): AthleteEvent | null {
  const dayMs = ({ dateText }: AthleteEvent): number => (dayOf(dateText) === null ? Infinity : Date.parse(dateText!));
  const open = events.filter(({ dateText }) => !eventIsOver(dayOf(dateText), rideLocalMs));
  return open.reduce<AthleteEvent | null>(
    (next, event) => (next === null || dayMs(event) < dayMs(next) ? event : next),
    null,
  );
}

/**
 * What a ride of the athlete is asked where nothing else says it: their target and meter offset in the setting, their
 * next event, units and name.
 *
 * @param rideLocalMs start of the ride on the local clock, as ms since 1970; null: the newest target and the next event hold
 */
export function athletePlan(athlete: Athlete, setting: Setting, rideLocalMs: number | null): Plan {
  const target = targetFor(athlete, setting, rideLocalMs);
  const event = nextEvent(athlete.events, rideLocalMs);
  return defaultPlan({
    rider: athlete.name,
    setting,
    targetW: target?.targetW ?? null,
    toleranceW: target?.toleranceW ?? null,
    meterOffsetW: athlete[whereOf(setting)].meterOffsetW,
    eventName: event?.name ?? null,
    eventS: event?.durationS ?? null,
    eventDate: dayOf(event?.dateText ?? null),
    units: athlete.units,
  });
}
