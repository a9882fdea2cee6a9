// Command line and window make the same of the same files: the line-up, the reading, the film and the document. The
// rides are the demo's and two that people recorded (test/fixtures/README.md: origin and licence).
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import { demoClips } from "../../main/demo/demoClips.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { filmClips } from "../../main/demo/filmClips.edge.ts";
import { DEMO_SEED, makeDemo } from "../../main/demo/makeDemo.edge.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { openDebrief } from "../../main/journey/openDebrief.ts";
import { prepareDebrief, type DebriefRequest } from "../../main/journey/preparedDebrief.ts";
import type { Host } from "../../main/journey/host.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { openDesk, type OpenDesk } from "../app/desk/openDesk.ts";
import { runProgram } from "../support/runProgram.ts";
import { testHost, testTools } from "../support/tools.ts";
import { runProgram as runTool, writeNumberedClip } from "../support/video.ts";

const context = { signal: new AbortController().signal, report: () => undefined };
let open: OpenDesk;

beforeAll(async () => {
  open = await openDesk();
});

afterAll(() => open.close());

/** The command's side, with a cache of its own: what it heard must not be there already for the window. */
const commandHost = (): Host => ({ ...testHost(), cacheDir: open.path("cache of the command") });

const asked = (paths: readonly string[], more: Partial<DebriefRequest> = {}): DebriefRequest => ({
  paths,
  anchors: [],
  deviceDelayS: 0,
  show: null,
  acceptUnsure: true,
  plan: { planPath: null, targetW: 180, toleranceW: 15, setting: null },
  outDir: null,
  lengthS: 60,
  preset: "draft",
  forWhom: "athlete",
  asPercent: false,
  language: "en",
  athleteDir: null,
  consent: null,
  ...more,
});

/** What the document says, without how often it was saved. */
function saidIn(folder: string): Omit<DebriefDocument, "revision"> {
  const { revision: _counted, ...said } = JSON.parse(
    readFileSync(join(folder, "debrief.json"), "utf8"),
  ) as DebriefDocument;
  return said;
}

const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

/** The same files and the same decisions by both doors; gives what each says of them. */
async function byBothDoors(request: DebriefRequest) {
  const { folder, lineup, standing } = await prepareDebrief(request, commandHost(), context, false);
  const byCommand = saidIn(folder);

  const { api } = open;
  await api.closeDebrief();
  await api.addFiles(request.paths.map((path) => open.id(path)));
  for (const part of ["plan", "settings", "anchors"] as const)
    await api.edit({ part, value: byCommand[part], label: part } as Parameters<typeof api.edit>[0], open.view().edit);
  await api.lineUp(true);
  await api.saveNow();
  const windowFolder = open.view().folder;
  expect(windowFolder).not.toBe(folder);

  const byWindow = saidIn(windowFolder);
  expect(byWindow).toEqual(byCommand);
  const { lineup: seen, reading, film } = open.view();
  expect(plain(seen)).toEqual(plain(lineup.lineup));
  const { columns: _columns, ...judged } = standing.judged.reading;
  expect({ ...reading, warnings: [] }).toEqual({ ...(plain(judged) as object), warnings: [] });
  expect(film?.items.length).toBe(standing.film.items.length);

  // And opened again, each by the other door.
  await api.closeDebrief();
  await api.openDebrief(open.id(folder), false);
  const opened = await openDebrief(windowFolder, commandHost(), false);
  expect(plain(open.view().lineup)).toEqual(plain(opened.standing.lineup));
  expect(plain(opened.standing.lineup)).toEqual(plain(lineup.lineup));
  expect(plain(opened.standing.film)).toEqual(plain(standing.film));
  return { lineup: lineup.lineup, document: byCommand };
}

test("the demo, with the ride of a second rider and clips that nothing but their clock places", async () => {
  const demo = await makeDemo(open.path("demo"), testTools(), context, { small: true, secondRider: true });
  const { lineup, document } = await byBothDoors(
    asked([demo.ridePath, demo.secondRidePath!, ...demo.clipPaths], {
      plan: { planPath: demo.planPath, targetW: null, toleranceW: null, setting: null },
    }),
  );
  expect(lineup.rides).toHaveLength(2);
  expect(document.film!.items.length).toBeGreaterThan(3);
}, 300_000);

test("the demo with an anchor", async () => {
  const demo = await makeDemo(open.path("anchored"), testTools(), context, { small: true });
  const request = asked([demo.ridePath, ...demo.clipPaths], { anchors: [demo.anchor], deviceDelayS: 0 });
  const { lineup } = await byBothDoors(request);
  expect(lineup.clips.every(({ method }) => method === "anchor")).toBe(true);
}, 300_000);

/** One clip of the demo filmed whole, with neither telemetry nor clock: nothing but what is seen and heard is left. */
async function onlySeenAndHeard(folder: string, ridePath: string): Promise<readonly [string, string]> {
  const tools = testTools();
  const truth = demoRide(DEMO_SEED);
  mkdirSync(folder, { recursive: true });
  writeFileSync(ridePath, demoRideFile(truth));
  const clip = demoClips(truth, false, false).find(({ durationS }) => durationS >= 120)!;
  const order = { seed: DEMO_SEED, clip, outDir: folder, picture: { widthPx: 320, heightPx: 180 }, tools };
  const [filmed] = await filmClips([order], context.signal, () => undefined);
  const bare = join(folder, "bare.mp4");
  const kept = ["-map", "0:v:0", "-map", "0:a:0", "-map_metadata", "-1", "-map_metadata:s", "-1", "-write_tmcd", "0"];
  await runTool(tools.ffmpeg, ["-v", "error", "-i", filmed!, ...kept, "-c", "copy", bare]);
  return [ridePath, bare];
}

test("a clip that has nothing but what moves and sounds in it to be placed by", async () => {
  const folder = open.path("bare");
  const { lineup } = await byBothDoors(asked(await onlySeenAndHeard(folder, join(folder, "ride.fit"))));
  expect(lineup.clips.map(({ method }) => method)).toEqual(["signals"]);
}, 300_000);

/** A recorded ride in a folder of its own, and a clip that was filmed in it by its camera's clock. */
async function recordedOuting(name: string, where: string): Promise<readonly [string, string]> {
  const folder = open.path(where);
  mkdirSync(folder, { recursive: true });
  const ridePath = join(folder, name);
  cpSync(join("test", "fixtures", "rides", name), ridePath);
  const { startUtcMs } = await readRide(ridePath);
  const clipPath = join(folder, "bars.mp4");
  const created = new Date(startUtcMs! + 300_000).toISOString();
  const output = ["-metadata", `creation_time=${created}`];
  const clip = { widthPx: 320, heightPx: 192, frames: 250, rate: "25", sound: "sine=frequency=300", output };
  await writeNumberedClip(clipPath, clip, testTools());
  return [ridePath, clipPath];
}

test.each(["power-heart-1s.fit", "variable-hills.fit"])(
  "a recorded ride, %s, and a clip by its camera's clock",
  async (name) => {
    const { document } = await byBothDoors(asked(await recordedOuting(name, name.replace(/\..*$/, ""))));
    expect(document.figures!.countedS).toBeGreaterThan(600);
  },
  300_000,
);

test("what is typed at the command line is what the journey is asked for", async () => {
  const asJourney = asked(await recordedOuting("power-heart-1s.fit", "asked"));
  const { folder } = await prepareDebrief(asJourney, commandHost(), context, true);
  const [typedPath] = await recordedOuting("power-heart-1s.fit", "typed");
  const plan = ["--target", "180", "--tolerance", "15"];
  const film = ["--length", "60", "--preset", "draft", "--for", "athlete", "--language", "en", "--accept-unsure"];
  const { code, stderr } = await runProgram(["debrief", "--batch", dirname(typedPath), ...plan, ...film]);
  expect(stderr).not.toContain("could not");
  expect(code).toBe(0);
  expect(saidIn(typedPath.replace(/\.fit$/, "-debrief"))).toEqual(saidIn(folder));
}, 300_000);
