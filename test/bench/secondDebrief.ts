// The second debrief for the same athlete with a clock running: the real program in the installed browser, worked as a
// coach would. What a person's hands and eyes would take is counted by a model, what is watched and waited for by the clock.
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, readdirSync, statSync } from "node:fs";
import { cp, mkdtemp, mkdir, rename, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { addTelemetryTrack } from "../../main/demo/addTelemetryTrack.edge.ts";
import { cameraTelemetry, PAYLOAD_S } from "../../main/demo/cameraTelemetry.ts";
import { cameraTimecode } from "../../main/demo/demoClips.ts";
import { makeDemo } from "../../main/demo/makeDemo.edge.ts";
import { openDesk } from "../app/desk/openDesk.ts";
import { testTools } from "../support/tools.ts";
import { probeFile } from "../support/video.ts";
import { openProgram } from "./openProgram.ts";
import { Person, totalS } from "./personTime.ts";
import { buildFilm, handOver } from "./secondBuild.ts";
import { gatherRide, glanceAtLineUp, skimMoments } from "./secondSkim.ts";

/** Of a person's time for every debrief but an athlete's first, s. */
const WANTED_S = 10 * 60;
const FIRST_SEED = 1;
const SECOND_SEED = 2;
const CAMERA = { widthPx: 1920, heightPx: 1080, bitrate: "12M" } as const;

/** Works through the second debrief and prints its steps and their times. */
export async function benchSecondDebrief(): Promise<void> {
  const folder = await cameraFiles(SECOND_SEED);
  const home = await mkdtemp(join(tmpdir(), "followcar-second-"));
  try {
    await firstDebrief(home);
    const rides = join(home, "rides", "second");
    await cp(folder, rides, { recursive: true });
    const startedMs = performance.now();
    const program = await openProgram(
      home,
      [],
      ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"],
    );
    const { page } = program;
    const problems: string[] = [];
    page.on("pageerror", (error) => problems.push(error.message));
    page.setDefaultTimeout(120_000);
    await page.setViewportSize({ width: 1440, height: 900 });
    const person = new Person(page);
    try {
      await person.begin("open the window");
      await person.wait(() => page.waitForTimeout(program.readyMs));
      await gatherRide(person, page);
      await glanceAtLineUp(person, page);
      await skimMoments(person, page);
      await buildFilm(person, page);
      const machine = await handOver(person, page);
      const film = newestFilm(join(home, "athlete"));
      const { streams, format } = await probeFile(film, testTools());
      const picture = streams.find((stream) => stream.codec_type === "video");
      print(person);
      process.stdout.write(
        `machine alone, the person gone: rendering and writing ${machine.tookS.toFixed(0)} s (said before: ${machine.said})\n`,
      );
      process.stdout.write(
        `film: ${String(picture?.width)} x ${String(picture?.height)}, ${Number(format.duration).toFixed(1)} s, ` +
          `${streams.map((stream) => stream.codec_name).join(" and ")}, ${(statSync(film).size / 1e6).toFixed(1)} ` +
          `MB\n`,
      );
      process.stdout.write(
        `the script itself took ${((performance.now() - startedMs) / 1000).toFixed(0)} s; errors on the page: ` +
          `${problems.length}${problems.map((line) => `\n  ${line}`).join("")}\n`,
      );
    } catch (error) {
      print(person);
      await person.picture("stopped");
      throw error;
    } finally {
      await program.close();
    }
  } finally {
    await rm(home, { recursive: true, force: true, maxRetries: 3 });
  }
}

function print({ steps }: Person): void {
  const line = (title: string, cells: readonly string[]): string =>
    `  ${title.padEnd(58)}${cells.map((cell) => cell.padStart(9)).join("")}\n`;
  process.stdout.write(line("step", ["person", "hands", "writing", "reading", "watching", "waiting"]));
  const kinds = ["hands", "writing", "reading", "watching", "waiting"] as const;
  for (const { title, seconds } of steps)
    process.stdout.write(
      line(
        title,
        [totalS(seconds), ...kinds.map((kind) => seconds[kind])].map((s) => s.toFixed(1)),
      ),
    );
  const sum = (of: (step: Person["steps"][number]) => number): number => steps.reduce((all, step) => all + of(step), 0);
  const whole = sum(({ seconds }) => totalS(seconds));
  process.stdout.write(
    line(
      "in all, s",
      [whole, ...kinds.map((kind) => sum(({ seconds }) => seconds[kind]))].map((s) => s.toFixed(1)),
    ),
  );
  process.stdout.write(
    `a person's time: ${Math.floor(whole / 60)} min ${Math.round(whole % 60)} s (wanted: at most ${WANTED_S / 60} min)\n`,
  );
}

/** The athlete, with one debrief handed over, as another day left it. */
async function firstDebrief(home: string): Promise<void> {
  const desk = await openDesk(home);
  try {
    const rides = join(home, "rides", "first");
    await mkdir(rides, { recursive: true });
    const tools = testTools();
    const { ridePath, truth } = await makeDemo(
      rides,
      tools,
      { signal: new AbortController().signal, report: () => undefined },
      { small: true, seed: FIRST_SEED },
    );
    await mkdir(join(home, "athlete"));
    const entry = await desk.api.saveAthlete(desk.id(join(home, "athlete")), {
      name: truth.rider,
      events: [{ name: "Three Valleys", durationS: truth.eventS }],
      road: { targetW: truth.targetW, toleranceW: truth.toleranceW },
    });
    await desk.api.useAthlete(entry.id);
    await desk.api.addFiles([desk.id(ridePath)]);
    const { jobId } = await desk.api.handOver({
      forWhom: "athlete",
      preset: "draft",
      language: "en",
      asPercent: false,
      playingPage: false,
      slowSound: "stretched",
      agreed: [],
    });
    const job = (await desk.idle()).find(({ id }) => id === jobId);
    if (job?.state !== "done")
      throw new Error(`the first debrief was not handed over: ${JSON.stringify(job?.failure)}`);
  } finally {
    await desk.close();
  }
}

/** A demo ride with its clips as large as a camera's, telemetry kept; made once for each state of the demo's sources. */
async function cameraFiles(seed: number): Promise<string> {
  const hash = createHash("sha256").update(JSON.stringify(CAMERA));
  for (const file of readdirSync("main/demo", { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .sort())
    hash.update(readFileSync(join("main/demo", file)));
  const folder = resolve("dist", "bench-demo", `${hash.digest("hex").slice(0, 16)}-${seed}`);
  if (existsSync(folder)) return folder;
  process.stdout.write("making a ride and its footage, once; takes some minutes\n");
  await mkdir(resolve("dist", "bench-demo"), { recursive: true });
  const draft = await mkdtemp(resolve("dist", "bench-demo", "draft-"));
  const tools = testTools();
  const demo = await makeDemo(
    draft,
    tools,
    { signal: new AbortController().signal, report: () => undefined },
    { seed, telemetry: false },
  );
  for (const [k, path] of demo.clipPaths.entries()) {
    const { widthPx, heightPx, bitrate } = CAMERA;
    const clip = demo.clips[k]!;
    const large = `${path}.large.mp4`;
    execFileSync(tools.ffmpeg, [
      "-v",
      "error",
      "-y",
      "-i",
      path,
      "-map",
      "0:v",
      "-map",
      "0:a",
      "-c:a",
      "copy",
      "-c:v",
      "libx264",
      "-preset",
      "veryfast",
      "-b:v",
      bitrate,
      "-vf",
      `scale=${widthPx}:${heightPx}`,
      "-map_metadata",
      "0",
      "-timecode",
      cameraTimecode(demo.truth, clip),
      large,
    ]);
    const { format } = await probeFile(path, tools);
    const lengthS = Number(format.duration);
    await addTelemetryTrack(large, cameraTelemetry(demo.truth, clip, lengthS), PAYLOAD_S, lengthS);
    await rename(large, path);
  }
  await rename(draft, folder);
  return folder;
}

function newestFilm(folder: string): string {
  const films = readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith("film.mp4"))
    .map((name) => join(folder, name));
  return films.sort((a, b) => statSync(b).mtimeMs - statSync(a).mtimeMs)[0]!;
}
