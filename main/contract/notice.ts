/**
 * Everything the program says beside its results, as data: `{ code, facts }` from a closed list. Facts are raw numbers
 * with their unit in the key, names as given, and tags of closed unions; never words. The words of both languages stand
 * in `overlay/words/notices/`, where the compiler asks for every code.
 *
 * A new one: its code and facts into the file of its room below `notices/`, a failure's kind into `failureKinds.ts`, its
 * words into `overlay/words/notices/en/` and `de/`.
 */
import type { LineupFailures, LineupNotes } from "./notices/lineup.ts";
import type { ReadingFailures, ReadingNotes } from "./notices/reading.ts";
import type { RideFailures, RideNotes } from "./notices/ride.ts";
import type { TrustFailures } from "./notices/trust.ts";
import type { FootageFailures, FootageNotes } from "./notices/footage.ts";
import type { RenderFailures, RenderNotes } from "./notices/render.ts";
import type { HandOverFailures, HandOverNotes } from "./notices/handover.ts";
import type { DebriefFailures } from "./notices/debrief.ts";
import type { JourneyNotes, JourneyFailures } from "./notices/journey.ts";
import type { AppFailures, AppNotes } from "./notices/app.ts";
import type { CliFailures } from "./notices/cli.ts";

/** Facts of what stops a job and leaves a person something to do, by code. */
export interface FailureFacts
  extends
    RideFailures,
    FootageFailures,
    LineupFailures,
    ReadingFailures,
    RenderFailures,
    HandOverFailures,
    DebriefFailures,
    JourneyFailures,
    AppFailures,
    CliFailures,
    TrustFailures {}

/** Facts of warnings and notes, by code. */
export interface NoteFacts
  extends RideNotes, FootageNotes, LineupNotes, ReadingNotes, RenderNotes, HandOverNotes, JourneyNotes, AppNotes {}

type NoticeOf<F> = { readonly [C in keyof F]: { readonly code: C; readonly facts: F[C] } }[keyof F];

/** Why something failed. */
export type FailureNotice = NoticeOf<FailureFacts>;
/** A warning or note: the job went on. */
export type Note = NoticeOf<NoteFacts>;
/** What a list of warnings holds: notes, and failures that were passed over. */
export type Notice = FailureNotice | Note;

/** One note. */
export function note<C extends keyof NoteFacts>(code: C, facts: NoteFacts[C]): Note {
  return { code, facts } as Note;
}

/** The notices in their order, each that says the same once. */
export function distinctNotices<N extends Notice>(notices: Iterable<N>): N[] {
  return [...new Map([...notices].map((one) => [JSON.stringify([one.code, one.facts]), one])).values()];
}
