// The program before there is a window: what it says of a debrief that it was started with.
import { expect, it } from "vitest";
import { startProgram } from "../../main/app/program.ts";
import { Failure } from "../../main/contract/failure.ts";
import { testTools } from "../support/tools.ts";
import { fakeDesk } from "./fakeDesk.ts";

const start = (failure: Failure) => {
  const fake = fakeDesk((name) => (name === "openDebrief" ? Promise.reject(failure) : null));
  return startProgram({
    shell: "chromium",
    tools: testTools(),
    toolWords: () => Promise.resolve([]),
    chromiumPath: null,
    drops: null,
    debriefPath: "/rides/sunday-debrief",
    makeDesk: fake.makeDesk,
    openFolder: () => Promise.resolve(),
  });
};

it("says where trust can be given, which the command line cannot ask", async () => {
  const untrusted = new Failure(
    "debrief-not-trusted",
    "The debrief in /rides/sunday-debrief was not made here.",
    "Open it all the same if you trust who made it.",
  );
  await expect(start(untrusted)).rejects.toMatchObject({
    code: "debrief-not-trusted",
    sentence: untrusted.sentence,
    remedy: expect.stringContaining("`followcar open` alone") as string,
  });
});

it("passes on any other failure as it is", async () => {
  const unreadable = new Failure(
    "file-unreadable",
    "There is no debrief.json in /rides.",
    "Choose a debrief's folder.",
  );
  await expect(start(unreadable)).rejects.toBe(unreadable);
});
