// Roads ridden before, from the athlete's folder to what is said of them: the figures against the made rides that are
// known to the second, and nothing said where it can't be told.
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { newAthlete } from "../../main/debrief/athlete.ts";
import { saveAthlete } from "../../main/debrief/athleteStore.edge.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { loadDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { rideFigures } from "../../main/debrief/rideFigures.ts";
import { noteMadeHere } from "../../main/debrief/madeHere.edge.ts";
import { automaticBeside, besideShot } from "../../main/journey/besideShot.ts";
import { storyOf } from "../../main/journey/automaticFilm.ts";
import { knownBefore, readJourney, RIDES_HERE } from "../../main/journey/judge.ts";
import { referTo } from "../../main/journey/savedDebrief.ts";
import { weeksPage, weeksRoadsSaid } from "../../main/journey/weeksPage.ts";
import { againLine, againTable } from "../../overlay/words/againWords.ts";
import { pace, rideOn, windingRoad } from "../roads/makeRoad.ts";
import { gpxText, isoAt } from "../support/trackText.ts";

const DAY_S = 86_400;
let root = "";
const athleteDir = () => join(root, "ida");
const road = windingRoad(4, 26_000);
const along = [pace(1, 24_000, 8), pace(2, 24_000, 8.3)] as const;
/** What the second rode: 14 s without pressure at each of these seconds. */
const BREAKS = [1000, 1500, 2100];
const OFF_S = 14;

interface Made {
  readonly dayS: number;
  readonly seed: number;
  readonly breaks?: readonly number[];
  readonly powerW?: number;
  readonly heartBpm?: number;
  readonly placed?: boolean;
}

/** The same way ridden as a bicycle rolls without power: 0.15 m/s slower each second, and up to speed again after it. */
function slowed(alongM: readonly number[], breaks: readonly number[]): number[] {
  const way = [0];
  for (let s = 1; s < alongM.length; s++) {
    const from = breaks.find((at) => s >= at && s < at + 2 * OFF_S);
    const lostMps = from === undefined ? 0 : 0.15 * (s - from < OFF_S ? s - from : 2 * OFF_S - (s - from));
    way.push(way.at(-1)! + Math.max(2, alongM[s]! - alongM[s - 1]! - lostMps));
  }
  return way;
}

/** A made ride as GPX text: level road, even power and heart, power gone at its breaks. */
function gpx({ dayS, seed, breaks = [], powerW = 200, heartBpm = 140 }: Made): string {
  const { raw } = rideOn({ road, seed, alongM: slowed(along[seed % 2]!, breaks), noiseM: 2 });
  const points = Array.from(raw.timeS, (s, k) => {
    const off = breaks.some((from) => s >= from && s < from + OFF_S);
    const [watts, rpm] = off ? [0, 0] : [powerW + (k % 7) - 3, 88];
    return (
      `<trkpt lat="${raw.latDeg[k]!.toFixed(7)}" lon="${raw.lonDeg[k]!.toFixed(7)}"><ele>120</ele><time>${isoAt(dayS + s)}</time>` +
      `<extensions><power>${watts}</power><hr>${heartBpm + (k % 3) - 1}</hr><cadence>${rpm}</cadence></extensions></trkpt>`
    );
  });
  return gpxText(points);
}

const choices = () => ({ planPath: null, targetW: 200, toleranceW: 15, setting: null, athleteDir: athleteDir() });

/** A ride with its debrief in the athlete's folder, as a debrief saves it. */
async function debriefed(name: string, made: Made): Promise<void> {
  const folder = join(athleteDir(), name);
  await mkdir(folder, { recursive: true });
  const path = join(folder, "ride.gpx");
  await writeFile(path, gpx(made));
  const { ride, plan, reading, facts } = await readJourney(path, choices());
  const media = [await referTo(folder, path, "ride", "ride")];
  await saveDebrief(folder, {
    ...newDebrief(plan, media, "ride"),
    figures: rideFigures(ride, plan, reading, facts, null),
  });
  await noteMadeHere(folder);
}

beforeAll(async () => {
  root = await mkdtemp(join(tmpdir(), "ridden again "));
  process.env["FOLLOWCAR_CACHE"] = join(root, "cache");
  await saveAthlete(athleteDir(), newAthlete("Ida"));
  await debriefed("first", { dayS: 0, seed: 1 });
});
afterAll(async () => {
  delete process.env["FOLLOWCAR_CACHE"];
  await rm(root, { recursive: true, force: true });
});

/** A ride of today, not yet debriefed. */
async function today(made: Omit<Made, "dayS">, name = "today.gpx"): Promise<string> {
  const path = join(root, name);
  await writeFile(path, gpx({ ...made, dayS: 21 * DAY_S }));
  return path;
}

describe("a road ridden before", () => {
  test("breaks, power and heart of both rides are those that were made, and it is said in both languages", async () => {
    const { facts } = await readJourney(await today({ seed: 2, breaks: BREAKS, heartBpm: 150 }), choices());
    expect(facts.again).toHaveLength(1);
    const [again] = facts.again;
    expect(again).toMatchObject({ kind: "road", likePower: true, breaks: { before: 0, now: 3 } });
    expect(again!.heart).toEqual({ beats: 10, giveOrTake: 4 });
    expect(again!.before.powerW).toBeCloseTo(200, 0);
    expect(again!.lengthM).toBeGreaterThan(10_000);
    const said = againLine(facts, "en", "metric")!;
    expect(said).toMatch(/^You rode the \d+\.\d km from 0:\d\d:\d\d on on 17 May 2026 too, at like power: /);
    expect(said).toMatch(
      /then no break in pressure, today 3; heart rate today 10 beats higher than then, give or take 4\.$/,
    );
    expect(againLine(facts, "de", "metric")).toMatch(
      /am 17\. Mai 2026 .* damals keine Druckpause, heute 3; Puls heute 10 Schläge höher/,
    );
    expect(againTable(facts.again, "en", "metric")!.rows).toHaveLength(1);
  });

  test("other power, as many breaks and a heart within a day's noise tell nothing", async () => {
    const harder = await readJourney(await today({ seed: 2, breaks: BREAKS, powerW: 230 }), choices());
    expect(harder.facts.again[0]).toMatchObject({ likePower: false, breaks: null, heart: null });
    expect(againLine(harder.facts, "en", "metric")).toBeNull();
    const same = await readJourney(await today({ seed: 2, breaks: BREAKS.slice(0, 1), heartBpm: 143 }), choices());
    expect(same.facts.again[0]).toMatchObject({ likePower: true, breaks: null, heart: null });
    expect(againLine(same.facts, "en", "metric")).toBeNull();
  });

  test("nothing is said where the rider's note comes first", async () => {
    const { facts } = await readJourney(await today({ seed: 2, breaks: BREAKS }), choices());
    expect(againLine({ ...facts, hold: ["illness"] }, "en", "metric")).toBeNull();
  });
});

describe("the film", () => {
  test("shows the longest break beside the ride that held there, only where breaks are what is taught", async () => {
    const path = await today({ seed: 2, breaks: BREAKS });
    const judged = await readJourney(path, choices());
    const { roads } = await knownBefore(path, judged.ride, athleteDir(), "road", RIDES_HERE);
    const { settings, words } = newDebrief(judged.plan, [], "ride");
    const input = { judged, clips: [], lineup: { clips: [], cameras: [], rides: [], warnings: [] }, settings, words };
    const story = storyOf(judged, [], words, "athlete");
    const made = (about: Partial<typeof story>, change: Partial<typeof settings> = {}) =>
      automaticBeside(
        { ...input, settings: { ...settings, ...change }, choices: [], riderName: null, roads } as never,
        { ...story, ...about },
        roads,
      );
    const [item, ...more] = made({ teaching: "breaks" });
    expect(more).toEqual([]);
    expect(item!.card).toMatchObject({ kind: "pair", title: "today / 17 May", follow: "place" });
    if (item!.card.kind !== "pair") throw new Error("no pair");
    const { firstS } = item!.card.pace;
    expect(BREAKS.some((at) => firstS[0]! < at && firstS.at(-1)! > at + OFF_S - 2)).toBe(true);
    // No more of the earlier ride is kept than is shown.
    expect(item!.card.sides[1].series.powerW.length).toBeLessThan(60);
    expect(made({ teaching: "tooEasy" })).toEqual([]);
    expect(made({ teaching: "breaks", facts: { ...story.facts, hold: ["illness"] } })).toEqual([]);
    expect(made({ teaching: "breaks" }, { forWhom: "lesson" })).toEqual([]);
  });
});

describe("a shot beside another rider", () => {
  const clip = (id: string) => ({ id, durationS: 60, frameRate: { num: 30, den: 1 }, widthPx: 1920, heightPx: 1080 });
  test("shows that rider's own camera on that rider's clock, and never on this one's side", async () => {
    const path = await today({ seed: 2 });
    const judged = await readJourney(path, choices());
    const other = await readJourney(join(athleteDir(), "first", "ride.gpx"), choices());
    const earlier = [
      { path: join(athleteDir(), "first", "ride.gpx"), riderName: "mara", document: newDebrief(other.plan, [], "r") },
    ];
    const [road] = await RIDES_HERE.roads(path, judged.ride, earlier);
    const { settings, words } = newDebrief(judged.plan, [], "ride");
    const from = road!.beside.spots.firstS[40]!;
    const placedAt = (clipId: string, offsetS: number, reason: object) => ({
      ...{ clipId, found: { offsetS, rate: 1 }, method: "telemetry", verdict: "sure", sure: true },
      reason,
    });
    const there = road!.beside.spots.secondS[40]!;
    // Her computer began 100 s after this one: on this ride's time she passes that much later than by her own.
    const lineup = {
      clips: [
        placedAt("hers", there + 100 - 5, { code: "camera-on-ride", facts: { rideName: "mara.fit", leadS: 3 } }),
        placedAt("own", from - 5, { code: "camera-positions", facts: {} }),
      ],
      rides: [
        { file: "today.gpx", shown: true, offsetS: 0, uncertaintyS: 0 },
        { file: "mara.fit", shown: false, offsetS: 100, uncertaintyS: 1 },
      ],
      deviceDelayS: 0,
      warnings: [],
    };
    const input = { judged, clips: [clip("hers"), clip("own")], lineup, settings, words, choices: [], riderName: null };
    const wish = { road: road!, span: { startS: from, endS: from + 10 }, follow: "place", ownSecond: false } as const;
    const sides = (more: object) => {
      const [item] = besideShot({ ...input, roads: [road!] } as never, { ...wish, id: "b", why: "", ...more });
      return item!.card.kind === "pair" ? item!.card.sides.map(({ footage }) => footage) : [];
    };
    expect(sides({})).toMatchObject([
      { clipId: "own", clock: { offsetS: from - 5 } },
      { clipId: "hers", clock: { offsetS: expect.closeTo(there - 5, 6) as number } },
    ]);
    expect(sides({ ownSecond: true }).map((one) => one?.clipId)).toEqual(["hers", "own"]);
    expect(sides({ otherClipId: null }).map((one) => one?.clipId)).toEqual(["own", undefined]);
  });
});

describe("the weeks", () => {
  test("list a road once with all its rides; one whose debrief is gone is left out", async () => {
    await debriefed("second", { dayS: 7 * DAY_S, seed: 2, breaks: BREAKS });
    await debriefed("third", { dayS: 14 * DAY_S, seed: 3, heartBpm: 145 });
    const { log, html } = await weeksPage(athleteDir(), null, "en");
    expect(log.roads).toHaveLength(1);
    expect(log.roads[0]!.rides.map(({ side }) => side.breaks)).toEqual([0, 3, 0]);
    expect(log.roads[0]!.rides.map(({ likeHeartBpm }) => Math.round(likeHeartBpm!))).toEqual([145, 140, 140]);
    expect(html).toContain("Roads ridden more than once");
    const { lines } = weeksRoadsSaid(log, "de");
    expect(lines.join("\n")).toMatch(/Straße von \d+,\d km, am 31\. Mai 2026/);
    await rm(join(athleteDir(), "second"), { recursive: true });
    const left = await weeksPage(athleteDir(), null, "en");
    expect(left.log.roads[0]!.rides).toHaveLength(2);
  });

  test("compare a debrief made before roads were looked for from its ride, and name one whose ride is gone", async () => {
    await debriefed("older", { dayS: 10 * DAY_S, seed: 2, breaks: BREAKS });
    const { log } = await weeksPage(athleteDir(), null, "en");
    const { document } = await loadDebrief(join(athleteDir(), "older"));
    const { roads, ...figures } = document.figures!;
    expect(roads).toHaveLength(1);
    await saveDebrief(join(athleteDir(), "older"), { ...document, figures });
    const again = await weeksPage(athleteDir(), null, "en");
    expect(again.log.roads).toEqual(log.roads);
    expect(again.leftOut).toEqual([]);
    await rm(join(athleteDir(), "older", "ride.gpx"));
    const gone = await weeksPage(athleteDir(), null, "en");
    expect(gone.leftOut).toMatchObject([{ code: "roads-not-compared", facts: { debriefs: ["older"] } }]);
  });
});
