import type { FailureFacts, NoteFacts } from "../../../../main/contract/notice.ts";
import type { FailureWords, NoteWords } from "../tables.ts";
import { rideFailures, rideNotes } from "./ride.ts";
import { lineupFailures, lineupNotes } from "./lineup.ts";
import { readingFailures, readingNotes } from "./reading.ts";
import { trustFailures } from "./trust.ts";
import { footageFailures, footageNotes } from "./footage.ts";
import { renderFailures, renderNotes } from "./render.ts";
import { handOverFailures, handOverNotes } from "./handover.ts";
import { debriefFailures } from "./debrief.ts";
import { journeyFailures, journeyNotes } from "./journey.ts";
import { appFailures, appNotes } from "./app.ts";
import { cliFailures } from "./cli.ts";

/** Every failure in English. */
export const failuresEn: FailureWords<FailureFacts> = {
  ...rideFailures,
  ...lineupFailures,
  ...readingFailures,
  ...trustFailures,
  ...footageFailures,
  ...renderFailures,
  ...handOverFailures,
  ...debriefFailures,
  ...journeyFailures,
  ...appFailures,
  ...cliFailures,
};

/** Every warning and note in English. */
export const notesEn: NoteWords<NoteFacts> = {
  ...rideNotes,
  ...lineupNotes,
  ...readingNotes,
  ...footageNotes,
  ...renderNotes,
  ...handOverNotes,
  ...journeyNotes,
  ...appNotes,
};
