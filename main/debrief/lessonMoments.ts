import type { Moment } from "../contract/reading.ts";

/** Kinds that have a name in the phrase table; every other is the coach's own word. */
const TABLE_KINDS: ReadonlySet<string> = new Set([
  "riseThenOff",
  "breakRun",
  "lapse",
  "surge",
  "driftOnset",
  "oddHeart",
  "steadyStretch",
  "turn",
  "cadenceBlock",
  "effortShort",
  "marked",
]);

/** Moments without the coach's own words, which may name people and places: own kinds and reasons become plain ones. */
export function lessonMoments(moments: readonly Moment[]): Moment[] {
  return moments.map((moment) => ({
    ...moment,
    kind: TABLE_KINDS.has(moment.kind) ? moment.kind : "ownMoment",
    reason: moment.setBy === "coach" ? "" : moment.reason,
    setBy: "computed",
  }));
}
