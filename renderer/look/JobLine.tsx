import type { JobView } from "../../main/contract/debriefApi.ts";
import { useJobProgress } from "../desk/useDesk.ts";
import { jobTitle } from "../words/jobTitle.ts";
import { ProgressLine } from "./ProgressLine.tsx";

/** A job's progress as it comes in. */
export function JobLine({ job, title }: { readonly job: JobView; readonly title?: string }) {
  return <ProgressLine title={title ?? jobTitle(job.title)} progress={useJobProgress(job.id) ?? job.progress} />;
}
