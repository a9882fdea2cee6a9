// A folder that is removed, or a drive that is pulled out, while a film is made: named, with what to do.
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { makeAtomic } from "../../main/host/writeAtomic.edge.ts";
import { jobResult } from "../../main/render/jobResult.edge.ts";

it("says which folder is gone, not that a render broke off for reasons unknown", async () => {
  const folder = await mkdtemp(join(tmpdir(), "followcar-gone-"));
  await rm(folder, { recursive: true });
  const ended = await jobResult(() => makeAtomic(join(folder, "film.mp4"), (path) => writeFile(path, "film")));
  expect(ended).toMatchObject({ kind: "failed", failure: { notice: { code: "file-not-written" } } });
  if (ended.kind === "failed") expect(JSON.stringify(ended.failure.notice.facts)).toContain(folder);
});

it("still says what else broke off by its own words", async () => {
  const ended = await jobResult(() => Promise.reject(new Error("out of thread")));
  expect(ended).toMatchObject({ failure: { notice: { code: "render-broke-off", facts: { said: "out of thread" } } } });
});
