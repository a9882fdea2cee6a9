import { useSyncExternalStore } from "react";
import type { DebriefView, DeskState } from "../../main/contract/debriefApi.ts";
import type { Progress } from "../../main/contract/job.ts";
import { deskConnection, deskState, jobProgress, onDesk, type Connection } from "./desk.ts";

const EMPTY: DeskState = { debrief: null, jobs: [] };

/** The desk as the program last sent it; drawn anew after each change. */
export function useDesk(): DeskState {
  return useSyncExternalStore(onDesk, deskState) ?? EMPTY;
}

/** The debrief on the desk; for screens that are shown only while there is one. */
export function useDebrief(): DebriefView {
  const { debrief } = useDesk();
  if (debrief === null) throw new Error("this screen needs a debrief on the desk");
  return debrief;
}

/** Whether the program answers. */
export function useConnection(): Connection {
  return useSyncExternalStore(onDesk, deskConnection);
}

/** The latest progress of a job, at most 5 times a second; null before any. */
export function useJobProgress(jobId: string): Progress | null {
  return useSyncExternalStore(onDesk, () => jobProgress(jobId));
}
