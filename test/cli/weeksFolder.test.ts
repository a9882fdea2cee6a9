// `weeks` on folders that it makes no log of, and on several debriefs of one ride.
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { weeks } from "../../main/cli/verbs/weeks.ts";
import type { RideFigures } from "../../main/contract/rideFigures.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { rideFigures } from "../../main/debrief/rideFigures.ts";
import { earlierRides } from "../../main/journey/earlierRides.ts";
import { weeksPage } from "../../main/journey/weeksPage.ts";
import { madePlan, madeReading, madeRide } from "../film/madeReading.ts";
import { rejected, said } from "../support/said.ts";

const context = { signal: new AbortController().signal, report: () => undefined, language: "en" as const };
const START_UTC_MS = Date.UTC(2026, 2, 1, 9);
const base: RideFigures = {
  ...rideFigures(
    madeRide(),
    madePlan(),
    madeReading(madeRide()),
    { shares: null, again: [], drift: { beats: 8, giveOrTake: 2, canTell: true } },
    null,
  ),
  roads: [],
  startUtcMs: START_UTC_MS,
};

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "followcar-weeks-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function put(name: string, file: { bytes: number; fingerprint: string }, startUtcMs = START_UTC_MS) {
  mkdirSync(join(folder, name), { recursive: true });
  const ref = { id: "r", kind: "ride", path: "../ride.fit", ...file } as const;
  await saveDebrief(join(folder, name), { ...newDebrief(madePlan(), [ref], "r"), figures: { ...base, startUtcMs } });
}
const run = (dir = folder) => weeks.run([dir], {}, context);

describe("weeks writes no page over nothing", () => {
  it("a folder without debriefs is said to hold none", async () => {
    mkdirSync(join(folder, "photos"));
    const before = readdirSync(folder);
    await expect(run()).rejects.toMatchObject({ code: "debrief-not-usable" });
    expect(await rejected(run())).toContain(`${folder} holds no debrief: nothing was written.`);
    expect(readdirSync(folder)).toEqual(before);
  });

  it("of debriefs that can't be used each is named, and the code is 3", async () => {
    mkdirSync(join(folder, "broken"));
    writeFileSync(join(folder, "broken", "debrief.json"), "{");
    const outcome = await run();
    expect(said(outcome.warnings)[0]).toContain("broken");
    expect(outcome).toMatchObject({ exitCode: 3, json: { written: [] } });
    expect(existsSync(join(folder, "weeks.html"))).toBe(false);
  });

  it("of a debrief's own folder the one that it lies in is named", async () => {
    await put("sunday-debrief", { bytes: 10, fingerprint: "a" });
    const own = join(folder, "sunday-debrief");
    expect(await rejected(run(own))).toBe(
      `sunday-debrief is one debrief: nothing was written into it. Name the folder that it and the others lie in: ${folder}.`,
    );
    expect(existsSync(join(own, "weeks.html"))).toBe(false);
    expect(await run()).toMatchObject({ exitCode: 0, warnings: [], json: { written: [join(folder, "weeks.html")] } });
  });

  it("an athlete's folder that is a debrief as well has its log", async () => {
    await put(".", { bytes: 10, fingerprint: "a" });
    writeFileSync(join(folder, "athlete.json"), JSON.stringify({ schema: 1, name: "Ida Kern" }));
    expect(await run()).toMatchObject({ exitCode: 0 });
  });
});

describe("several debriefs of one ride", () => {
  const daysOf = async () => {
    const { log, leftOut } = await weeksPage(folder, null, "en");
    return { names: log.groups.flatMap(({ rides }) => rides.map(({ name }) => name)), notes: said(leftOut) };
  };

  it("count once, as the one that was saved last has it", async () => {
    await put("monday-debrief", { bytes: 10, fingerprint: "a" });
    await put("sunday-debrief", { bytes: 10, fingerprint: "a" });
    await put("tuesday-debrief", { bytes: 10, fingerprint: "a" });
    for (const [name, savedS] of [
      ["monday", 100],
      ["sunday", 300],
      ["tuesday", 200],
    ] as const)
      utimesSync(join(folder, `${name}-debrief`, "debrief.json"), savedS, savedS);
    expect(await daysOf()).toEqual({
      names: ["sunday-debrief"],
      notes: [
        "monday-debrief, sunday-debrief and tuesday-debrief are of one and the same ride: it is counted once, as sunday-debrief has it, which was saved last.",
      ],
    });
    expect(said((await run()).warnings)).toHaveLength(1);
  });

  it("are one of the rides that tell what is usual of a later one", async () => {
    for (const name of ["a", "b", "c"]) await put(name, { bytes: 10, fingerprint: "a" });
    await put("next", { bytes: 12, fingerprint: "b" }, START_UTC_MS + 86_400_000);
    const { figures } = await earlierRides(folder, START_UTC_MS + 2 * 86_400_000, "road");
    expect(figures.map(({ startUtcMs }) => startUtcMs)).toEqual([START_UTC_MS, START_UTC_MS + 86_400_000]);
  });

  it("are of one ride only where start and file are the same", async () => {
    await put("a", { bytes: 10, fingerprint: "a" });
    await put("later", { bytes: 10, fingerprint: "a" }, START_UTC_MS + 1000);
    await put("other", { bytes: 11, fingerprint: "b" });
    expect(await daysOf()).toEqual({ names: ["a", "other", "later"], notes: [] });
  });
});
