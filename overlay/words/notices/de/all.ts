import type { FailureFacts, NoteFacts } from "../../../../main/contract/notice.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import { rideFailures, rideNotes } from "./ride.ts";
import { lineupFailures, lineupNotes } from "./lineup.ts";
import { readingFailures, readingNotes } from "./reading.ts";
import { trustFailures } from "./trust.ts";

/** Every failure in German. */
export const failuresDe: FailureWords<FailureFacts> = {
  prose: ({ sentence, remedy }) => [sentence, remedy],
  ...rideFailures,
  ...lineupFailures,
  ...readingFailures,
  ...trustFailures,
};

/** Every warning and note in German. */
export const notesDe: NoteWords<NoteFacts> = {
  "prose-note": ({ sentence }) => sentence,
  ...rideNotes,
  ...lineupNotes,
  ...readingNotes,
};
