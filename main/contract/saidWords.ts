/** What a debrief says to the athlete in words, and whose they are. */

export interface SaidLine {
  /** As the key of the coach's own words. */
  readonly what: "held" | "change" | "next" | "notes" | "questions";
  /** As it goes out; questions one a line. Empty: nothing is said. */
  readonly text: string;
  readonly by: "made" | "yours";
  /** What the program makes of the ride; empty: nothing. */
  readonly made: string;
}

export interface SaidWords {
  readonly lines: readonly SaidLine[];
  /** The message as it will be sent. */
  readonly message: string;
}
