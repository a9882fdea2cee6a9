// What can't be saved or read: full and read-only disks, names too long, folders that went, debriefs made to stop the program.
import { spawnSync } from "node:child_process";
import { mkdir, mkdtemp, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { failureSaid } from "../support/said.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { loadDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { debriefText } from "../../main/debrief/parseDebrief.ts";
import { processorMs } from "../ride/mutate.ts";
import { madePlan } from "../film/madeReading.ts";

let folder = "";
beforeEach(async () => (folder = await mkdtemp(join(tmpdir(), "no room "))));
afterEach(() => rm(folder, { recursive: true, force: true }));

const document = newDebrief(madePlan(), [], "");
const notes = (text: string, revision: number) => ({
  ...document,
  revision,
  words: { ...document.words, notes: text },
});

/** A file system of so little room, where this user may mount one. */
async function smallDisk(): Promise<string | null> {
  const place = join(folder, "disk");
  await mkdir(place);
  const { status } = spawnSync("mount", ["-t", "tmpfs", "-o", "size=256k", "tmpfs", place], { stdio: "ignore" });
  return process.platform === "linux" && status === 0 ? place : null;
}

test("on a full disk the failure says so, the last good state and the copy before it stay, and room is enough to go on", async (context) => {
  const disk = await smallDisk();
  if (disk === null) return context.skip("no small disk can be mounted by this user");
  try {
    await saveDebrief(disk, notes("one", 0));
    await saveDebrief(disk, notes("two", 1));
    await writeFile(join(disk, "ballast"), Buffer.alloc(300_000)).catch(() => undefined);
    const failure = await saveDebrief(disk, notes("x".repeat(19_000), 2)).catch((error: unknown) => error);
    expect(failure).toMatchObject({ code: "disk-full", notice: { code: "file-no-room" } });
    expect((await loadDebrief(disk)).document).toMatchObject({ revision: 2, words: { notes: "two" } });
    expect(await readFile(join(disk, "debrief.json.bak"), "utf8")).toContain('"one"');
    expect((await readdir(disk)).filter((name) => name.endsWith(".part"))).toEqual([]);
    await rm(join(disk, "ballast"));
    await saveDebrief(disk, notes("three", 2));
    expect((await loadDebrief(disk)).document.words.notes).toBe("three");
  } finally {
    spawnSync("umount", [disk]);
  }
});

test("on a disk that may only be read, nothing is lost and the failure names the file", async (context) => {
  const disk = await smallDisk();
  if (disk === null) return context.skip("no small disk can be mounted by this user");
  try {
    await saveDebrief(disk, notes("one", 0));
    spawnSync("mount", ["-o", "remount,ro", disk]);
    await expect(saveDebrief(disk, notes("two", 1))).rejects.toMatchObject({ code: "output-not-writable" });
    expect((await loadDebrief(disk)).document.words.notes).toBe("one");
  } finally {
    spawnSync("umount", [disk]);
  }
});

test("a folder that went and a name that is too long are failures with a remedy", async () => {
  for (const place of [join(folder, "gone"), join(folder, "n".repeat(300))]) {
    const failure = await saveDebrief(place, notes("one", 0)).catch((error: unknown) => error);
    expect(failure).toMatchObject({ code: "output-not-writable" });
    expect(failureSaid(failure).remedy.length).toBeGreaterThan(10);
  }
});

test("a debrief of 20,000 clips, one larger than any, and a pipe in its place are refused at once", async () => {
  const clip = (n: number) => ({ id: `c${n}`, kind: "clip", path: `c${n}.mp4`, bytes: 1, fingerprint: "" }) as const;
  const path = join(folder, "debrief.json");
  const beganMs = performance.now();
  await writeFile(path, debriefText({ ...document, media: Array.from({ length: 20_000 }, (_, n) => clip(n)) }));
  await expect(loadDebrief(folder)).rejects.toMatchObject({
    notice: { code: "debrief-unusable", facts: { fault: { kind: "too big", path: "media", most: 1000 } } },
  });
  await writeFile(path, Buffer.alloc(17 * 2 ** 20, 0x20));
  await expect(loadDebrief(folder)).rejects.toMatchObject({ notice: { facts: { fault: { kind: "too big" } } } });
  if (process.platform !== "win32") {
    await rm(path);
    expect(spawnSync("mkfifo", [path]).status).toBe(0);
    await expect(loadDebrief(folder)).rejects.toMatchObject({
      code: expect.stringMatching(/^(file-unreadable|debrief)/),
    });
  }
  expect(performance.now() - beganMs).toBeLessThan(5000);
}, 20_000);

test("the largest debrief that is read holds nobody up: a command is ended, and the window answers, within a second", async () => {
  const blocks = Array.from({ length: 170_000 }, (_, n) => ({
    ...{ startS: n, endS: n + 1, kind: "steady" as const, targetW: null, toleranceW: null },
  }));
  const clips = Array.from({ length: 20_000 }, (_, n) => ({ id: `c${n}`, kind: "clip", path: `c${n}.mp4`, bytes: 1 }));
  const text = JSON.stringify({ ...document, plan: { ...document.plan, blocks }, media: clips });
  expect(text.length).toBeGreaterThan(14e6);
  await writeFile(join(folder, "debrief.json"), text);
  const worked = processorMs();
  await expect(loadDebrief(folder)).rejects.toMatchObject({ notice: { code: "debrief-unusable" } });
  expect(worked()).toBeLessThan(1000);
}, 30_000);
