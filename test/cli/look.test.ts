// The look by the command line: every option is seen in the picture, a wrong value is refused in one sentence, and what
// a debrief was told stays with it while a later render may differ once.
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { loadImage } from "@napi-rs/canvas";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { darkInk, lightInk } from "../../overlay/theme.ts";
import { testCanvas } from "../support/canvas.ts";
import { runProgram, type ProgramRun } from "../support/runProgram.ts";
import { testTools } from "../support/tools.ts";

let folder = "";
const at = (name: string) => join(folder, name);
const run = (...args: string[]): Promise<ProgramRun> =>
  runProgram(args, { cwd: folder, env: { FOLLOWCAR_CACHE: at("cache") } });
const CLIPS = ["ride.fit", "clip.mp4", "--anchor", "clip.mp4@0:01=1:32:30", "--target", "162", "--tolerance", "12"];
const GREEN = "#4a7a3a";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "followcar-look-"));
  writeFileSync(at("ride.fit"), demoRideFile(demoRide(1)));
  execFileSync(testTools().ffmpeg, [
    "-v",
    "error",
    "-f",
    "lavfi",
    "-i",
    `color=${GREEN}:size=640x360:rate=25:duration=120`,
    "-c:v",
    "libx264",
    "-preset",
    "ultrafast",
    "-pix_fmt",
    "yuv420p",
    "-y",
    at("clip.mp4"),
  ]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("a wrong value is refused before anything is done", () => {
  it.each([
    ["--panels", "power,watts", "watts"],
    ["--panels", "power,,time", "a name is missing"],
    ["--place", "middle", "bottom, top, left, right"],
    ["--scale", "3", "0.6 to 1.6"],
    ["--scale", "big", "0.6 to 1.6"],
    ["--ink", "red", "light, dark"],
    ["--units", "miles", "metric, imperial"],
    ["--shape", "4:3", "16:9, 9:16, 1:1"],
    ["--fit", "stretch", "crop, pad"],
    ["--plan-band", "yes", "on, off"],
    ["--thread", "maybe", "on, off"],
    ["--size", "0", "1 to 100000"],
    ["--encoder", "av1", "auto, x264, hevc, hardware"],
    ["--preset", "tiny", "draft, share, phone, archive"],
    ["--out", "film.txt", "film.mp4"],
  ])("%s %s", async (option, value, says) => {
    const refused = await run("render", "nowhere", option, value);
    expect(refused.code, refused.stderr).toBe(2);
    expect(refused.stderr).toContain(`${option} ${value}`);
    expect(refused.stderr).toContain(says);
    expect(refused.stderr.trim().split("\n").length).toBeLessThanOrEqual(2);
  });

  it.each([
    [["--as-filmed", "--shape", "1:1", "--out", "a.mp4"], "two different things"],
    [["--transparent", "--out", "a.mp4"], "a.mov"],
    [["--out", "a.mov"], "a.mp4"],
    [["--transparent", "--out", "a.mov", "--shape", "1:1"], "--shape changes nothing"],
    [["--transparent", "--out", "a.mov", "--size", "5"], "--size changes nothing"],
    [["--codec", "prores", "--out", "a.mp4"], "--transparent"],
  ])("overlay %j", async (args, says) => {
    const refused = await run("overlay", ...CLIPS, ...args);
    expect(refused.code, refused.stderr).toBe(2);
    expect(refused.stderr).toContain(says);
    expect(existsSync(at("a.mp4")) || existsSync(at("a.mov"))).toBe(false);
  });

  it("a still that is no PNG", async () => {
    const refused = await run("still", "nowhere", "--at", "1", "--out", "a.jpg");
    expect(refused.code).toBe(2);
    expect(refused.stderr).toContain("a.png");
  });
});

describe("a debrief's look", () => {
  const still = async (name: string, atS: string, ...options: string[]) => {
    const made = await run("still", "kept", "--at", atS, "--out", name, ...options);
    expect(made.code, made.stderr).toBe(0);
    return pictureOf(at(name));
  };
  const kept = () =>
    JSON.parse(readFileSync(at("kept/debrief.json"), "utf8")) as {
      settings: { look: unknown; preset: string };
      film: { items: { type: string; durationS?: number }[] };
    };

  it("is kept by the debrief, followed by a later render, and differs only when asked", async () => {
    const made = await run(
      "debrief",
      ...CLIPS,
      "--out",
      "kept",
      "--length",
      "60",
      "--preset",
      "draft",
      "--shape",
      "1:1",
      "--fit",
      "pad",
      "--ink",
      "dark",
      "--place",
      "top",
      "--panels",
      "power,time",
      "--units",
      "imperial",
      "--thread",
      "off",
      "--plan-band",
      "off",
      "--scale",
      "1.2",
    );
    expect(made.code, made.stderr).toBe(0);
    const look = {
      shape: "1:1",
      fit: "pad",
      ink: "dark",
      place: "top",
      panels: ["power", "time"],
      units: "imperial",
      showThread: false,
      showPlan: false,
      scale: 1.2,
    };
    expect(kept().settings).toMatchObject({ look, preset: "draft" });
    expect(sizeOf(at("kept/film.mp4"))).toEqual([360, 360]);

    // The first card is on paper, as dark ink has it.
    expect(far((await still("own.png", "1")).at(4, 4), darkInk.ground)).toBeLessThanOrEqual(3);
    expect(far((await still("once.png", "1", "--ink", "light")).at(4, 4), lightInk.ground)).toBeLessThanOrEqual(3);

    const again = await run("render", "kept", "--preset", "share", "--shape", "9:16", "--out", "again.mp4");
    expect(again.code, again.stderr).toBe(0);
    expect(sizeOf(at("again.mp4"))).toEqual([720, 1280]);
    expect(kept().settings).toMatchObject({ look, preset: "draft" });
    const same = await run("render", "kept", "--out", "same.mp4");
    expect(same.code, same.stderr).toBe(0);
    expect(sizeOf(at("same.mp4"))).toEqual([360, 360]);

    // Padded, with numbers at the top: margin of the ink's own kind below, footage in the middle, ink above.
    const { items } = kept().film;
    const shot = items.findIndex(({ type }) => type === "shot");
    const shotS = items.slice(0, shot).reduce((sum, { durationS }) => sum + (durationS ?? 0), 0) + 2;
    expect(shot).toBeGreaterThanOrEqual(0);
    const padded = await still("padded.png", String(shotS));
    expect(far(padded.at(180, 350), darkInk.margin)).toBeLessThanOrEqual(4);
    expect(far(padded.at(180, 200), GREEN)).toBeLessThanOrEqual(24);
    expect(padded.dark(0, 0, 360, 80)).toBeGreaterThan(200);
    expect(padded.dark(0, 290, 360, 70)).toBe(0);

    // Filled: footage down to the lower edge. On the left the numbers are there, and not at the right.
    const filled = await still("filled.png", String(shotS), "--fit", "crop");
    expect(far(filled.at(180, 350), GREEN)).toBeLessThanOrEqual(24);
    const left = await still("left.png", String(shotS), "--place", "left", "--as-filmed");
    expect([left.width, left.height]).toEqual([640, 360]);
    expect(left.dark(0, 0, 220, 360)).toBeGreaterThan(200);
    expect(left.dark(420, 0, 220, 360)).toBe(0);
    const bare = await still("bare.png", String(shotS), "--panels", "none");
    // The caption alone is left, and moves up.
    expect(bare.dark(0, 0, 360, 150)).toBeLessThan(padded.dark(0, 0, 360, 150) - 400);
  }, 300_000);

  it("an overlay takes the same options; hardware that is not there is said and x264 used", async () => {
    const made = await run(
      "overlay",
      ...CLIPS,
      "--preset",
      "draft",
      "--panels",
      "power",
      "--place",
      "top",
      "--encoder",
      "hardware",
      "--shape",
      "9:16",
      "--out",
      "over.mp4",
    );
    expect(made.code, made.stderr).toBe(0);
    expect(sizeOf(at("over.mp4"))).toEqual([360, 640]);
    // A machine that has such an encoder says nothing.
    if (made.stderr.includes("does not work here")) {
      expect(made.stderr).toContain("The encoder h264_nvenc does not work here.");
      expect(made.stderr).toContain("libx264 is used instead.");
    }
  }, 60_000);
});

type Bytes = readonly [number, number, number];

interface Picture {
  readonly width: number;
  readonly height: number;
  at(x: number, y: number): Bytes;
  /** Pixels of near full dark ink in a rectangle. */
  dark(x: number, y: number, width: number, height: number): number;
}

async function pictureOf(path: string): Promise<Picture> {
  const image = await loadImage(readFileSync(path));
  const { width, height } = image;
  const { context } = testCanvas(width, height);
  context.drawImage(image, 0, 0);
  const { data } = context.getImageData(0, 0, width, height);
  const pixel = (x: number, y: number): Bytes =>
    [0, 1, 2].map((c) => data[4 * (y * width + x) + c]) as unknown as Bytes;
  return {
    width,
    height,
    at: pixel,
    dark(x, y, wide, high) {
      let count = 0;
      for (let row = y; row < y + high; row += 1)
        for (let column = x; column < x + wide; column += 1) if (Math.max(...pixel(column, row)) < 45) count += 1;
      return count;
    },
  };
}

function far(bytes: Bytes, hex: string): number {
  return Math.max(...bytes.map((byte, c) => Math.abs(byte - Number.parseInt(hex.slice(1 + 2 * c, 3 + 2 * c), 16))));
}

function sizeOf(path: string): number[] {
  const said = execFileSync(
    testTools().ffprobe,
    ["-v", "error", "-select_streams", "v:0", "-show_entries", "stream=width,height", "-of", "csv=p=0", path],
    { encoding: "utf8" },
  );
  return said.trim().split(",").map(Number);
}
