import { useRef } from "react";
import type { JobView } from "../../main/contract/debriefApi.ts";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { JobLine } from "../look/JobLine.tsx";
import type { Calls } from "../look/useCalls.ts";
import { useOneStop } from "../look/useOneStop.ts";
import { handover as words } from "../words/handover.ts";
import { jobTitle } from "../words/jobTitle.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

const isOpen = ({ state }: JobView): boolean => state === "waiting" || state === "running";
const hasFolder = ({ state, folderId }: JobView): boolean => state === "done" && folderId !== null;

/** Films at work, waiting and done, newest first; one stop for Tab. */
export function JobList({ jobs, onCall }: { readonly jobs: readonly JobView[]; readonly onCall: Calls["call"] }) {
  const list = useRef<HTMLUListElement>(null);
  const newest = [...jobs].reverse();
  const withControl = newest.filter((job) => isOpen(job) || hasFolder(job)).map(({ id }) => id);
  const { row, onKeyDown } = useOneStop(list, withControl, null);
  return (
    <section className="part" aria-labelledby="queue-title">
      <header>
        <h2 id="queue-title">{words.queue}</h2>
      </header>
      {jobs.length === 0 && <p className="quiet">{words.queueNone}</p>}
      <ul ref={list} className="rows" aria-live="polite" onKeyDown={onKeyDown}>
        {newest.map((job) => {
          const open = isOpen(job);
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
                    {...row(job.id)}
                    aria-label={words.cancelJob(jobTitle(job.title))}
                    onClick={() => void onCall(() => desk.cancelJob(job.id))}
                  >
                    {words.stop}
                  </Button>
                )}
                {hasFolder(job) && (
                  <Button
                    kind="main"
                    {...row(job.id)}
                    onClick={() => void onCall(() => desk.openFolder(job.folderId!))}
                  >
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
