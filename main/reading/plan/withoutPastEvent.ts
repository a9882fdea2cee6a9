import type { Plan } from "../../contract/plan.ts";

const DAY_MS = 86_400_000;

/** Whether an event's day was over at a time on the local clock; false where either is not known. */
export function eventIsOver(eventDate: string | null, localMs: number | null): boolean {
  if (eventDate === null || localMs === null) return false;
  return Date.parse(eventDate) + DAY_MS <= localMs;
}

/**
 * The plan without an event whose day is over: nothing is built up to it, and nobody reads its name.
 * @param localMs the ride's start, or today, on the local clock as ms since 1970; null: not known, then the event stands
 */
export function withoutPastEvent(plan: Plan, localMs: number | null): Plan {
  return eventIsOver(plan.eventDate, localMs) ? { ...plan, eventName: null, eventS: null, eventDate: null } : plan;
}
