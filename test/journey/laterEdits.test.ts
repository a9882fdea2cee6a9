// What a person changes in debrief.json later makes another film and other pages; a lesson says nothing of who, when and
// where; a folder of rides is prepared and handed over only once somebody has looked.
import { execFileSync } from "node:child_process";
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import type { Shot } from "../../main/contract/film.ts";
import { newAthlete } from "../../main/debrief/athlete.ts";
import { loadAthlete, saveAthlete } from "../../main/debrief/athleteStore.edge.ts";
import { loadDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { makeDemo, type Demo } from "../../main/demo/makeDemo.edge.ts";
import { athleteListing, deleteListed } from "../../main/debrief/athleteListing.edge.ts";
import { batchJourney } from "../../main/journey/preparedRides.ts";
import { prepareDebrief, type DebriefRequest } from "../../main/journey/preparedDebrief.ts";
import { openDebrief } from "../../main/journey/openDebrief.ts";
import { renderJourney, type RenderRequest } from "../../main/journey/renderedFilm.ts";
import { measureLoudness } from "../../main/render/measureLoudness.edge.ts";
import { debriefRequest } from "../support/debriefRequest.ts";
import { testHost, testTools } from "../support/tools.ts";
import { rejected } from "../support/said.ts";
import { failureSaid } from "../support/said.ts";

const context = { signal: new AbortController().signal, report: () => undefined };
const tools = testTools();
let root = "";
let athleteDir = "";
let demo: Demo;
let folder = "";
let request: DebriefRequest;

const rendering = (debriefPath: string, more: Partial<RenderRequest> = {}): RenderRequest => ({
  debriefPath,
  settings: {},
  outPath: null,
  trustPaths: false,
  handOver: false,
  seen: false,
  consent: null,
  ...more,
});

function change(edit: (document: DebriefDocument) => DebriefDocument): void {
  const path = join(folder, "debrief.json");
  writeFileSync(path, JSON.stringify(edit(JSON.parse(readFileSync(path, "utf8")) as DebriefDocument)));
}

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), "followcar-later-"));
  process.env.FOLLOWCAR_CACHE = join(root, "cache");
  demo = await makeDemo(join(root, "demo"), tools, context, { small: true });
  athleteDir = join(root, "ines");
  const { latDeg, lonDeg } = demo.truth.records;
  await saveAthlete(athleteDir, {
    ...newAthlete("Ines Falk"),
    homeZone: { latDeg: latDeg[0]!, lonDeg: lonDeg[0]!, radiusM: 800 },
  });
  request = debriefRequest({
    paths: [demo.ridePath, ...demo.clipPaths],
    anchors: [demo.anchor],
    plan: { planPath: demo.planPath, targetW: null, toleranceW: null, setting: null },
    language: "en",
    athleteDir,
  });
  folder = (await prepareDebrief(request, testHost(), context, false)).folder;
}, 300_000);

afterAll(() => {
  delete process.env.FOLLOWCAR_CACHE;
  rmSync(root, { recursive: true, force: true });
});

it("lies in the athlete's folder, and hides home from all that is drawn", async () => {
  expect(folder).toBe(join(athleteDir, "ride-debrief"));
  const { standing } = await openDebrief(folder, testHost(), false);
  const { latDeg } = standing.judged.ride.grid.position!;
  expect(Number.isNaN(latDeg[0])).toBe(true);
  expect(latDeg.some((value) => Number.isFinite(value))).toBe(true);
});

it("follows picks, words and overrules in the document", async () => {
  const before = (await openDebrief(folder, testHost(), false)).standing;
  const surge = before.judged.reading.moments.find(({ kind }) => kind === "surge")!;
  const onset = before.judged.reading.moments.find(({ kind }) => kind === "driftOnset")!;
  change((document) => ({
    ...document,
    choices: [
      {
        kind: surge.kind,
        startS: surge.startS,
        endS: surge.endS,
        keep: true,
        span: { startS: surge.startS - 10, endS: surge.endS },
        name: "The bridge",
        note: null,
      },
      { kind: onset.kind, startS: onset.startS, endS: onset.endS, keep: false, span: null, name: null, note: null },
    ],
    words: { ...document.words, change: "Breathe out first." },
    overrides: [{ what: "last", set: 5000, reason: "heat" }],
  }));
  const { film, judged } = (await openDebrief(folder, testHost(), false)).standing;
  const said = JSON.stringify(film.items);
  expect(said).toContain("The bridge");
  expect(said).toContain("Breathe out first.");
  expect(
    film.items.some(({ moment }) => moment !== null && judged.reading.moments[moment]!.kind === "driftOnset"),
  ).toBe(false);
  const last = film.items.flatMap((item) =>
    item.type === "card" && item.card.kind === "chart" && item.card.marks.last !== null
      ? [item.card.marks.last.bpm]
      : [],
  );
  expect(last[0]).toBe(judged.reading.drift.lastBpm);
  expect(last[0]).not.toBe(before.judged.reading.drift.lastBpm);
});

it("keeps a film that was edited in the file, with comment, own caption and freeze, and renders it", async () => {
  const { standing } = await openDebrief(folder, testHost(), false);
  const shots = standing.film.items.filter((item): item is Shot => item.type === "shot");
  expect(shots.length).toBeGreaterThan(0);
  mkdirSync(join(folder, "comments"));
  execFileSync(tools.ffmpeg, [
    "-v",
    "error",
    "-f",
    "lavfi",
    "-i",
    "sine=400:r=48000:d=2.5,volume=0.1",
    join(folder, "comments", "one.wav"),
  ]);
  change((document) => ({
    ...document,
    film: {
      ...document.film!,
      items: [
        {
          ...shots[0]!,
          mediaEndS: shots[0]!.mediaStartS + 2,
          speed: 1,
          captions: [{ startS: 0, endS: 2, text: "Look up" }],
          commentPath: "comments/one.wav",
          crossfadeS: 0,
        },
      ],
    },
  }));
  expect((await loadDebrief(folder)).document.filmSetBy).toBe("coach");
  const rendered = await renderJourney(rendering(folder), testHost(), context);
  const film = join(folder, "film.mp4");
  expect(rendered.written).toEqual([film]);
  const probed = JSON.parse(
    execFileSync(tools.ffprobe, ["-v", "error", "-show_format", "-show_streams", "-of", "json", film], {
      encoding: "utf8",
    }),
  ) as { format: { duration: string; tags?: object } };
  // The sentence lasts 2.5 s and the picture a breath longer, though the shot has 2 s.
  expect(Number(probed.format.duration)).toBeGreaterThan(2.85);
  expect(Number(probed.format.duration)).toBeLessThan(3.1);
  const { integratedLufs, truePeakDbtp } = await measureLoudness(film, [], null, tools);
  expect(Math.abs(integratedLufs! + 16)).toBeLessThan(0.6);
  expect(truePeakDbtp!).toBeLessThan(-1);
  // The whole job again in the same folder keeps the coach's film.
  const again = await prepareDebrief(request, testHost(), context, false);
  expect(again.standing.film.items).toHaveLength(1);
  expect(again.standing.document.filmSetBy).toBe("coach");
}, 120_000);

it("makes a lesson only with consent, and it says nothing of who, when and where", async () => {
  const lesson = rendering(folder, { settings: { forWhom: "lesson", asPercent: true }, handOver: true });
  expect(await rejected(renderJourney(lesson, testHost(), context))).toMatch(/agreed to a lesson/);
  const { warnings, written } = await renderJourney({ ...lesson, consent: "said yes in May" }, testHost(), context);
  expect((await loadAthlete(athleteDir))!.lessonConsent).toEqual({ given: true, dateText: "said yes in May" });
  expect(warnings.map(({ code }) => code)).toContain("lesson-carries-speech");
  expect(written.every((path) => path.startsWith(join(folder, "lesson")))).toBe(true);
  const { plan } = (await loadDebrief(folder)).document;
  const { latDeg, lonDeg } = demo.truth.records;
  const kept = [
    "Ines",
    "Falk",
    plan.rider!,
    plan.title!,
    plan.eventName ?? plan.title!,
    "bars-",
    "ride.fit",
    latDeg[400]!.toFixed(3),
    lonDeg[400]!.toFixed(3),
    new Date(demo.truth.startUtcMs).toISOString().slice(0, 10),
  ];
  for (const path of written) {
    const bytes = readFileSync(path, "latin1");
    for (const word of kept) expect(bytes.includes(word), `${path} says ${word}`).toBe(false);
  }
  const page = readFileSync(join(folder, "lesson", "debrief.html"), "utf8").replaceAll(/<style>.*?<\/style>/gs, "");
  expect(page).not.toMatch(/\d\sW\b/);
  expect(page).toMatch(/\d\s%/);
  const tags = execFileSync(
    tools.ffprobe,
    ["-v", "error", "-show_entries", "format_tags:stream_tags", "-of", "json", join(folder, "lesson", "film.mp4")],
    { encoding: "utf8" },
  );
  expect(tags).not.toMatch(/location|creation_time|make|model|serial|timecode/i);
}, 120_000);

it("prepares a folder of rides, names what it could not read, and hands over only once somebody has looked", async () => {
  const batch = join(root, "batch");
  mkdirSync(join(batch, "tuesday"), { recursive: true });
  copyFileSync(demo.ridePath, join(batch, "tuesday", "spin.fit"));
  writeFileSync(join(batch, "broken.gpx"), "no ride at all");
  const { rides } = await batchJourney(batch, { ...request, anchors: [], athleteDir: null }, testHost(), context);
  expect(rides.map(({ state }) => state).sort()).toEqual(["failed", "prepared"]);
  expect(failureSaid(rides.find(({ state }) => state === "failed")!.failure).sentence).toContain("broken.gpx");
  const made = join(batch, "tuesday", "spin-debrief");
  expect(readdirSync(made).sort()).toEqual(
    ["coach.html", "debrief.json", "debrief.json.bak", "film.mp4", "squad-row.json"].filter((name) =>
      existsSync(join(made, name)),
    ),
  );
  expect((await loadDebrief(made)).document.prepared).toBe(true);
  expect(await rejected(renderJourney(rendering(made, { handOver: true }), testHost(), context))).toMatch(
    /nobody has looked/,
  );
  await renderJourney(rendering(made, { handOver: true, seen: true }), testHost(), context);
  expect(existsSync(join(made, "debrief.html"))).toBe(true);
  expect((await loadDebrief(made)).document.prepared).toBe(false);
  expect(
    (await batchJourney(batch, { ...request, anchors: [], athleteDir: null }, testHost(), context)).rides.map(
      ({ state }) => state,
    ),
  ).toContain("there already");
}, 120_000);

it("deletes an athlete whole after the name was typed, pictures in the cache included", async () => {
  const listing = await athleteListing(athleteDir);
  expect(listing.files).toContain(join(folder, "debrief.json"));
  // Kept for speed and made again when needed: no loss to be listed, and gone with the rest.
  const parts = join(root, "cache", "parts");
  expect(readdirSync(parts).length).toBeGreaterThan(0);
  expect(listing.files.some((path) => path.startsWith(join(root, "cache")))).toBe(false);
  expect(listing.others).toEqual([]);
  expect(listing.outside).toContain(demo.ridePath);
  expect(await rejected(deleteListed(athleteDir, listing, "Someone Else"))).toMatch(/nothing was deleted/);
  expect(existsSync(folder)).toBe(true);
  const { kept } = await deleteListed(athleteDir, listing, "Ines Falk");
  expect(kept).toEqual([]);
  expect(existsSync(athleteDir)).toBe(false);
  expect(existsSync(parts)).toBe(false);
  expect(statSync(demo.ridePath).isFile()).toBe(true);
});

it("needs the athlete's file for whatever it hands over, since the place to hide stands in it", async () => {
  const other = join(root, "other");
  mkdirSync(other);
  await saveDebrief(other, {
    ...(await loadDebrief(join(root, "batch", "tuesday", "spin-debrief"))).document,
    revision: 0,
    athletePath: "athlete",
    media: [],
  });
  await expect(openDebrief(other, testHost(), true)).rejects.toThrow();
});
