import { Failure } from "../../contract/failure.ts";
import { withSignals } from "../../journey/gather.ts";
import { clipSignals } from "../../journey/heardClips.ts";
import type { DeskContext } from "./deskContext.ts";
import type { Session } from "./session.ts";

/**
 * Looks at and listens to the clips on the desk, as a job, and keeps what it found for placing them. True when all of it
 * is there; false when it was cancelled.
 *
 * @throws Failure of the job
 */
export async function hearClips(session: Session, desk: DeskContext): Promise<boolean> {
  const clips = session.clipsInUse();
  const job = desk.jobs.add({
    what: "signals",
    title: { of: "signals" },
    background: false,
    async run(context) {
      const { signals } = await clipSignals(clips, session.media, desk.host, context);
      session.media = withSignals(session.media, signals);
    },
  });
  const { state, failure } = await job.settled;
  if (failure !== null) throw Failure.from(failure);
  return state === "done";
}
