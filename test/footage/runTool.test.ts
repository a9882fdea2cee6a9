import { expect, test } from "vitest";
import { runTool } from "../../main/footage/runTool.edge.ts";

const run = (script: string) => runTool(process.execPath, ["-e", script], { hungAfterS: 0.5, onData: () => undefined });

test.runIf(process.platform === "linux")("a program that is busy but silent is let work", async () => {
  const busy = await run("const until = Date.now() + 2500; while (Date.now() < until);");
  expect(busy).toMatchObject({ code: 0, trouble: null });
});

test.runIf(process.platform === "linux")("one that neither says nor does anything is ended as hung", async () => {
  const idle = await run("setTimeout(() => undefined, 60_000)");
  expect(idle).toMatchObject({ code: null, trouble: "hung" });
});
