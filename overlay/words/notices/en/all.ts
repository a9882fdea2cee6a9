import type { FailureFacts, NoteFacts } from "../../../../main/contract/notice.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import { rideFailures, rideNotes } from "./ride.ts";
import { lineupFailures, lineupNotes } from "./lineup.ts";
import { readingFailures, readingNotes } from "./reading.ts";
import { trustFailures } from "./trust.ts";

/** Every failure in English. */
export const failuresEn: FailureWords<FailureFacts> = {
  prose: ({ sentence, remedy }) => [sentence, remedy],
  ...rideFailures,
  ...lineupFailures,
  ...readingFailures,
  ...trustFailures,
};

/** Every warning and note in English. */
export const notesEn: NoteWords<NoteFacts> = {
  "prose-note": ({ sentence }) => sentence,
  ...rideNotes,
  ...lineupNotes,
  ...readingNotes,
};
