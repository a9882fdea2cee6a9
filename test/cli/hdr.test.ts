// A phone's HDR clip (HEVC, 10 bit, BT.2100) through the whole command line: an SDR film that says so, figures as drawn.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { lightInk } from "../../overlay/theme.ts";
import { runProgram } from "../support/runProgram.ts";
import { testTools } from "../support/tools.ts";

let folder = "";
const at = (name: string): string => join(folder, name);
const WIDTH = 640;
const HEIGHT = 360;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "followcar-hdr-"));
  writeFileSync(at("ride.fit"), demoRideFile(demoRide(1)));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/**
 * Signal of a grey card (18 %) and of diffuse white (203 cd/m2), shares of full: ITU-R BT.2408-7, table 1 (from memory).
 * The card at SDR is 0.41 of full by ITU-R BT.709-6's transfer; a tone curve may place it between a stop below and a stop above.
 */
const CARDS = { "arib-std-b67": { grey: 0.38, white: 0.75 }, smpte2084: { grey: 0.38, white: 0.58 } } as const;
const bt709 = (linear: number): number => (1.099 * linear ** 0.45 - 0.099) * 255;

it.each(["arib-std-b67", "smpte2084"] as const)(
  "%s",
  async (transfer) => {
    const { grey, white } = CARDS[transfer];
    const code = (share: number): number => Math.round(64 + 876 * share);
    const pixels = `geq=lum='if(lt(X\\,${WIDTH / 2})\\,${code(grey)}\\,${code(white)})':cb=512:cr=512`;
    execFileSync(testTools().ffmpeg, [
      ...[
        "-v",
        "error",
        "-f",
        "lavfi",
        "-i",
        `color=black:s=${WIDTH}x${HEIGHT}:r=25:d=2,format=yuv420p10le,${pixels}`,
        "-c:v",
        "libx265",
        "-preset",
        "ultrafast",
        "-tag:v",
        "hvc1",
      ],
      ...[
        "-x265-params",
        `log-level=none:crf=8:colorprim=bt2020:transfer=${transfer}:colormatrix=bt2020nc:range=limited`,
      ],
      ...[
        "-colorspace",
        "bt2020nc",
        "-color_primaries",
        "bt2020",
        "-color_trc",
        transfer,
        "-color_range",
        "tv",
        "-y",
        at("clip.mp4"),
      ],
    ]);
    const made = await runProgram(
      [
        "overlay",
        "ride.fit",
        "clip.mp4",
        "--anchor",
        "clip.mp4@0:00=1:32:30",
        "--preset",
        "share",
        "--size",
        "40",
        "--as-filmed",
        "--out",
        `${transfer}.mp4`,
      ],
      { cwd: folder, env: { FOLLOWCAR_CACHE: at("cache") } },
    );
    expect(made.code, made.stderr).toBe(0);

    const film = at(`${transfer}.mp4`);
    const said = JSON.parse(
      execFileSync(
        testTools().ffprobe,
        ["-v", "error", "-select_streams", "v:0", "-show_streams", "-of", "json", film],
        { encoding: "utf8" },
      ),
    ) as { streams: readonly Record<string, unknown>[] };
    expect(said.streams[0]).toMatchObject({
      pix_fmt: "yuv420p",
      color_space: "bt709",
      color_primaries: "bt709",
      color_transfer: "bt709",
      color_range: "tv",
    });
    const { width, height } = said.streams[0] as { width: number; height: number };
    const rgb = execFileSync(
      testTools().ffmpeg,
      [
        "-v",
        "error",
        "-ss",
        "1",
        "-i",
        film,
        "-frames:v",
        "1",
        "-vf",
        "scale=in_color_matrix=bt709:in_range=tv:out_range=pc,format=rgb24",
        "-f",
        "rawvideo",
        "pipe:1",
      ],
      { maxBuffer: 1e8 },
    );
    const pixel = (x: number, y: number): number[] => [...rgb.subarray(3 * (y * width + x), 3 * (y * width + x) + 3)];

    const card = pixel(Math.round(width / 4), Math.round(height / 8));
    const paper = pixel(Math.round((3 * width) / 4), Math.round(height / 8));
    for (const colour of [card, paper]) expect(Math.max(...colour) - Math.min(...colour)).toBeLessThanOrEqual(3);
    expect(card[0]).toBeGreaterThan(bt709(0.09));
    expect(card[0]).toBeLessThan(bt709(0.36));
    expect(paper[0]).toBeGreaterThan(card[0]! + 40);

    // The figures' ink, in the middle of a stroke, as the theme has it.
    const ink = [1, 3, 5].map((from) => Number.parseInt(lightInk.ink.slice(from, from + 2), 16));
    let nearest = 255;
    for (let y = Math.round(height / 2); y < height; y++) {
      for (let x = 0; x < width; x++)
        nearest = Math.min(nearest, Math.max(...pixel(x, y).map((value, c) => Math.abs(value - ink[c]!))));
    }
    expect(nearest).toBeLessThanOrEqual(3);
  },
  120_000,
);
