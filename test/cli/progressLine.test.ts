// Progress as a line of text.
import { expect, it } from "vitest";
import { progressText } from "../../main/cli/progressLine.ts";

it("says the step, a bar, the share and what is left", () => {
  expect(progressText({ step: "shot 2 of 6", done: 0.27, leftS: 40 })).toBe(
    "shot 2 of 6  [#####...............]  27 %  about 40 s left",
  );
  expect(progressText({ step: "shot 2 of 6", done: 0.5, leftS: 300 })).toMatch(/50 %  about 5 min left$/);
  expect(progressText({ step: "shot 2 of 6", done: 0.5, leftS: null })).toMatch(/50 %$/);
});

it("says nothing of time left once all is done", () => {
  expect(progressText({ step: "done", done: 1, leftS: 0 })).toBe("done  [####################]  100 %");
});
