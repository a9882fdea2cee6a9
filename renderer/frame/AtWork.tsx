import type { JobView } from "../../main/contract/debriefApi.ts";
import { useJobProgress } from "../desk/useDesk.ts";
import { frame as words } from "../words/frame.ts";
import { jobTitle } from "../words/jobTitle.ts";

/** The job that runs now, in one line; nothing while nothing runs. */
export function AtWork({ jobs }: { readonly jobs: readonly JobView[] }) {
  const running = jobs.find((job) => job.state === "running");
  return running === undefined ? <span /> : <Running job={running} />;
}

function Running({ job }: { readonly job: JobView }) {
  const done = (useJobProgress(job.id) ?? job.progress)?.done ?? 0;
  return (
    <span className="frame-work small">
      <span className="frame-work-title">{jobTitle(job.title)}</span>
      <progress max={1} value={done} aria-label={`${words.working}: ${jobTitle(job.title)}`} />
    </span>
  );
}
