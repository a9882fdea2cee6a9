// A debrief's folder may come from anyone: a symbolic link in it leads nowhere.
import { link, mkdir, mkdtemp, readFile, readdir, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import { loadAthlete } from "../../main/debrief/athleteStore.edge.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { loadDebrief, lockDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { findMedia, mediaRef } from "../../main/debrief/findMedia.edge.ts";
import { debriefText } from "../../main/debrief/parseDebrief.ts";
import { makeAtomic } from "../../main/host/writeAtomic.edge.ts";
import { keepRecovered } from "../../main/journey/openDebrief.ts";
import { madePlan } from "../film/madeReading.ts";

let top = "";
let folder = "";
let outside = "";
const document = newDebrief(madePlan(), [], "");

beforeEach(async () => {
  top = await mkdtemp(join(tmpdir(), "stranger "));
  folder = join(top, "debrief");
  outside = join(top, "mine");
  await mkdir(folder);
  await mkdir(outside);
  await writeFile(join(outside, "letter.txt"), debriefText(document));
  await writeFile(join(folder, "debrief.json"), debriefText(document));
});
afterEach(() => rm(top, { recursive: true, force: true }));

async function linksNamed(job: Promise<unknown>): Promise<readonly string[]> {
  const error = await job.then(
    () => new Error("let in"),
    (caught: unknown) => caught as Error,
  );
  if (!(error instanceof Failure) || error.notice.code !== "folder-with-links") throw error;
  return error.notice.facts.links;
}

test.each(["debrief.json", "debrief.json.bak", "debrief.schema-1.json", "film.mp4.part", "debrief.lock", "my notes"])(
  "a link named %s is refused by name, and the file it leads to stays as it was",
  async (name) => {
    const target = join(outside, "letter.txt");
    const before = await readFile(target, "utf8");
    await rm(join(folder, name), { force: true });
    await symlink(target, join(folder, name));
    for (const job of [loadDebrief, lockDebrief, (one: string) => saveDebrief(one, document)])
      expect(await linksNamed(job(folder))).toEqual([name]);
    expect(await readFile(target, "utf8")).toBe(before);
  },
);

test.each(["lesson", "comments", "cache/parts", "lesson/stills"])(
  "a link to a folder at %s is refused too, however deep",
  async (name) => {
    await mkdir(join(folder, name, ".."), { recursive: true });
    await symlink(outside, join(folder, name));
    for (const job of [loadDebrief, lockDebrief, (one: string) => saveDebrief(one, document)])
      expect(await linksNamed(job(folder))).toEqual([name]);
    expect(await readdir(outside)).toEqual(["letter.txt"]);
  },
);

test("a link that leads nowhere would make a file: it is refused as well; of many the first are named", async () => {
  for (const name of ["a", "b", "c", "d", "e", "f", "g"])
    await symlink(join(outside, `new-${name}`), join(folder, name));
  expect(await linksNamed(saveDebrief(folder, document))).toEqual(["a", "b", "c", "d", "e"]);
});

test("the folder itself may be reached by a link", async () => {
  await symlink(folder, join(top, "shortcut"));
  expect((await saveDebrief(join(top, "shortcut"), document)).revision).toBe(document.revision + 1);
});

test("a file in it that shares its bytes with one of the person's (a hard link) is replaced, never written through", async () => {
  const mine = join(outside, "letter.txt");
  await writeFile(mine, "somebody's letter");
  for (const name of ["debrief.json", "debrief.lock.taking", "film.mp4"]) {
    await rm(join(folder, name), { force: true });
    await link(mine, join(folder, name));
  }
  await writeFile(join(folder, "debrief.json.bak"), debriefText(document));
  await keepRecovered(folder);
  expect((await loadDebrief(folder)).document.revision).toBe(document.revision);
  const saved = await saveDebrief(folder, document);
  await makeAtomic(join(folder, "film.mp4"), (unfinished) => writeFile(unfinished, "film"));
  expect((await loadDebrief(folder)).document.revision).toBe(saved.revision);
  expect(await readFile(mine, "utf8")).toBe("somebody's letter");
});

test("an athlete's file is no link", async () => {
  await writeFile(join(outside, "athlete.json"), '{"schema":1,"name":"Ada Invented"}');
  await symlink(join(outside, "athlete.json"), join(folder, "athlete.json"));
  expect(await linksNamed(loadAthlete(folder))).toEqual(["athlete.json"]);
});

test.skipIf(process.platform === "win32")("a clip with a backslash in its name is found again", async () => {
  const clip = join(folder, "odd\\name.mp4");
  await writeFile(clip, "clip");
  const fingerprint = (): Promise<string> => Promise.resolve("f");
  const ref = await mediaRef(folder, clip, "a", "clip", fingerprint);
  expect(await findMedia(folder, ref, { consent: false, searchIn: [], fingerprint })).toBe(clip);
});
