import { mkdir, mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeEach, describe, expect, test } from "vitest";
import { newAthlete } from "../../main/debrief/athlete.ts";
import { saveAthlete } from "../../main/debrief/athleteStore.edge.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { rideFigures } from "../../main/debrief/rideFigures.ts";
import { planSource } from "../../main/journey/planSource.ts";
import { readJourney } from "../../main/journey/judge.ts";
import { madePlan } from "../film/madeReading.ts";
import { said } from "../support/said.ts";

const nothing = { planPath: null, targetW: null, toleranceW: null, setting: null } as const;
const DAY_MS = 86_400_000;
let root: string;

/** A steady ride: 80 min at 185 W and 130 beats, one record a second. */
function rideCsv(): string {
  const rows = Array.from(
    { length: 4800 },
    (_, s) =>
      `${new Date(Date.parse("2026-06-01T08:00:00Z") + s * 1000).toISOString()},${185 + (s % 7) - 3},${130 + (s % 3) - 1},88`,
  );
  return ["time,power,heart rate,cadence", ...rows].join("\n");
}

beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), "athlete reading "));
  await writeFile(join(root, "ride.csv"), rideCsv());
  const ida = newAthlete("Ida");
  await saveAthlete(join(root, "ida"), {
    ...ida,
    units: "imperial",
    road: { ...ida.road, targetW: 185, toleranceW: 10, foundDate: "2026-01-05" },
  });
});

describe("a ride read for an athlete", () => {
  test("is held to the athlete's target, which is said to be old; plan and command line win", async () => {
    const athleteDir = join(root, "ida");
    const alone = await readJourney(join(root, "ride.csv"), nothing);
    expect(alone.reading.bandW).toBeNull();
    const read = await readJourney(join(root, "ride.csv"), { ...nothing, athleteDir });
    expect(read.reading.bandW).toEqual({ low: 175, high: 195, target: 185 });
    expect(read.plan.units).toBe("imperial");
    expect(said(read.reading.warnings).join()).toMatch(/21 weeks before this ride/);
    await writeFile(join(root, "plan.json"), JSON.stringify({ target: 170 }));
    const planned = await readJourney(join(root, "ride.csv"), {
      ...nothing,
      athleteDir,
      planPath: join(root, "plan.json"),
    });
    expect(planned.reading.bandW).toEqual({ low: 158, high: 182, target: 170 });
    expect(said(planned.reading.warnings).join()).not.toMatch(/weeks before/);
    const flagged = await readJourney(join(root, "ride.csv"), {
      ...nothing,
      athleteDir,
      planPath: join(root, "plan.json"),
      targetW: 175,
    });
    expect(flagged.plan.targetW).toBe(175);
  });

  test("a folder without an athlete is named where one is asked for", async () => {
    await mkdir(join(root, "nobody"));
    await expect(
      readJourney(join(root, "ride.csv"), { ...nothing, athleteDir: join(root, "nobody") }),
    ).rejects.toMatchObject({ notice: { code: "athlete-none-there", facts: { folder: join(root, "nobody") } } });
    expect((await planSource({ ...nothing, athleteDir: join(root, "nobody") })).athlete).toBeNull();
  });

  test("five earlier rides at like power tell an unusual heart, to the coach alone; four, later ones and the trainer's don't", async () => {
    const athleteDir = join(root, "ida");
    const first = await readJourney(join(root, "ride.csv"), { ...nothing, athleteDir });
    const odd = async () =>
      (await readJourney(join(root, "ride.csv"), { ...nothing, athleteDir })).reading.moments.filter(
        ({ kind }) => kind === "oddHeart",
      );
    const keep = async (name: string, startUtcMs: number, setting: "road" | "trainer" = "road") => {
      const figures = {
        ...rideFigures(first.ride, first.plan, first.reading, first.facts, null),
        firstBpm: 115,
        startUtcMs,
        setting,
      };
      await mkdir(join(athleteDir, name), { recursive: true });
      await saveDebrief(join(athleteDir, name), { ...newDebrief(madePlan(), [], "r"), figures });
    };
    const before = first.ride.startUtcMs!;
    for (let n = 1; n <= 4; n++) await keep(`ride${n}`, before - n * DAY_MS);
    await keep("later", before + DAY_MS);
    await keep("turbo", before - 9 * DAY_MS, "trainer");
    expect(await odd()).toEqual([]);
    await keep("ride5", before - 5 * DAY_MS);
    const [moment, ...more] = await odd();
    expect(more).toEqual([]);
    expect(moment).toMatchObject({ coachOnly: true, numbers: { usualBpm: 115, earlierRides: 5 } });
  });
});
