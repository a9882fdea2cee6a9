// A debrief made again in the folder of an earlier run: what was decided there counts, and that is said; and one whose
// clips show nothing that the film tells says so.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { judge } from "../../main/cli/verbs/judge.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { type PreparedDebrief, prepareDebrief } from "../../main/journey/preparedDebrief.ts";
import { debriefRequest } from "../support/debriefRequest.ts";
import { said } from "../support/said.ts";
import { testHost, testTools } from "../support/tools.ts";
import { scratchFolder, writeNumberedClip } from "../support/video.ts";

const context = { signal: new AbortController().signal, report: () => undefined, language: "en" as const };
let scratch: Awaited<ReturnType<typeof scratchFolder>>;
let ridePath: string;
let clip: string;

beforeAll(async () => {
  scratch = await scratchFolder();
  process.env.FOLLOWCAR_CACHE = join(scratch.path, "cache");
  ridePath = join(scratch.path, "sunday.fit");
  writeFileSync(ridePath, demoRideFile(demoRide(7)));
  clip = join(scratch.path, "bar-1.mp4");
  await writeNumberedClip(clip, { widthPx: 320, heightPx: 180, frames: 60, rate: "30/1" }, testTools());
}, 120_000);
afterAll(async () => {
  delete process.env.FOLLOWCAR_CACHE;
  await scratch.remove();
});

function run(name: string, anchors: readonly string[], targetW = 162): Promise<PreparedDebrief> {
  const outDir = join(scratch.path, name);
  const request = debriefRequest({ paths: [ridePath, clip], anchors, targetW, language: "en", outDir });
  return prepareDebrief(request, testHost(), context, false);
}

/** In the warm-up: none of the film's moments lies there. */
const ANCHOR = "bar-1.mp4@0=0:05:00";

it("says that none of the clips is in the film, and where they lie", async () => {
  const { standing, warnings } = await run("unfilmed", [ANCHOR]);
  expect(standing.film.items.every(({ type }) => type === "card")).toBe(true);
  expect(said(warnings)[0]).toMatch(/^Nothing of bar-1\.mp4 \(0:05:00 to 0:05:02\) is in the film: it is cards alone/);
}, 120_000);

it("says nothing of clips that are left out because their place is not sure", async () => {
  const request = debriefRequest({ paths: [ridePath, clip], targetW: 162, outDir: join(scratch.path, "later") });
  const { lineup, warnings } = await prepareDebrief(request, testHost(), context, true);
  expect(lineup.lineup.clips[0]!.sure).toBe(false);
  expect(said(warnings).join()).not.toContain("is in the film");
}, 120_000);

it("says what of an earlier run counts, and nothing where nothing was decided", async () => {
  const first = await run("again", [ANCHOR]);
  expect(said(first.warnings).join()).not.toContain("earlier run");
  const again = await run("again", []);
  expect(said(again.warnings)).toContain(
    "again holds a debrief of an earlier run, and what was decided there counts: 1 anchor. In another folder (--out) it begins afresh.",
  );
  // Given anew it is no news.
  expect(said((await run("again", [ANCHOR])).warnings).join()).not.toContain("earlier run");
}, 120_000);

it("keeps what a coach saw practised over a change of plan", async () => {
  const { folder } = await run("ticked", [ANCHOR]);
  await judge.run([folder], { skill: ["drops=3"] }, context);
  const { standing } = await run("ticked", [ANCHOR], 170);
  expect(standing.document.plan).toMatchObject({ targetW: 170, skills: [{ skill: "drops", repeats: null, done: 3 }] });
}, 120_000);
