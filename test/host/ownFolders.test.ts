// What is made of a ride tells where people live: no other user of the computer can enter a folder that we made for it.
import { mkdtemp, rm, stat } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { saveAthlete } from "../../main/debrief/athleteStore.edge.ts";
import { newAthlete } from "../../main/debrief/athlete.ts";
import { makeDebriefFolder } from "../../main/journey/savedDebrief.ts";

test.skipIf(process.platform === "win32")("a debrief's and an athlete's folder are the person's alone", async () => {
  const top = await mkdtemp(join(tmpdir(), "own-"));
  try {
    const debrief = join(top, "rides", "sunday-debrief");
    await makeDebriefFolder(debrief);
    await saveAthlete(join(top, "mara"), newAthlete("Mara Lind"));
    for (const path of [debrief, join(top, "mara")]) expect((await stat(path)).mode & 0o777).toBe(0o700);
  } finally {
    await rm(top, { recursive: true, force: true });
  }
});
