import type { Progress } from "../../main/contract/job.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { leftToSay, workText } from "../../overlay/words/workWords.ts";
import { common } from "../words/common.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

/** How far a job is: the line grows, its end carries the needle. Null: it waits or can't tell yet. */
export function ProgressLine({ title, progress }: { readonly title: string; readonly progress: Progress | null }) {
  const leftS = leftToSay(progress?.leftS ?? null);
  const percent = progress === null ? 0 : Math.round(Math.min(1, Math.max(0, progress.done)) * 100);
  return (
    <div className="progress">
      <div className="said">
        <span className="figure">{title}</span>
        <span className="quiet">
          {progress === null ? common.waiting : workText(progress.step, WINDOW_LANGUAGE)}
          {leftS !== null && `, ${common.left(durationText(leftS))}`}
        </span>
      </div>
      <div role="progressbar" aria-label={title} aria-valuenow={percent} aria-valuemin={0} aria-valuemax={100}>
        <svg className="thread" viewBox="0 0 1000 14" preserveAspectRatio="none" aria-hidden="true">
          <line
            x1="4"
            x2="996"
            y1="7"
            y2="7"
            stroke="var(--edge)"
            strokeWidth="3"
            strokeLinecap="round"
            strokeDasharray="0.1 9"
            vectorEffect="non-scaling-stroke"
          />
          {percent > 0 && (
            <line
              x1="4"
              x2={4 + percent * 9.92}
              y1="7"
              y2="7"
              stroke="var(--ink)"
              strokeWidth="5"
              strokeLinecap="round"
              vectorEffect="non-scaling-stroke"
            />
          )}
        </svg>
      </div>
    </div>
  );
}
