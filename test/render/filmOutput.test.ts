import { existsSync, readdirSync } from "node:fs";
import { copyFile, readdir, readFile, utimes, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { CardItem, Film } from "../../main/contract/film.ts";
import type { Clip } from "../../main/contract/footage.ts";
import type { JobContext, Progress } from "../../main/contract/job.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { renderFilm, type FilmJob } from "../../main/render/renderFilm.edge.ts";
import { renderOverlay } from "../../main/render/renderOverlay.edge.ts";
import { renderStill } from "../../main/render/renderStill.edge.ts";
import { layoutFor } from "../../overlay/layout/layout.ts";
import { workText } from "../../overlay/words/workWords.ts";
import { testTools } from "../support/tools.ts";
import { frameNumber, lumaFrames, probeFile, runProgram, scratchFolder, writeNumberedClip } from "../support/video.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext, shotOf } from "./filmFixtures.ts";
import { failureSaid } from "../support/said.ts";

const tools = testTools();
let scratch: Awaited<ReturnType<typeof scratchFolder>>;
let clip: Clip;

beforeAll(async () => {
  scratch = await scratchFolder();
  const path = join(scratch.path, "clip 100% \u00fc.mp4");
  const place = ["-metadata", "location=+46.5+007.5/", "-metadata", "title=My place"];
  await writeNumberedClip(
    path,
    { widthPx: 320, heightPx: 180, frames: 150, rate: "30000/1001", sound: "sine=440:r=48000:d=6", output: place },
    tools,
  );
  clip = await probeClip(path, "c1", tools);
});

afterAll(() => scratch.remove());

const card: CardItem = {
  type: "card",
  id: "title",
  durationS: 1,
  card: { kind: "title", title: "One long climb", lines: ["Ana, 3 May"] },
  moment: null,
  why: "a test",
  commentPath: null,
  crossfadeS: 0,
};

function jobOf(film: Film, name: string, more: Partial<FilmJob> = {}): FilmJob {
  return {
    film,
    clips: [clip],
    columns: countingRide(400),
    outPath: join(scratch.path, name, "film.mp4"),
    preset: PRESETS.draft,
    layoutOptions: layoutOptionsFor(film.widthPx, film.heightPx),
    cacheDir: join(scratch.path, `${name} cache`),
    ...more,
  };
}

test("a film of card and shots is what ffprobe expects of one", async () => {
  const film = filmOf(clip, [card, shotOf(clip, 0.5, 1.7), shotOf(clip, 2, 3)]);
  const chapters = [
    { startS: 0, endS: 1, title: "Start; 50% = half" },
    { startS: 1, endS: 3.2, title: "The climb" },
  ];
  const job = jobOf(film, "probe", { chapters });
  const result = await renderFilm(job, tools, quietContext());
  if (result.kind !== "done") throw new Error(JSON.stringify(result));
  const { value } = result;
  expect(value.frames).toBe(30 + 36 + 30);
  const found = await probeFile(value.path, tools, true);
  const video = found.streams[0];
  expect(video).toMatchObject({
    codec_name: "h264",
    width: 320,
    height: 180,
    pix_fmt: "yuv420p",
    avg_frame_rate: "30000/1001",
    r_frame_rate: "30000/1001",
    color_range: "tv",
    color_space: "bt709",
    color_transfer: "bt709",
    color_primaries: "bt709",
    nb_frames: String(value.frames),
  });
  const audio = found.streams[1];
  expect(audio).toMatchObject({ codec_name: "aac", sample_rate: "48000", channels: 2 });
  // One frame; and sound against picture within 20 ms.
  expect(Math.abs(Number(video?.duration) - value.durationS)).toBeLessThan(1001 / 30000);
  expect(Math.abs(Number(audio?.start_time) - Number(video?.start_time))).toBeLessThan(0.02);
  expect(Math.abs(Number(audio?.duration) - Number(video?.duration))).toBeLessThan(0.03);
  // No place, no title of the camera's; chapters as passed.
  const bytes = await readFile(value.path);
  expect(bytes.includes("+46.5")).toBe(false);
  expect(bytes.includes("My place")).toBe(false);
  expect(found.chapters.map((chapter) => chapter.tags.title)).toEqual(chapters.map(({ title }) => title));
  // Played while it loads: the index comes before the pictures.
  expect(bytes.indexOf("moov")).toBeLessThan(bytes.indexOf("mdat"));
  expect(readdirSync(join(scratch.path, "probe"))).toEqual(["film.mp4"]);
});

test(
  "a render that is ended leaves nothing under the name, and the next one takes up its parts",
  { timeout: 180_000 },
  async () => {
    const film = filmOf(clip, [card, shotOf(clip, 0, 1), shotOf(clip, 1, 5)]);
    const job = jobOf(film, "resume", { preset: PRESETS.archive });
    const controller = new AbortController();
    const context: JobContext = { signal: controller.signal, report: ({ done }) => done > 0.4 && controller.abort() };
    expect(await renderFilm(job, tools, context)).toEqual({ kind: "cancelled" });
    expect(readdirSync(join(scratch.path, "resume"))).toEqual([]);
    const parts = await readdir(join(job.cacheDir, "parts"));
    expect(parts.length).toBeGreaterThan(0);
    expect(parts.every((name) => /^[0-9a-f]{32}\.mov$/.test(name))).toBe(true);

    const again = await renderFilm(job, tools, quietContext());
    expect(again).toMatchObject({ kind: "done", value: { partsKept: parts.length, frames: 30 + 30 + 120 } });
    const whole = await renderFilm({ ...job, cacheDir: join(scratch.path, "fresh") }, tools, quietContext());
    expect(whole).toMatchObject({ kind: "done", value: { partsKept: 0, notes: [] } });
    // What was kept is told, and on wish nothing is.
    const kept = await renderFilm(job, tools, quietContext());
    expect(kept).toMatchObject({
      value: { framesKept: 180, notes: [{ code: "parts-kept", facts: { keptS: 6.006, ofS: 6.006 } }] },
    });
    const anew = await renderFilm({ ...job, anew: true }, tools, quietContext());
    expect(anew).toMatchObject({ kind: "done", value: { partsKept: 0, framesKept: 0, notes: [] } });
    const numbers = (await lumaFrames(job.outPath, 320, 180, tools)).map((luma) => frameNumber(luma, 320));
    expect(numbers.slice(30, 60)).toEqual(Array.from({ length: 30 }, (_, k) => k));
  },
);

test("progress names what is worked on, never goes back and is whole only at the end", async () => {
  const told: Progress[] = [];
  const context: JobContext = { signal: new AbortController().signal, report: (progress) => void told.push(progress) };
  const whole = { clip, clock: { offsetS: 10, rate: 1 }, riderName: null };
  const layoutOptions = layoutOptionsFor(clip.widthPx, clip.heightPx);
  const { columns, preset, cacheDir } = jobOf(filmOf(clip, []), "told");
  await renderOverlay(
    { columns, preset, cacheDir, layoutOptions, clips: [whole], outPath: join(scratch.path, "told", "ride.mp4") },
    tools,
    context,
  );
  const steps = [...new Set(told.map(({ step }) => workText(step, "en")))];
  expect(steps).toEqual(["clip 100% \u00fc.mp4, 1 of 1", "putting the parts together", "ride.mp4"]);
  const done = told.map((one) => one.done);
  expect(done).toEqual([...done].sort((a, b) => a - b));
  expect(done.filter((share) => share === 1).length).toBeLessThanOrEqual(2);
  expect(done.at(-1)).toBe(1);

  told.length = 0;
  await renderFilm(jobOf(filmOf(clip, [card, shotOf(clip, 0, 1)]), "told too"), tools, context);
  expect([...new Set(told.map(({ step }) => workText(step, "en")))]).toEqual(
    expect.arrayContaining(["card 1 of 1", "putting the parts together"]),
  );
});

test("a changed caption renders its own part anew, and only that", async () => {
  const shots = [shotOf(clip, 0, 1), shotOf(clip, 1, 2)] as const;
  const job = jobOf(filmOf(clip, [card, ...shots]), "change");
  await renderFilm(job, tools, quietContext());
  const captioned = { ...shots[1], captions: [{ startS: 0, endS: 1, text: "Keep pressing over the top" }] };
  const changed = await renderFilm({ ...job, film: filmOf(clip, [card, shots[0], captioned]) }, tools, quietContext());
  expect(changed).toMatchObject({ kind: "done", value: { partsKept: 2 } });
});

test("a clip that was changed where its fingerprint does not look is rendered anew", async () => {
  const path = join(scratch.path, "changed.mp4");
  await copyFile(clip.path, path);
  const changing = { ...clip, path };
  const job = { ...jobOf(filmOf(changing, [shotOf(changing, 0, 1)]), "changed"), clips: [changing] };
  await renderFilm(job, tools, quietContext());
  expect(await renderFilm(job, tools, quietContext())).toMatchObject({ kind: "done", value: { partsKept: 1 } });
  await utimes(path, new Date(), new Date(Date.now() - 60_000));
  expect(await renderFilm(job, tools, quietContext())).toMatchObject({ kind: "done", value: { partsKept: 0 } });
});

test("outputs that cannot be written, and clips that are gone, are told before any work", async () => {
  const film = filmOf(clip, [shotOf(clip, 0, 1)]);
  const file = join(scratch.path, "a file");
  await writeFile(file, "");
  const onFile = await renderFilm(jobOf(film, "x", { outPath: join(file, "film.mp4") }), tools, quietContext());
  expect(onFile).toMatchObject({ kind: "failed", failure: { code: "output-not-writable" } });
  const gone = await renderFilm(
    { ...jobOf(film, "y"), clips: [{ ...clip, path: join(scratch.path, "gone.mp4") }] },
    tools,
    quietContext(),
  );
  expect(gone).toMatchObject({ kind: "failed", failure: { code: "file-unreadable" } });
  const unknown = await renderFilm({ ...jobOf(film, "z"), clips: [] }, tools, quietContext());
  expect(unknown).toMatchObject({ kind: "failed", failure: { code: "debrief-not-usable" } });
  const nothing = await renderFilm(jobOf(filmOf(clip, []), "n"), tools, quietContext());
  expect(nothing).toMatchObject({ kind: "failed", failure: { code: "debrief-not-usable" } });
});

test("a full disk is told with what is free and what is needed", async () => {
  const endless = filmOf(clip, [{ ...card, durationS: 3600 * 24 * 365 }], { widthPx: 3840, heightPx: 2160 });
  const result = await renderFilm(jobOf(endless, "full"), tools, quietContext());
  expect(result).toMatchObject({ kind: "failed", failure: { code: "disk-full" } });
  if (result.kind === "failed")
    expect(failureSaid(result.failure).sentence).toMatch(/ GB free; about [\d.]+ GB are needed/);
});

test("a clip that ends before it should is told by name", async () => {
  const path = join(scratch.path, "cut short.mp4");
  const whole = await readFile(clip.path);
  // The index stands at the end of what the encoder wrote: without it nothing can be decoded.
  await writeFile(path, whole.subarray(0, whole.length / 3));
  const result = await renderFilm(
    { ...jobOf(filmOf(clip, [shotOf(clip, 1, 2)]), "short"), clips: [{ ...clip, path, fileName: "cut short.mp4" }] },
    tools,
    quietContext(),
  );
  expect(result).toMatchObject({ kind: "failed", failure: { code: "tool-failed" } });
  if (result.kind === "failed") expect(failureSaid(result.failure).sentence).toContain("cut short.mp4");
  expect(existsSync(join(scratch.path, "short", "film.mp4"))).toBe(false);
});

/** Luma of a still as the film carries it. */
function stillLuma(path: string): Promise<Uint8Array> {
  return runProgram(tools.ffmpeg, [
    ...["-v", "error", "-f", "png_pipe", "-i", path],
    ...["-vf", "scale=out_color_matrix=bt709:out_range=tv,format=yuv420p,extractplanes=y"],
    ...["-f", "rawvideo", "-pix_fmt", "gray", "pipe:1"],
  ]);
}

test("a still is the film's own frame, in a crossfade too", async () => {
  const film = filmOf(clip, [shotOf(clip, 0, 1.5), shotOf(clip, 2, 3.5, { crossfadeS: 0.5 })]);
  const job = jobOf(film, "still", { preset: { ...PRESETS.share, crf: 8 } });
  const rendered = await renderFilm(job, tools, quietContext());
  expect(rendered.kind).toBe("done");
  const frames = await lumaFrames(job.outPath, 320, 180, tools);
  for (const atS of [0.7, 1.2, 2]) {
    const outPath = join(scratch.path, "still", `at ${atS} %d.png`);
    const still = await renderStill({ ...job, atS, outPath }, tools, quietContext());
    if (still.kind !== "done") throw new Error(JSON.stringify(still));
    const picture = await stillLuma(outPath);
    const luma = frames[still.value.frame]!;
    const meanOff = picture.reduce((sum, value, k) => sum + Math.abs(value - luma[k]!), 0) / picture.length;
    expect(meanOff).toBeLessThan(2);
  }
});

test("a still shows the frame and the figures of the film in fast shots", { timeout: 240_000 }, async () => {
  const clock = { offsetS: 50, rate: 257 };
  const film = filmOf(clip, [
    shotOf(clip, 0.5, 4.5, { speed: 4, clock }),
    shotOf(clip, 0.2, 4.6, { speed: 16, clock }),
  ]);
  const columns = countingRide(1600);
  const layoutOptions = { ...layoutOptionsFor(320, 180), panels: ["power" as const], showThread: false, scale: 1.6 };
  const job = jobOf(film, "still fast", { preset: { ...PRESETS.share, crf: 8 }, columns, layoutOptions });
  expect((await renderFilm(job, tools, quietContext())).kind).toBe("done");
  const frames = await lumaFrames(job.outPath, 320, 180, tools);
  const { band, panels } = layoutFor(layoutOptions);
  const { x, y, width, height } = panels[0]!.rect;
  /** How far two frames differ where the figures stand, levels. */
  const unlike = (a: Uint8Array, b: Uint8Array): number => {
    let sum = 0;
    for (let row = band.y + y; row < band.y + y + height; row += 1)
      for (let k = 320 * row + band.x + x; k < 320 * row + band.x + x + width; k += 1) sum += Math.abs(a[k]! - b[k]!);
    return sum / (width * height);
  };
  for (const atS of [0.53, 1.2]) {
    const outPath = join(scratch.path, "still fast", `at ${atS}.png`);
    const still = await renderStill({ ...job, atS, outPath }, tools, quietContext());
    if (still.kind !== "done") throw new Error(JSON.stringify(still));
    const picture = await stillLuma(outPath);
    const own = frames[still.value.frame]!;
    expect(frameNumber(picture, 320), `${atS}`).toBe(frameNumber(own, 320));
    // Whole frames away the figures are others; what is left between a still and its frame is the encoder's.
    expect(unlike(frames[still.value.frame - 2]!, own), `${atS}`).toBeGreaterThan(3);
    expect(unlike(picture, own), `${atS}`).toBeLessThan(1.5);
  }
});

test("a transparent track has the clip's size, rate and length, and is clear where nothing is drawn", async () => {
  const clips = [{ clip, clock: { offsetS: 100, rate: 1 }, riderName: null }];
  for (const [transparent, codec] of [
    ["animation", "qtrle"],
    ["prores", "prores"],
  ] as const) {
    const outPath = join(scratch.path, "alpha", `${transparent}.mov`);
    const job = {
      clips,
      columns: countingRide(400),
      preset: PRESETS.share,
      layoutOptions: layoutOptionsFor(320, 180),
      cacheDir: join(scratch.path, "alpha cache"),
      outPath,
      transparent,
    };
    const result = await renderOverlay(job, tools, quietContext());
    expect(result).toMatchObject({ kind: "done", value: { frames: 150 } });
    const { streams } = await probeFile(outPath, tools);
    expect(streams).toHaveLength(1);
    expect(streams[0]).toMatchObject({
      codec_name: codec,
      width: 320,
      height: 180,
      avg_frame_rate: "30000/1001",
      nb_frames: "150",
    });
    const alpha = await runProgram(tools.ffmpeg, [
      "-v",
      "error",
      "-i",
      outPath,
      "-vf",
      "format=rgba,alphaextract",
      "-frames:v",
      "1",
      "-f",
      "rawvideo",
      "-pix_fmt",
      "gray",
      "pipe:1",
    ]);
    expect(alpha.subarray(0, 320 * 60).every((value) => value === 0)).toBe(true);
    expect(Math.max(...alpha)).toBeGreaterThan(250);
  }
});
