// A folder that is given to somebody else's while we write: nothing lands there. And a drive that goes and comes back.
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { mkdir, mkdtemp, open, readFile, readdir, rename, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import { newAthlete } from "../../main/debrief/athlete.ts";
import { athleteFiles, deleteAthlete, saveAthlete } from "../../main/debrief/athleteStore.edge.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { loadDebrief, lockDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { makeFolder } from "../../main/host/makeFolder.edge.ts";
import { makeAtomic, writeAtomic } from "../../main/host/writeAtomic.edge.ts";
import { madePlan } from "../film/madeReading.ts";
import { buildChild } from "../torture/buildChild.ts";

let top = "";
let folder = "";
let outside = "";
const document = newDebrief(madePlan(), [], "");

beforeEach(async () => {
  top = await mkdtemp(join(tmpdir(), "swapped "));
  folder = join(top, "debrief");
  outside = join(top, "mine");
  await mkdir(folder);
  await mkdir(join(outside, "lesson"), { recursive: true });
  await writeFile(join(outside, "letter.txt"), "somebody's letter");
});
afterEach(() => rm(top, { recursive: true, force: true }));

/** All that lies outside: it was there before. */
async function nothingLandedOutside(): Promise<void> {
  expect((await readdir(outside, { recursive: true })).sort()).toEqual(["lesson", "letter.txt"]);
  expect(await readFile(join(outside, "letter.txt"), "utf8")).toBe("somebody's letter");
}

const codeOf = (job: Promise<unknown>): Promise<string> =>
  job.then(
    () => "done",
    (error: unknown) => (error instanceof Failure ? error.notice.code : String(error)),
  );

/** Swaps a folder for a link to what lies outside, again and again. */
async function swapping(name: string): Promise<ChildProcess> {
  const program = await buildChild("../debrief/swappedChild");
  const child = spawn(process.execPath, [program, name, outside, join(top, "kept")], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  await new Promise((done) => child.stdout.once("data", done));
  return child;
}

async function ended(child: ChildProcess): Promise<void> {
  child.kill("SIGKILL");
  if (child.exitCode === null && child.signalCode === null) await new Promise((done) => child.once("close", done));
}

test("a folder replaced by a link after it was opened: nothing is written, and it is said", async () => {
  await saveDebrief(folder, document);
  const { document: opened } = await loadDebrief(folder);
  await rename(folder, join(top, "kept"));
  await symlink(outside, folder);
  expect(await codeOf(saveDebrief(folder, opened))).toBe("folder-replaced");
  expect(await codeOf(writeAtomic(join(folder, "film.mp4"), "film"))).toBe("folder-replaced");
  expect(await codeOf(writeAtomic(join(folder, "lesson", "film.mp4"), "film"))).toBe("folder-replaced");
  expect(await codeOf(makeFolder(join(folder, "stills")))).toBe("folder-replaced");
  await nothingLandedOutside();
  // Another folder in its place is none of ours either; back again, it is.
  await rm(folder);
  await mkdir(folder);
  expect(await codeOf(saveDebrief(folder, opened))).toBe("folder-replaced");
  await rm(folder, { recursive: true });
  await rename(join(top, "kept"), folder);
  expect(await codeOf(saveDebrief(folder, opened))).toBe("done");
});

test("a folder in it that became a link after it was looked through is not followed", async () => {
  await saveDebrief(folder, document);
  await loadDebrief(folder);
  await symlink(join(outside, "lesson"), join(folder, "lesson"));
  expect(await codeOf(writeAtomic(join(folder, "lesson", "film.mp4"), "film"))).toBe("folder-with-links");
  await nothingLandedOutside();
});

test.skipIf(process.platform !== "linux")(
  "swapped while a file is being written: it lands in the folder that was opened",
  async () => {
    await makeAtomic(join(folder, "film.mp4"), async (unfinished) => {
      await writeFile(unfinished, "half");
      await rename(folder, join(top, "kept"));
      await symlink(outside, folder);
      // As another program that is handed the name.
      expect(
        spawnSync(process.execPath, ["-e", `fs.appendFileSync(${JSON.stringify(unfinished)}, " whole")`]).status,
      ).toBe(0);
    });
    await nothingLandedOutside();
    expect(await readFile(join(top, "kept", "film.mp4"), "utf8")).toBe("half whole");
    expect(await readdir(join(top, "kept"))).toEqual(["film.mp4"]);
  },
);

test("a folder that was deleted with all that is the athlete's may be made anew", async () => {
  await saveAthlete(folder, newAthlete("Mara Lind"));
  await deleteAthlete(folder, (await athleteFiles(folder)).files);
  expect(await readdir(top)).toEqual(["mine"]);
  // Holds the number of the old one, so that the new folder is another.
  await mkdir(join(top, "between"));
  await saveAthlete(folder, newAthlete("Mara Lind"));
  expect(await readdir(folder)).toEqual(["athlete.json"]);
});

test.skipIf(process.platform !== "linux")(
  "an athlete's debrief that is swapped while all of the athlete's is deleted: nothing outside goes",
  async () => {
    const athlete = join(top, "athlete");
    const debrief = join(athlete, "sunday-debrief");
    const names = ["debrief.json", ...Array.from({ length: 20 }, (_, n) => `debrief.schema-${n + 1}.json`)];
    await mkdir(debrief, { recursive: true });
    for (const name of names) await writeFile(join(outside, name), "somebody's");
    // Not ours, so that the folders stay when all of ours is gone.
    for (const place of [athlete, debrief]) await writeFile(join(place, "notes of mine.txt"), "");
    const held = await open(debrief);
    const child = await swapping(debrief);
    let deletions = 0;
    try {
      for (const untilMs = Date.now() + 6000; Date.now() < untilMs;) {
        await saveAthlete(athlete, newAthlete("Mara Lind"));
        for (const name of names) await writeFile(`/proc/self/fd/${held.fd}/${name}`, "ours");
        const { files } = await athleteFiles(athlete).catch(() => ({ files: [] }));
        const done = await deleteAthlete(athlete, files).catch(() => null);
        if (done !== null) deletions += 1;
      }
    } finally {
      await ended(child);
      await held.close();
    }
    expect(deletions).toBeGreaterThan(1);
    expect((await readdir(outside)).sort()).toEqual([...names, "lesson", "letter.txt"].sort());
  },
  60_000,
);

test.skipIf(process.platform !== "linux")(
  "a program that swaps it a hundred times a second while we save, lock and write: nothing lands outside",
  async () => {
    let saved = await saveDebrief(folder, document);
    await loadDebrief(folder);
    const child = await swapping(folder);
    const codes = new Map<string, number>();
    try {
      for (const untilMs = Date.now() + 6000; Date.now() < untilMs;) {
        const job = saveDebrief(folder, saved).then((next) => void (saved = next));
        for (const code of [
          await codeOf(job),
          await codeOf(makeFolder(join(folder, "lesson"))),
          await codeOf(writeAtomic(join(folder, "lesson", "film.mp4"), "film")),
          await codeOf(lockDebrief(folder).then((lock) => (lock.held ? lock.release() : undefined))),
        ])
          codes.set(code, (codes.get(code) ?? 0) + 1);
      }
    } finally {
      await ended(child);
    }
    // Both were met: the folder, and what stood in its place.
    expect(codes.get("done")).toBeGreaterThan(20);
    expect(codes.get("folder-replaced")).toBeGreaterThan(20);
    await nothingLandedOutside();
  },
  60_000,
);
