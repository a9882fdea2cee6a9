import { chmod, mkdir, mkdtemp, readFile, readdir, rm, stat, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { makeAtomic, PRIVATE, writeAtomic } from "../../main/host/writeAtomic.edge.ts";

let folder = "";
beforeEach(async () => (folder = await mkdtemp(join(tmpdir(), "whole "))));
afterEach(() => rm(folder, { recursive: true, force: true }));

test("a file has its name only when it is whole", async () => {
  const path = join(folder, "film.mp4");
  await writeFile(path, "old");
  const made = await makeAtomic(path, async (unfinished) => {
    await writeFile(unfinished, "half");
    expect(await readFile(path, "utf8")).toBe("old");
    await writeFile(unfinished, "new");
    return 7;
  });
  expect(made).toBe(7);
  expect(await readFile(path, "utf8")).toBe("new");
  expect(await readdir(folder)).toEqual(["film.mp4"]);
});

test("what is broken off leaves the old file, and nothing of its own", async () => {
  const path = join(folder, "film.mp4");
  await writeFile(path, "old");
  const broken = makeAtomic(path, async (unfinished) => {
    await writeFile(unfinished, "half");
    throw new Error("cancelled");
  });
  await expect(broken).rejects.toThrow("cancelled");
  expect(await readFile(path, "utf8")).toBe("old");
  expect(await readdir(folder)).toEqual(["film.mp4"]);
});

test("what can't be written is told by the name that was asked for", async () => {
  const path = join(folder, "film.mp4");
  await mkdir(join(path, "kept"), { recursive: true });
  await expect(makeAtomic(path, (unfinished) => writeFile(unfinished, "new"))).rejects.toMatchObject({ path });
});

test("two writers of one file at once each write it whole", async () => {
  const path = join(folder, "debrief.json");
  const texts = Array.from({ length: 20 }, (_, index) => String(index).repeat(100_000));
  await Promise.all(texts.map((text) => writeAtomic(path, text)));
  expect(texts).toContain(await readFile(path, "utf8"));
  expect(await readdir(folder)).toEqual(["debrief.json"]);
});

test.skipIf(process.platform === "win32")(
  "what a person closed stays closed, and what is private is so from the start",
  async () => {
    const path = join(folder, "page.html");
    const modeOf = async () => (await stat(path)).mode & 0o777;
    await writeAtomic(path, "new", PRIVATE);
    expect(await modeOf()).toBe(0o600);
    await writeAtomic(path, "newer");
    expect(await modeOf()).toBe(0o600);
    await chmod(path, 0o640);
    await makeAtomic(path, (unfinished) => writeFile(unfinished, "by another hand"));
    expect(await modeOf()).toBe(0o640);
  },
);
