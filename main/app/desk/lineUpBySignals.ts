import type { Lineup } from "../../contract/lineup.ts";
import { Failure } from "../../contract/failure.ts";
import { readSignals } from "../../footage/signals/readSignals.edge.ts";
import type { DeskContext } from "./deskContext.ts";
import type { Session } from "./session.ts";

/**
 * Clips placed by what is seen and heard of them, as a job. Null when it was cancelled.
 *
 * @throws Failure of the job
 */
export async function lineUpBySignals(session: Session, desk: DeskContext): Promise<Lineup | null> {
  const { document } = session;
  const clips = session.clipsInUse();
  const { jobs, surroundings, reader } = desk;
  let lineup: Lineup | null = null;
  const shown = session.rides.get(document.shownRideId);
  if (shown === undefined) return null;
  const job = jobs.add({
    what: "lineup",
    title: "Line up by motion, sound and turning",
    background: false,
    async run({ signal, report }) {
      for (const [index, clip] of clips.entries()) {
        if (signal.aborted) return;
        if (session.signals.has(clip.id)) continue;
        const part = { signal, turning: true, report: (progress: { done: number; leftS: number | null; step: string }) => report({ ...progress, done: (index + progress.done) / (clips.length + 1) }) };
        const signals = await readSignals(clip, surroundings.tools, part);
        if (signal.aborted) return;
        session.signals.set(clip.id, signals);
        desk.changed();
      }
      report({ done: clips.length / (clips.length + 1), leftS: null, step: "comparing with the ride" });
      const signals = clips.flatMap(({ id }) => session.signals.get(id) ?? []);
      lineup = await reader.place(shown.path, { clips, anchors: document.anchors, deviceDelayS: document.deviceDelayS, signals, indoors: document.plan.setting === "trainer" });
    },
  });
  const { state, failure } = await job.settled;
  if (failure !== null) throw new Failure(failure.code, failure.sentence, failure.remedy);
  return state === "done" ? lineup : null;
}
