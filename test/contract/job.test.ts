// Progress of a job made of parts.
import { expect, it } from "vitest";
import { type JobContext, partOfJob, type Progress } from "../../main/contract/job.ts";

/** A job of parts that each work evenly: what is told beside what is true. */
function told(sharesS: readonly number[]): { readonly progress: Progress; readonly trueLeftS: number }[] {
  const wholeS = sharesS.reduce((sum, s) => sum + s, 0);
  const heard: { progress: Progress; trueLeftS: number }[] = [];
  let beforeS = 0;
  for (const partS of sharesS) {
    let atS = 0;
    const context: JobContext = {
      signal: new AbortController().signal,
      report: (progress) => heard.push({ progress, trueLeftS: wholeS - beforeS - atS }),
    };
    const part = partOfJob(context, beforeS / wholeS, partS / wholeS);
    for (atS = 1; atS <= partS; atS += 1)
      part.report({ done: atS / partS, leftS: partS - atS, step: { what: "pages" } });
    beforeS += partS;
  }
  return heard;
}

it("a part's time left is the whole job's, and the bar goes as time goes", () => {
  for (const { progress, trueLeftS } of told([55, 45, 10, 23])) {
    expect(progress.leftS).toBeCloseTo(trueLeftS, 6);
    expect(progress.done).toBeCloseTo(1 - trueLeftS / 133, 6);
  }
});

it("parts within parts tell the whole job's, too", () => {
  const heard: Progress[] = [];
  const whole: JobContext = { signal: new AbortController().signal, report: (progress) => heard.push(progress) };
  const inner = partOfJob(partOfJob(whole, 0.5, 0.5), 0, 0.5);
  inner.report({ done: 0.5, leftS: 10, step: { what: "pages" } });
  // 10 s of this part and 20 s of its sister after it.
  expect(heard.at(-1)).toMatchObject({ done: 0.625, leftS: 30 });
});

it("a part that never tells its own says nothing of the whole", () => {
  const heard: Progress[] = [];
  const part = partOfJob({ signal: new AbortController().signal, report: (one) => heard.push(one) }, 0.2, 0.3);
  part.report({ done: 0.5, leftS: null, step: { what: "pages" } });
  part.report({ done: 1, leftS: 0, step: { what: "pages" } });
  expect(heard.map(({ leftS }) => leftS)).toEqual([null, null]);
});
