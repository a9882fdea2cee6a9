import type { DebriefDocument } from "../../main/contract/debrief.ts";
import { failureOf } from "./failureOf.ts";

/** Sends a change to the program, as made on the document with this number. */
type Send = (madeOn: number) => Promise<void>;

/** What the window knows of the debrief that is open. */
interface Known {
  /** The document as last heard of, with its number; null where none is open. */
  now(): { readonly edit: number; readonly document: DebriefDocument } | null;
  /** A document of late by its number. */
  seenAt(edit: number): DebriefDocument | undefined;
  /** Resolves once the document has another number than this, or after a while. */
  movedFrom(edit: number): Promise<void>;
}

/** What the program finds out by itself may move the document on, again and again; a change is tried so often. */
const MOST_TRIES = 5;

/**
 * Changes go one after another. One that was made while another was under way, or while the program placed a clip anew,
 * stays good as long as what it changes is what the person saw; else the program is asked with the old number and
 * refuses it.
 */
export function turns(known: Known) {
  let last: Promise<unknown> = Promise.resolve();
  /**
   * @param madeOn number of the document that the person saw
   * @param rebased what to send where the document has moved from the one seen to the one now; null: it is good no more
   * @param asMade what to send then, to be refused
   */
  return (
    madeOn: number,
    rebased: (seen: DebriefDocument, now: DebriefDocument) => Send | null,
    asMade: Send,
  ): Promise<void> => {
    const run = async (): Promise<void> => {
      for (let tries = 1; ; tries += 1) {
        const now = known.now();
        const seen = known.seenAt(madeOn);
        const send = now === null || seen === undefined ? null : rebased(seen, now.document);
        if (now === null || send === null) return asMade(madeOn);
        try {
          return await send(now.edit);
        } catch (error) {
          if (tries === MOST_TRIES || failureOf(error).notice.code !== "desk-moved-on") throw error;
          await known.movedFrom(now.edit);
        }
      }
    };
    const sent = last.then(run, run);
    last = sent;
    return sent;
  };
}
