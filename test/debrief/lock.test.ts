// The lock: one window at a time.
import { readdir, utimes, writeFile, chmod } from "node:fs/promises";
import { join } from "node:path";
import { spawnSync } from "node:child_process";
import { beforeEach, describe, expect, test } from "vitest";
import { loadDebrief, lockDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { withoutRootsRights } from "../support/withoutRootsRights.ts";
import { withFilm, failureOf, debriefFolder } from "./debriefParts.ts";

let folder: string;
beforeEach(async () => {
  folder = await debriefFolder();
});

describe("the lock", () => {
  test("the second window gets none until the first lets go", async () => {
    const first = await lockDebrief(folder);
    const second = await lockDebrief(folder);
    expect([first.held, second.held]).toEqual([true, false]);
    if (first.held) await first.release();
    expect((await lockDebrief(folder)).held).toBe(true);
  });

  test("a lock of a dead process here is stale; one of another host is not", async () => {
    const dead = spawnSync(process.execPath, ["-e", ""]).pid;
    const { hostname } = await import("node:os");
    await writeFile(join(folder, "debrief.lock"), JSON.stringify({ pid: dead, host: hostname(), since: "" }));
    expect((await lockDebrief(folder)).held).toBe(true);
    await writeFile(join(folder, "debrief.lock"), JSON.stringify({ pid: dead, host: "elsewhere", since: "" }));
    expect(await lockDebrief(folder)).toMatchObject({ held: false, by: { host: "elsewhere" } });
  });

  test("of many that ask at once over a stale lock, one gets it", async () => {
    const dead = spawnSync(process.execPath, ["-e", ""]).pid;
    const { hostname } = await import("node:os");
    for (let round = 0; round < 25; round++) {
      await writeFile(join(folder, "debrief.lock"), JSON.stringify({ pid: dead, host: hostname(), since: "" }));
      const locks = await Promise.all(Array.from({ length: 8 }, () => lockDebrief(folder)));
      const got = locks.filter((lock) => lock.held);
      expect(got.length).toBe(1);
      for (const lock of got) await lock.release();
      expect((await readdir(folder)).filter((name) => name.includes("lock"))).toEqual([]);
    }
  });

  test.skipIf(process.platform !== "linux")("a process number used again is another process", async () => {
    const { hostname } = await import("node:os");
    const lock = { pid: process.ppid, host: hostname(), since: "", began: "another-boot 1" };
    await writeFile(join(folder, "debrief.lock"), JSON.stringify(lock));
    expect((await lockDebrief(folder)).held).toBe(true);
  });

  test("a lock of a computer that was renamed goes when nobody renews it", async () => {
    const path = join(folder, "debrief.lock");
    await writeFile(path, JSON.stringify({ pid: process.ppid, host: "old-name", since: "" }));
    expect((await lockDebrief(folder)).held).toBe(false);
    const past = new Date(Date.now() - 180_000);
    await utimes(path, past, past);
    expect((await lockDebrief(folder)).held).toBe(true);
  });

  test("nothing is saved past the lock of an open window", async () => {
    const saved = await saveDebrief(folder, withFilm());
    const { hostname } = await import("node:os");
    await writeFile(
      join(folder, "debrief.lock"),
      JSON.stringify({ pid: process.ppid, host: hostname(), since: "", began: null }),
    );
    const failure = await failureOf(saveDebrief(folder, saved));
    expect(failure.notice).toMatchObject({ code: "debrief-open-elsewhere", facts: { folder, pid: process.ppid } });
    expect((await loadDebrief(folder)).document.revision).toBe(saved.revision);
  });

  test("a folder that may not be written opens read-only", async () => {
    await chmod(folder, 0o555);
    await withoutRootsRights(async () => expect((await lockDebrief(folder)).held).toBe(false));
    await chmod(folder, 0o777);
    await withoutRootsRights(async () => expect((await lockDebrief(folder)).held).toBe(true));
  });
});
