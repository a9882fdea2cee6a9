// Progress as a line of text.
import { expect, it } from "vitest";
import { ProgressLine, progressText } from "../../main/cli/progressLine.ts";

const SHOT = { what: "shot", number: 2, count: 6 } as const;

it("says the step, a bar, the share and what is left", () => {
  expect(progressText({ step: SHOT, done: 0.27, leftS: 40 }, "en")).toBe(
    "shot 2 of 6  [#####...............]  27 %  about 40 s left",
  );
  expect(progressText({ step: SHOT, done: 0.5, leftS: 300 }, "en")).toMatch(/50 %  about 5 min left$/);
  expect(progressText({ step: SHOT, done: 0.5, leftS: null }, "en")).toMatch(/50 %$/);
});

it("says nothing of time left once all is done", () => {
  expect(progressText({ step: { what: "handed over" }, done: 1, leftS: 0 }, "en")).toBe(
    "handed over  [####################]  100 %",
  );
});

it("does not say for long that it is about to end", () => {
  expect(progressText({ step: SHOT, done: 0.86, leftS: 1.4 }, "en")).toMatch(/86 %$/);
});

it("says it in German", () => {
  expect(progressText({ step: SHOT, done: 0.27, leftS: 40 }, "de")).toMatch(/^Einstellung 2 von 6 .* noch etwa 40 s$/);
});

it("loses no letter on a terminal that does not know how wide it is", () => {
  for (const [columns, wanted] of [
    [0, /about 40 s left$/],
    [undefined, /about 40 s left$/],
    [30, /^\r\x1b\[Kshot 2 of 6 {2}\[#####\.{10}$/],
  ] as const) {
    const written: string[] = [];
    const stream = { isTTY: true, columns, write: (text: string) => written.push(text) };
    new ProgressLine(stream as unknown as NodeJS.WriteStream, "en").show({ step: SHOT, done: 0.27, leftS: 40 });
    expect(written.join("")).toMatch(wanted);
  }
});
