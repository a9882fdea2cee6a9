import { spawnSync } from "node:child_process";
import { mkdir, mkdtemp, readFile, readdir, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { clearLeftBehind, clearUnfinished, temporaryFolder, unfinishedName } from "../../main/host/leftovers.edge.ts";
import { makeAtomic } from "../../main/host/writeAtomic.edge.ts";

let folder = "";
beforeEach(async () => (folder = await mkdtemp(join(tmpdir(), "left "))));
afterEach(() => rm(folder, { recursive: true, force: true }));

/** Number of a process that has ended. */
function deadPid(): number {
  return spawnSync(process.execPath, ["-e", ""]).pid;
}

test("two who make one file at once both make it whole", async () => {
  const path = join(folder, "film.mp4");
  const one = (letter: string): Promise<void> =>
    makeAtomic(path, async (unfinished) => {
      await writeFile(unfinished, letter);
      await new Promise((resolve) => setTimeout(resolve, 50));
      expect(await readFile(unfinished, "utf8")).toBe(letter);
      await writeFile(unfinished, letter.repeat(3));
    });
  await Promise.all([one("a"), one("b")]);
  expect(["aaa", "bbb"]).toContain(await readFile(path, "utf8"));
  expect(await readdir(folder)).toEqual(["film.mp4"]);
});

test("a link where unfinished files used to lie is never written through", async () => {
  const mine = join(folder, "mine.txt");
  await writeFile(mine, "mine");
  await symlink(mine, join(folder, "film.mp4.part"));
  await makeAtomic(join(folder, "film.mp4"), (unfinished) => writeFile(unfinished, "film"));
  expect(await readFile(mine, "utf8")).toBe("mine");
});

test("what a killed program left unfinished goes with the next try; what runs, and what is not ours, stays", async () => {
  const path = join(folder, "film.mp4");
  const left = unfinishedName(path).replace(`.${process.pid}.`, `.${deadPid()}.`);
  const running = unfinishedName(path);
  const elsewhere = left.replace(/\.[0-9a-f]{4}([0-9a-f]{8})\.part$/, ".zzzz$1.part");
  for (const name of [left, `${left}.card0.yuv`, running, elsewhere, join(folder, "notes.part")])
    await writeFile(name, "x");
  await makeAtomic(path, (unfinished) => writeFile(unfinished, "film"));
  expect((await readdir(folder)).sort()).toEqual(
    [running, elsewhere, path, "notes.part"].map((name) => basename(name)).sort(),
  );
  await rm(running);
  await clearUnfinished(folder);
  expect((await readdir(folder)).length).toBe(3);
});

test("a start clears what killed programs left, of every kind and anywhere in the caches", async () => {
  const rooms = join(folder, "filmstrips", "abc");
  await mkdir(rooms, { recursive: true });
  const inCache = unfinishedName(join(rooms, "strip.jpg")).replace(`.${process.pid}.`, `.${deadPid()}.`);
  await writeFile(inCache, "x");
  await writeFile(join(rooms, "whole.jpg"), "x");
  const kinds = await Promise.all(["stills", "print", "encoder"].map((kind) => temporaryFolder(kind)));
  const left = kinds.map((path) => path.replace(`-${process.pid}-`, `-${deadPid()}-`));
  for (const path of left) await mkdir(path);
  await clearLeftBehind(folder);
  expect(await readdir(rooms)).toEqual(["whole.jpg"]);
  const names = await readdir(tmpdir());
  for (const path of left) expect(names).not.toContain(basename(path));
  for (const path of kinds) {
    expect(names).toContain(basename(path));
    await rm(path, { recursive: true });
  }
});

test("a temporary folder of a killed program goes when the next of its kind is made", async () => {
  const one = await temporaryFolder("trial");
  const left = one.replace(`-${process.pid}-`, `-${deadPid()}-`);
  spawnSync("mkdir", [left]);
  const two = await temporaryFolder("trial");
  const names = await readdir(tmpdir());
  expect(names).not.toContain(basename(left));
  expect(names).toContain(basename(one));
  for (const made of [one, two]) await rm(made, { recursive: true });
});
