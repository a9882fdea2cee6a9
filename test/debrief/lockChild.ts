// Tries for one lock at the rounds' instants, ms since 1970, and says who got in; for the test that starts many at once.
import { appendFileSync, openSync, closeSync, rmSync } from "node:fs";
import { join } from "node:path";
import { lockDebrief } from "../../main/debrief/debriefLock.edge.ts";

const [folder = "", firstMs = "", everyMs = "", rounds = "", diary = ""] = process.argv.slice(2);
for (let round = 0; round < Number(rounds); round++) {
  const startMs = Number(firstMs) + round * Number(everyMs);
  while (Date.now() < startMs - 5) await new Promise((done) => setTimeout(done, 1));
  // The last moments are spent without giving way: all start within a fraction of a millisecond.
  while (Date.now() < startMs);
  const lock = await lockDebrief(join(folder, String(round)));
  if (!lock.held) continue;
  const inside = join(folder, `${round}.inside`);
  try {
    closeSync(openSync(inside, "wx"));
    appendFileSync(diary, `${round} in\n`);
  } catch {
    appendFileSync(diary, `${round} TWO\n`);
  }
  // Longer than all others take to be told that it is held.
  await new Promise((done) => setTimeout(done, Number(everyMs) * 0.6));
  rmSync(inside, { force: true });
  await lock.release();
}
