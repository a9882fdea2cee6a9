// One file named twice, or under two names, is one file: by the command line as in the window.
import { copyFile, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { gatherOuting } from "../../main/journey/linedUpClips.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { openDeskWithRide, putRide } from "../app/desk/openDesk.ts";
import { noticeText } from "../../overlay/words/notices/noticeText.ts";
import { testHost } from "../support/tools.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "twice-"));
});
afterAll(() => rm(folder, { recursive: true }));

const gathered = (paths: readonly string[], show: string | null = null) =>
  gatherOuting({ paths, anchors: [], deviceDelayS: 0, show }, () => defaultPlan({ setting: "road" }), testHost());

test("a debrief takes it once and says so; the copy's name still shows that ride", async () => {
  const ride = await putRide(folder);
  const copy = join(folder, "sunday (1).fit");
  await copyFile(ride, copy);
  const { debrief, spare } = await gathered([ride, ride, copy], "sunday (1).fit");
  expect(debrief.document.media.map(({ id, path }) => [id, path])).toEqual([["ride1", ride]]);
  expect(debrief.document.shownRideId).toBe("ride1");
  expect(spare.map((one) => noticeText(one, "en", "command"))).toEqual([
    "sunday.fit was given twice; it is taken once.",
    "sunday (1).fit is the same file as sunday.fit under another name; it is left out.",
  ]);
});

test("two rides of one recorder are two", async () => {
  const { debrief, spare } = await gathered([
    "test/fixtures/rides/power-heart-1s.fit",
    "test/fixtures/rides/power-no-heart.fit",
  ]);
  expect(debrief.document.media).toHaveLength(2);
  expect(spare).toEqual([]);
});

test("the window's desk does the same", async () => {
  const { open, rides } = await openDeskWithRide();
  try {
    const copy = join(rides, "sunday (1).fit");
    await copyFile(join(rides, "sunday.fit"), copy);
    await open.api.addFiles([open.id(copy)]);
    expect(open.view().files.map(({ name }) => name)).toEqual(["sunday.fit"]);
    expect(open.view().warnings).toContainEqual(
      expect.objectContaining({
        code: "file-given-twice",
        facts: { fileName: "sunday (1).fit", sameAs: "sunday.fit" },
      }),
    );
  } finally {
    await open.close();
  }
});
