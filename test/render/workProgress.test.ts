// How much time is left, said of films whose parts start slowly: within 1.5 times of what it then took.
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Progress } from "../../main/contract/job.ts";
import { workProgress } from "../../main/render/jobResult.edge.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

interface Simulated {
  /** Before the first frame of all, and of each part, s. */
  readonly startS: number;
  readonly partStartS: number;
  readonly framesASecond: number;
  /** Frames of each part. */
  readonly parts: readonly number[];
}

/** What is told, with when, and how long all took, s. */
function told({ startS, partStartS, framesASecond, parts }: Simulated) {
  const reports: { readonly atS: number; readonly progress: Progress }[] = [];
  const fromMs = Date.now();
  const progress = workProgress(
    {
      signal: new AbortController().signal,
      report: (made) => void reports.push({ atS: (Date.now() - fromMs) / 1000, progress: made }),
    },
    parts.reduce((sum, frames) => sum + frames, 0),
  );
  const step = { what: "joining" } as const;
  let done = 0;
  vi.advanceTimersByTime(startS * 1000);
  for (const frames of parts) {
    progress.at(done, step);
    vi.advanceTimersByTime(partStartS * 1000);
    for (let made = 0; made < frames;) {
      vi.advanceTimersByTime(500);
      made = Math.min(frames, made + framesASecond / 2);
      progress.at(done + made, step);
    }
    done += frames;
  }
  return { reports, tookS: (Date.now() - fromMs) / 1000 };
}

test.each([
  ["a quick machine", { startS: 0.4, partStartS: 0.3, framesASecond: 60, parts: [40, 510, 40, 510, 40, 510] }],
  ["a slow start", { startS: 24, partStartS: 1, framesASecond: 15, parts: [40, 510, 40, 510, 40, 510] }],
  ["one long part", { startS: 2, partStartS: 1, framesASecond: 8, parts: [1800] }],
] as const)("%s: from 10 s on what is said to be left is right within 1.5 times", (_, simulated) => {
  const { reports, tookS } = told(simulated);
  const said = reports.flatMap(({ atS, progress }) =>
    progress.leftS === null || atS < 10 ? [] : [(atS + progress.leftS) / tookS],
  );
  expect(said.length).toBeGreaterThan(20);
  expect(Math.min(...said)).toBeGreaterThan(1 / 1.5);
  expect(Math.max(...said)).toBeLessThan(1.5);
});

test("a second pass adds to what is left, and what is done does not go back", () => {
  const reports: Progress[] = [];
  const context = { signal: new AbortController().signal, report: (made: Progress) => void reports.push(made) };
  const progress = workProgress(context, 300);
  const step = { what: "joining" } as const;
  for (let work = 0; work <= 300; work += 10) {
    vi.advanceTimersByTime(1000);
    progress.at(work, step);
  }
  progress.more(100);
  vi.advanceTimersByTime(1000);
  progress.at(310, step);
  expect(reports.at(-1)!.leftS).toBeCloseTo(9, 0);
  const done = reports.map((one) => one.done);
  expect(done).toEqual([...done].sort((a, b) => a - b));
});
