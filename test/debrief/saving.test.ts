// Saving: revisions, the one before, and what is never written over.
import type { rename } from "node:fs/promises";
import { chmod, readFile, readdir, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { beforeEach, describe, expect, test } from "vitest";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { loadDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { parseDebrief } from "../../main/debrief/parseDebrief.ts";
import { renameHeld, writeAtomic } from "../../main/host/writeAtomic.edge.ts";
import { madePlan } from "../film/madeReading.ts";
import { failureSaid, rejected } from "../support/said.ts";
import { withFilm, failureOf, debriefFolder } from "./debriefParts.ts";

let folder: string;
beforeEach(async () => {
  folder = await debriefFolder();
});

describe("saving", () => {
  test("each save counts the revision up and keeps the one before", async () => {
    const first = await saveDebrief(folder, withFilm());
    const second = await saveDebrief(folder, { ...first, deviceDelayS: 1 });
    expect([first.revision, second.revision]).toEqual([1, 2]);
    expect((await loadDebrief(folder)).document.deviceDelayS).toBe(1);
    expect(parseDebrief(await readFile(join(folder, "debrief.json.bak"), "utf8"), "bak").document.revision).toBe(1);
    expect((await readdir(folder)).sort()).toEqual(["debrief.json", "debrief.json.bak"]);
  });

  test.skipIf(process.platform === "win32")(
    "its owner alone can read it, also in a folder that others may enter",
    async () => {
      await chmod(folder, 0o755);
      const first = await saveDebrief(folder, withFilm());
      await saveDebrief(folder, first);
      for (const name of ["debrief.json", "debrief.json.bak"])
        expect((await stat(join(folder, name))).mode & 0o777).toBe(0o600);
    },
  );

  test("a save on top of someone else's is refused, and theirs stays", async () => {
    const mine = await saveDebrief(folder, withFilm());
    await saveDebrief(folder, { ...mine, deviceDelayS: 2 });
    const failure = await failureOf(saveDebrief(folder, { ...mine, deviceDelayS: 3 }));
    expect(failureSaid(failure).sentence).toContain("changed by another window");
    expect((await loadDebrief(folder)).document.deviceDelayS).toBe(2);
  });

  test("what could not be opened again is refused by name, and nothing on disk changes", async () => {
    const first = await saveDebrief(folder, newDebrief(madePlan(), [], "ride"));
    const before = await readFile(join(folder, "debrief.json"), "utf8");
    const words = { ...first.words, notes: "n".repeat(20_001) };
    expect(await rejected(saveDebrief(folder, { ...first, words }))).toMatch(
      /Not saved.*"words\.notes": too large or too long, 20000 is the most.*Shorten/su,
    );
    expect(await readFile(join(folder, "debrief.json"), "utf8")).toBe(before);
    expect(await readdir(folder)).not.toContain("debrief.json.bak");
    const fits = { ...first.words, notes: "\u{1f6b4} \u05e9\u05dc\u05d5\u05dd ".repeat(2000) };
    await saveDebrief(folder, { ...first, words: fits });
    expect((await loadDebrief(folder)).document.words.notes).toBe(fits.notes);
  });

  test("a broken file is not overwritten", async () => {
    await writeFile(join(folder, "debrief.json"), "{ cut off");
    await failureOf(saveDebrief(folder, withFilm()));
    expect(await readFile(join(folder, "debrief.json"), "utf8")).toBe("{ cut off");
  });

  test("a folder that is not there is a Failure with a remedy", async () => {
    const failure = await failureOf(writeAtomic(join(folder, "none", "a.txt"), "x"));
    expect(failure.code).toBe("output-not-writable");
    expect(failureSaid(failure).remedy).toContain("--out");
  });

  test("on Windows a held file is tried again, elsewhere not", async () => {
    let tries = 0;
    const held = (() => {
      const error = Object.assign(new Error("held"), { code: "EBUSY" });
      return ++tries < 3 ? Promise.reject(error) : Promise.resolve();
    }) as typeof rename;
    await renameHeld("a", "b", "win32", held);
    expect(tries).toBe(3);
    tries = 0;
    await expect(renameHeld("a", "b", "linux", held)).rejects.toThrow("held");
  });
});
