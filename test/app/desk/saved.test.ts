import { existsSync } from "node:fs";
import { mkdir, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { documentIn, made } from "./deskParts.ts";
import { type OpenDesk, openDesk, openDeskWithRide } from "./openDesk.ts";

describe("a debrief that is saved", () => {
  let open: OpenDesk;
  let rides: string;
  beforeEach(async () => {
    ({ open, rides } = await openDeskWithRide());
  });
  afterEach(() => open.close());

  it("is saved soon after an edit, with a revision and the copy before", async () => {
    await made({ part: "words", value: { ...open.view().document.words, notes: "sat well" }, label: "note" }, open);
    const folder = join(rides, "sunday-debrief");
    await expect.poll(() => existsSync(join(folder, "debrief.json")), { timeout: 2000 }).toBe(true);
    const first = await documentIn(folder);
    expect(first).toMatchObject({ revision: 1, words: { notes: "sat well" }, media: [{ path: "../sunday.fit" }] });
    expect(first.film?.items.length).toBe(open.view().film?.items.length);
    expect(first.figures).not.toBeNull();
    await made({ part: "words", value: { ...open.view().document.words, notes: "sat better" }, label: "note" }, open);
    expect(open.view().saved).toBe("saving");
    await open.api.saveNow();
    expect(open.view().saved).toBe("saved");
    expect(await documentIn(folder)).toMatchObject({ revision: 2, words: { notes: "sat better" } });
    expect(await readFile(join(folder, "debrief.json.bak"), "utf8")).toContain("sat well");
    expect(await readdir(folder)).toContain("debrief.lock");
  });

  it("is found again after a crash: opened with all that was saved, half-written files cleared away", async () => {
    await made({ part: "words", value: { ...open.view().document.words, notes: "kept" }, label: "note" }, open);
    await open.api.saveNow();
    const folder = join(rides, "sunday-debrief");
    await writeFile(join(folder, ".debrief.json.77.abcdef01.part"), "{");
    // A process that died leaves its lock.
    await writeFile(
      join(folder, "debrief.lock"),
      JSON.stringify({ pid: 2 ** 22 + 1, host: (await import("node:os")).hostname(), since: "" }),
    );
    const again = await openDesk(open.folder);
    await again.api.openDebrief(again.id(folder), false);
    expect(again.view()).toMatchObject({ readOnly: null, document: { words: { notes: "kept" } }, missingMedia: [] });
    expect((await readdir(folder)).filter((name) => name.endsWith(".part"))).toEqual([]);
    expect((await again.api.recent())[0]).toMatchObject({ folder, handedOver: false, prepared: false });
    await again.close();
  });

  it("comes back to where it was left, through another debrief and a new start, and writes that into no debrief", async () => {
    await made({ part: "words", value: { ...open.view().document.words, notes: "kept" }, label: "note" }, open);
    const { folder } = open.view();
    // Faster than they can be written, as hops are.
    for (let k = 0; k < 50; k++) void open.api.keepPlace(folder, "moment", `hop ${k}`);
    await open.api.keepPlace(folder, "step", "build");
    await open.api.keepPlace(folder, "part", "shot 3");
    await open.api.keepPlace(folder, "part", null);
    await open.api.keepPlace(join(folder, ".."), "part", "of another folder");
    await open.api.closeDebrief();
    await open.api.keepPlace(folder, "step", "said too late");
    await open.api.openDebrief(open.id(folder), false);
    const left = { step: "build", moment: "hop 49" };
    expect(open.view().place).toEqual(left);
    await open.desk.close();
    const again = await openDesk(open.folder);
    await again.api.openDebrief(again.id(folder), false);
    expect(again.view().place).toEqual(left);
    for (const name of await readdir(folder))
      expect(await readFile(join(folder, name), "utf8")).not.toContain("hop 49");
    await again.close();
  });

  it("opens the copy before where the last save is damaged", async () => {
    for (const notes of ["one", "two"]) {
      await made({ part: "words", value: { ...open.view().document.words, notes }, label: "note" }, open);
      await open.api.saveNow();
    }
    await open.api.closeDebrief();
    const folder = join(rides, "sunday-debrief");
    await writeFile(join(folder, "debrief.json"), '{"schema":1,"revi');
    await open.api.openDebrief(open.id(folder), false);
    expect(open.view().document.words.notes).toBe("one");
    expect(open.view().warnings.map(({ code }) => code)).toContain("backup-opened");
    await made({ part: "words", value: { ...open.view().document.words, notes: "three" }, label: "note" }, open);
    await open.api.saveNow();
    expect((await documentIn(folder)).words.notes).toBe("three");
  });

  it("may only be looked at while another window has it, or when a newer program made it", async () => {
    await made({ part: "words", value: { ...open.view().document.words, notes: "mine" }, label: "note" }, open);
    await open.api.saveNow();
    const folder = join(rides, "sunday-debrief");
    const second = await openDesk(open.folder);
    // The same process stands for another: its lock is held by a live one.
    await writeFile(
      join(folder, "debrief.lock"),
      JSON.stringify({ pid: process.ppid, host: (await import("node:os")).hostname(), since: "" }),
    );
    await second.api.openDebrief(second.id(folder), false);
    expect(second.view().readOnly).toMatchObject({ kind: "open elsewhere", pid: process.ppid });
    await expect(made({ part: "deviceDelayS", value: 3, label: "x" }, second)).rejects.toMatchObject({
      code: "debrief-not-usable",
    });
    await second.api.closeDebrief();
    const newer = join(rides, "newer");
    await mkdir(newer);
    await writeFile(
      join(newer, "debrief.json"),
      JSON.stringify({ ...(JSON.parse(await readFile(join(folder, "debrief.json"), "utf8")) as object), schema: 99 }),
    );
    await second.api.openDebrief(second.id(newer), true);
    expect(second.view().readOnly).toMatchObject({ kind: "newer version" });
    await second.close();
  });

  it("tries again by itself where it could not save, and is never closed silently", async () => {
    const words = (notes: string) =>
      made({ part: "words", value: { ...open.view().document.words, notes }, label: "note" }, open);
    await words("one");
    await open.api.saveNow();
    const folder = join(rides, "sunday-debrief");
    const inTheWay = join(folder, "debrief.json.bak");
    await mkdir(join(inTheWay, "full"), { recursive: true });
    await words("two");
    await open.api.saveNow();
    expect(open.view().saved).toMatchObject({ code: "output-not-writable" });
    await expect(open.api.closeDebrief()).rejects.toMatchObject({ notice: { code: "debrief-not-saved" } });
    expect(open.view().document.words.notes).toBe("two");
    await rm(inTheWay, { recursive: true });
    await expect.poll(() => open.view().saved, { timeout: 30_000 }).toBe("saved");
    expect((await documentIn(folder)).words.notes).toBe("two");
    await rm(inTheWay);
    await mkdir(join(inTheWay, "full"), { recursive: true });
    await words("three");
    const error = await open.api.closeDebrief().catch((caught: unknown) => caught);
    const { keptAt } = (error as { notice: { facts: { keptAt: string } } }).notice.facts;
    expect((await documentIn(keptAt)).words.notes).toBe("three");
    await open.api.closeDebrief();
    expect(await readdir(folder)).not.toContain("debrief.lock");
  }, 120_000);

  it("leaves an earlier debrief of the same ride alone", async () => {
    await made({ part: "deviceDelayS", value: 0.5, label: "delay" }, open);
    await open.api.saveNow();
    await open.api.closeDebrief();
    await open.api.addFiles([open.id(join(rides, "sunday.fit"))]);
    expect(open.view().folder).toBe(join(rides, "sunday-debrief-2"));
    expect(open.view().warnings.map(({ code }) => code)).toContain("debrief-there-already");
  });
});
