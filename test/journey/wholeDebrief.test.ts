// One whole debrief of the demo at small size: from ride file and clips to film and pages, its frames checked against
// the demo's own truth.
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { loadImage, createCanvas } from "@napi-rs/canvas";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Shot } from "../../main/contract/film.ts";
import { makeDemo, type Demo } from "../../main/demo/makeDemo.edge.ts";
import { debriefJourney, type DebriefOutcome } from "../../main/journey/preparedDebrief.ts";
import { stillJourney } from "../../main/journey/renderedFilm.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { debriefRequest } from "../support/debriefRequest.ts";
import { testHost, testTools } from "../support/tools.ts";

const context = { signal: new AbortController().signal, report: () => undefined };
let folder = "";
let demo: Demo;
let outcome: DebriefOutcome;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "followcar-whole-"));
  process.env.FOLLOWCAR_CACHE = join(folder, "cache");
  demo = await makeDemo(join(folder, "demo"), testTools(), context, { small: true });
  outcome = await debriefJourney(
    debriefRequest({
      paths: [...demo.clipPaths].reverse().concat(demo.ridePath),
      anchors: [demo.anchor],
      plan: { planPath: demo.planPath, targetW: null, toleranceW: null, setting: null },
      outDir: join(folder, "debrief"),
      language: "en",
    }),
    testHost(),
    context,
  );
}, 300_000);

afterAll(() => {
  delete process.env.FOLLOWCAR_CACHE;
  rmSync(folder, { recursive: true, force: true });
});

interface Stream {
  readonly codec_name: string;
  readonly width?: number;
  readonly color_space?: string;
  readonly nb_read_frames?: string;
  readonly duration: string;
}

function probed(path: string): { streams: Stream[]; format: { tags?: Record<string, string> } } {
  const args = ["-v", "error", "-count_frames", "-show_streams", "-show_format", "-of", "json", path];
  return JSON.parse(execFileSync(testTools().ffprobe, args, { encoding: "utf8", maxBuffer: 1 << 26 }));
}

async function pixels(png: Buffer): Promise<Uint8ClampedArray> {
  const image = await loadImage(png);
  const canvas = createCanvas(image.width, image.height);
  canvas.getContext("2d").drawImage(image, 0, 0);
  return canvas.getContext("2d").getImageData(0, 0, image.width, image.height).data;
}

describe("the demo's debrief", () => {
  it("puts each clip where the demo filmed it", () => {
    for (const placement of outcome.lineup.lineup.clips) {
      const clip = outcome.lineup.clips.find(({ id }) => id === placement.clipId)!;
      const truth = demo.clips[demo.clipPaths.indexOf(clip.path)]!;
      expect(placement.sure, clip.fileName).toBe(true);
      // A camera's clock counts whole seconds; the anchored clip is placed to the mark itself.
      expect(Math.abs(placement.found!.offsetS - truth.startS), clip.fileName).toBeLessThan(
        placement.inheritedFrom === null ? 0.05 : 1,
      );
    }
  });

  it("shows at least one filmed moment, none shorter than 6 s, at most six", () => {
    const shots = outcome.film.items.filter((item): item is Shot => item.type === "shot");
    expect(shots.length).toBeGreaterThanOrEqual(1);
    expect(shots.length).toBeLessThanOrEqual(6);
    for (const shot of shots)
      expect((shot.mediaEndS - shot.mediaStartS) / shot.speed).toBeGreaterThanOrEqual(6 - 1 / 29);
  });

  it("renders every frame of the film, tagged and with sound", () => {
    const film = probed(join(outcome.folder, "film.mp4"));
    const video = film.streams.find(({ codec_name }) => codec_name === "h264")!;
    const audio = film.streams.find(({ codec_name }) => codec_name === "aac")!;
    const { num, den } = outcome.film.frameRate;
    expect(Number(video.nb_read_frames)).toBe(filmClock(outcome.film).frames);
    expect(video.color_space).toBe("bt709");
    expect(Math.abs(Number(audio.duration) - (filmClock(outcome.film).frames * den) / num)).toBeLessThan(0.05);
    expect(JSON.stringify(film.format.tags ?? {})).not.toMatch(/location|bars-/);
  });

  it("shows on film what a still of the same instant shows", async () => {
    const { num, den } = outcome.film.frameRate;
    for (const [index, span] of filmClock(outcome.film).spans.entries()) {
      if (outcome.film.items[index]!.type !== "shot") continue;
      const frame = span.startFrame + Math.floor(span.frames / 3);
      const still = join(folder, "still.png");
      await stillJourney(
        { debriefPath: outcome.folder, atS: ((frame + 0.5) * den) / num, outPath: still, trustPaths: false },
        testHost(),
        context,
      );
      const shown = execFileSync(
        testTools().ffmpeg,
        [
          "-v",
          "error",
          "-i",
          join(outcome.folder, "film.mp4"),
          "-vf",
          `select=eq(n\\,${frame}),scale=in_color_matrix=bt709:in_range=tv:out_range=pc,format=rgb24`,
          "-frames:v",
          "1",
          "-f",
          "image2pipe",
          "-c:v",
          "png",
          "-",
        ],
        { maxBuffer: 1 << 26 },
      );
      const [a, b] = [await pixels(shown), await pixels(readFileSync(still))];
      expect(a.length).toBe(b.length);
      let apart = 0;
      for (let k = 0; k < a.length; k++) apart += Math.abs(a[k]! - b[k]!);
      // The draft's encoder blurs; a neighbouring second's figures or a wrong clip are far beyond this.
      expect(apart / a.length, `frame ${frame}`).toBeLessThan(6);
    }
  });

  it("writes everything it says, and nothing half-done", () => {
    for (const path of outcome.written) expect(existsSync(path), path).toBe(true);
    for (const name of [
      "debrief.json",
      "film.mp4",
      "debrief.html",
      "coach.html",
      "message.txt",
      "moments.csv",
      "moments.json",
      "captions.vtt",
      "chapters.vtt",
      "chapters.txt",
      "timeline.otio",
    ]) {
      expect(existsSync(join(outcome.folder, name)), name).toBe(true);
    }
    expect(readdirSync(outcome.folder, { recursive: true }).filter((name) => String(name).endsWith(".part"))).toEqual(
      [],
    );
  });

  it("leaves no place of the ride in any file that is handed over", () => {
    const at = outcome.read.ride.grid.position!;
    const first = at.latDeg.find((value) => Number.isFinite(value))!;
    for (const path of outcome.written.filter(
      (name) => !name.endsWith("coach.html") && !name.endsWith("debrief.json"),
    )) {
      expect(readFileSync(path).includes(first.toFixed(3)), path).toBe(false);
    }
  });
});
