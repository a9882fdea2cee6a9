/** Colour truth, ITU-R BT.709-6: what is drawn comes out within 3 of 255, over clips of any range, matrix and depth. */
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { convertToYuva420p, emptyYuva420p } from "../../main/render/convertToYuva420p.ts";
import { ffmpegArguments } from "../../main/host/ffmpegArguments.edge.ts";
import { missingFilters } from "../../main/host/ffmpegFacts.edge.ts";
import { matroskaHeader, matroskaPictureHead } from "../../main/render/matroskaStream.ts";
import { partGraph } from "../../main/render/partGraph.ts";
import { hdrFilters } from "../../main/render/pictureFilters.ts";
import { runFfmpeg } from "../../main/render/runFfmpeg.edge.ts";
import { shotFrames } from "../../main/render/shotFrames.ts";
import { testTools } from "../support/tools.ts";
import { runProgram, scratchFolder } from "../support/video.ts";
import { filmOf, shotOf } from "./filmFixtures.ts";

const tools = testTools();
let scratch: Awaited<ReturnType<typeof scratchFolder>>;

beforeAll(async () => {
  scratch = await scratchFolder();
});
afterAll(() => scratch.remove());

type Rgb = readonly [number, number, number];

/** The road's colour in every test clip. */
const GROUND: Rgb = [96, 120, 72];
const PATCHES: readonly Rgb[] = [
  [255, 255, 255],
  [0, 0, 0],
  [230, 159, 0],
  [86, 180, 233],
  [200, 40, 60],
  [18, 24, 29],
];
const PATCH_PX = 32;
const WIDTH = 384;
const HEIGHT = 128;

interface Variant {
  readonly name: string;
  readonly filter: string;
  readonly options: readonly string[];
}

const tags = (matrix: string, range: string): string[] => [
  "-colorspace",
  matrix,
  "-color_primaries",
  "bt709",
  "-color_trc",
  "bt709",
  "-color_range",
  range,
];

const VARIANTS: readonly Variant[] = [
  { name: "limited", filter: "scale=out_color_matrix=bt709:out_range=tv,format=yuv420p", options: tags("bt709", "tv") },
  {
    name: "untagged",
    filter: "scale=out_color_matrix=bt709:out_range=tv,format=yuv420p,setparams=range=unknown:colorspace=unknown",
    options: [],
  },
  {
    name: "full range",
    filter: "scale=out_color_matrix=bt709:out_range=pc,format=yuvj420p",
    options: tags("bt709", "pc"),
  },
  {
    name: "BT.601",
    filter: "scale=out_color_matrix=smpte170m:out_range=tv,format=yuv420p",
    options: tags("smpte170m", "tv"),
  },
  {
    name: "10 bit",
    filter: "scale=out_color_matrix=bt709:out_range=tv,format=yuv420p10le",
    options: tags("bt709", "tv"),
  },
];

test.each(VARIANTS)(
  "panels and picture keep their colours over a clip that is $name",
  async ({ name, filter, options }) => {
    const path = join(scratch.path, `${name}.mp4`);
    const hex = GROUND.map((value) => value.toString(16).padStart(2, "0")).join("");
    await runProgram(tools.ffmpeg, [
      ...[
        "-v",
        "error",
        "-f",
        "lavfi",
        "-i",
        `color=0x${hex}:s=${WIDTH}x${HEIGHT}:r=25:d=1,format=rgb24`,
        "-vf",
        filter,
      ],
      ...["-c:v", "libx264", "-qp", "0", "-preset", "ultrafast", ...options, path],
    ]);
    const rgb = await overPatches(path);
    expect(far(pixel(rgb, WIDTH - 8, HEIGHT - 8), GROUND)).toBeLessThanOrEqual(3);
    PATCHES.forEach((patch, k) => {
      const x = k * PATCH_PX + PATCH_PX / 2;
      expect(far(pixel(rgb, x, PATCH_PX / 2), patch)).toBeLessThanOrEqual(3);
      const half = patch.map((value, c) => (value * 128 + GROUND[c]! * 127) / 255) as unknown as Rgb;
      expect(far(pixel(rgb, x, PATCH_PX + PATCH_PX / 2), half)).toBeLessThanOrEqual(3);
    });
  },
);

test.each(["smpte2084", "arib-std-b67"])(
  "an HDR clip (%s) comes out as tagged SDR, white near white and black near black",
  async (transfer) => {
    expect(await missingFilters(tools, hdrFilters)).toEqual([]);
    const path = join(scratch.path, `${transfer}.mp4`);
    // Code values of 10-bit BT.2100: diffuse white 203 cd/m2 is 0.58 of full in PQ and 0.75 in HLG (ITU-R BT.2408-7, table 1).
    const white = transfer === "smpte2084" ? 0.58 : 0.75;
    const luma = Math.round(64 + 876 * white);
    await runProgram(tools.ffmpeg, [
      ...[
        "-v",
        "error",
        "-f",
        "lavfi",
        "-i",
        `color=black:s=${WIDTH}x${HEIGHT}:r=25:d=1,format=yuv420p10le,geq=lum='if(gt(Y\\,64)\\,${luma}\\,64)':cb=512:cr=512`,
      ],
      ...[
        "-c:v",
        "libx264",
        "-qp",
        "0",
        "-preset",
        "ultrafast",
        "-colorspace",
        "bt2020nc",
        "-color_primaries",
        "bt2020",
        "-color_trc",
        transfer,
        "-color_range",
        "tv",
        path,
      ],
    ]);
    const rgb = await overPatches(path);
    PATCHES.forEach((patch, k) => expect(far(pixel(rgb, k * PATCH_PX + 16, 16), patch)).toBeLessThanOrEqual(3));
    const bright = pixel(rgb, WIDTH - 8, HEIGHT - 8);
    const dark = pixel(rgb, WIDTH - 8, 40);
    expect(Math.min(...bright)).toBeGreaterThan(150);
    expect(Math.max(...bright) - Math.min(...bright)).toBeLessThanOrEqual(3);
    expect(Math.max(...dark)).toBeLessThan(12);
  },
);

test("an edge to clear has the ink's own colour: no dark or light rim", () => {
  const picture = emptyYuva420p(4, 2);
  const rgba = new Uint8ClampedArray(4 * 2 * 4);
  rgba.set([230, 159, 0, 255], 0);
  convertToYuva420p(rgba, { x: 0, y: 0, width: 4, height: 2 }, picture);
  // One opaque pixel of four: chroma is that pixel's. BT.709: Cb = 0.5389 (B - Y), Cr = 0.6350 (R - Y), each over 255, times 224.
  const y = 0.2126 * 230 + 0.7152 * 159;
  expect(picture.u[0]).toBeCloseTo(128 + ((0 - y) / 1.8556 / 255) * 224, -0.3);
  expect(picture.v[0]).toBeCloseTo(128 + ((230 - y) / 1.5748 / 255) * 224, -0.3);
  expect(picture.a.slice(0, 2)).toEqual(Uint8Array.from([255, 0]));
});

/** Lays the patches, opaque and at 128 of 255 beneath, over a clip by the film's own path; one frame as RGB. */
async function overPatches(path: string): Promise<Buffer> {
  const clip = await probeClip(path, "c1", tools);
  const film = filmOf(clip, [shotOf(clip, 0, 0.4)]);
  const part = { startFrame: 0, frames: 10, pieces: [{ item: 0, firstFrame: 0, frames: 10, crossfadeFrames: 0 }] };
  const piece = part.pieces[0]!;
  const shot = film.items[0] as ReturnType<typeof shotOf>;
  const { timing } = shotFrames(shot, clip, film.frameRate, 0, 10);
  const graph = partGraph({
    part,
    film,
    pieces: [{ piece, source: { kind: "shot", shot, clip, timing, covers: [] }, comment: null }],
    fit: "pad",
    margin: "#000000",
    panels: { x: 0, y: 0 },
    drawings: null,
    sound: null,
  });
  const out = join(scratch.path, "out.mkv");
  const width = PATCHES.length * PATCH_PX;
  const picture = emptyYuva420p(width, 2 * PATCH_PX);
  const rgba = new Uint8ClampedArray(width * 2 * PATCH_PX * 4);
  for (let k = 0; k < rgba.length / 4; k += 1) {
    const patch = PATCHES[Math.floor((k % width) / PATCH_PX)]!;
    rgba.set([...patch, k < width * PATCH_PX ? 255 : 128], 4 * k);
  }
  convertToYuva420p(rgba, { x: 0, y: 0, width, height: 2 * PATCH_PX }, picture);
  await runFfmpeg({
    ffmpeg: tools.ffmpeg,
    args: ffmpegArguments({
      inputs: graph.inputs,
      filterGraph: graph.filterGraph,
      outputOptions: ["-map", `[${graph.videoLabel}]`, "-c:v", "ffv1", "-f", "matroska"],
      output: out,
    }),
    subject: { kind: "card" },
    signal: new AbortController().signal,
    feed: async (stdin) => {
      const pieces = [0, 1e11].flatMap((timeUs) => [matroskaPictureHead(timeUs, picture.bytes.length), picture.bytes]);
      for (const piece of [matroskaHeader(width, 2 * PATCH_PX, "yuva420p"), ...pieces]) {
        await new Promise((written) => stdin.write(piece, written));
      }
    },
  });
  return runProgram(tools.ffmpeg, [
    "-v",
    "error",
    "-i",
    out,
    "-frames:v",
    "1",
    "-vf",
    "scale=in_color_matrix=bt709:in_range=tv:out_range=pc,format=rgb24",
    "-f",
    "rawvideo",
    "pipe:1",
  ]);
}

function pixel(rgb: Buffer, x: number, y: number): Rgb {
  const at = 3 * (y * WIDTH + x);
  return [rgb[at]!, rgb[at + 1]!, rgb[at + 2]!];
}

function far(a: Rgb, b: Rgb): number {
  return Math.max(...a.map((value, c) => Math.abs(value - b[c]!)));
}
