import type { JobView } from "../../main/contract/debriefApi.ts";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { JobLine } from "../look/JobLine.tsx";
import type { Calls } from "../look/useCalls.ts";
import { handover as words } from "../words/handover.ts";
import { jobTitle } from "../words/jobTitle.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

/** Films at work, waiting and done, newest first. */
export function JobList({ jobs, onCall }: { readonly jobs: readonly JobView[]; readonly onCall: Calls["call"] }) {
  return (
    <section className="part" aria-labelledby="queue-title">
      <header>
        <h2 id="queue-title">{words.queue}</h2>
      </header>
      {jobs.length === 0 && <p className="quiet">{words.queueNone}</p>}
      <ul className="rows" aria-live="polite">
        {[...jobs].reverse().map((job) => {
          const open = job.state === "waiting" || job.state === "running";
          return (
            <li key={job.id} className={job.state === "done" ? "firm" : job.state === "failed" ? "wrong" : ""}>
              {open ? (
                <JobLine job={job} />
              ) : (
                <p>
                  <span className="name">{jobTitle(job.title)}</span>{" "}
                  <span className="quiet">
                    {job.written.length > 0
                      ? `${words.states[job.state]}, ${words.files(job.written.length)}`
                      : words.states[job.state]}
                  </span>
                </p>
              )}
              {noticeTexts(job.warnings, WINDOW_LANGUAGE, "window").map((text) => (
                <p key={text} className="small">
                  {text}
                </p>
              ))}
              {job.failure !== null && <FailureNote failure={job.failure} />}
              <div className="row">
                {open && (
                  <Button
                    aria-label={words.cancelJob(jobTitle(job.title))}
                    onClick={() => void onCall(() => desk.cancelJob(job.id))}
                  >
                    {words.stop}
                  </Button>
                )}
                {job.state === "done" && job.folderId !== null && (
                  <Button kind="main" onClick={() => void onCall(() => desk.openFolder(job.folderId!))}>
                    {words.openFolder}
                  </Button>
                )}
                {job.state === "done" && <span className="quiet small">{words.look}</span>}
              </div>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
