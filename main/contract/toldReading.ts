/** What the ride says, short enough to be taken in at a glance: the same words and figures as the written page. */

/** What was asked beside what was ridden; an empty plan: nothing was asked. */
interface ToldRow {
  readonly label: string;
  readonly plan: string;
  readonly ride: string;
}

export interface ToldReading {
  /** What was held, what to change, what to ask of the next ride: the program's own lines. */
  readonly lines: readonly [held: string, change: string, next: string];
  readonly rows: readonly ToldRow[];
  /** Of the heart, one sentence each; empty where the ride has no heart rate. */
  readonly heart: readonly string[];
  /** All that can be said, a section for each subject, one sentence each. */
  readonly inWords: readonly (readonly string[])[];
}
