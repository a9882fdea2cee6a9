// The program before there is a window: what it says of a debrief that it was started with.
import { expect, it } from "vitest";
import { startProgram } from "../../main/app/program.ts";
import { Failure } from "../../main/contract/failure.ts";
import { testTools } from "../support/tools.ts";
import { fakeDesk } from "./fakeDesk.ts";
import { failureSaid } from "../support/said.ts";

const start = (failure: Failure) => {
  const fake = fakeDesk((name) => (name === "openDebrief" ? Promise.reject(failure) : null));
  return startProgram({
    shell: "chromium",
    tools: testTools(),
    toolWords: () => Promise.resolve([]),
    printPage: null,
    drops: null,
    given: ["/rides/sunday-debrief"],
    makeDesk: fake.makeDesk,
    openFolder: () => Promise.resolve(),
  });
};

it("passes on a debrief that is not trusted, whose words say on the command line where trust can be given", async () => {
  const untrusted = new Failure("debrief-not-trusted", { folder: "/rides/sunday-debrief", paths: ["../a.fit"] });
  await expect(start(untrusted)).rejects.toBe(untrusted);
  expect(failureSaid(untrusted).remedy).toContain("`followcar open` alone");
});

it("passes on any other failure as it is", async () => {
  const unreadable = new Failure("debrief-unreadable", { path: "/rides/debrief.json" });
  await expect(start(unreadable)).rejects.toBe(unreadable);
});
