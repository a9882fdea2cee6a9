/**
 * The matrix of frame truth: every output frame shows the source frame that was asked for, and the panels of exactly
 * that frame's instant. Run on whichever ffmpeg is there: `npm run verify:ffmpeg`.
 *
 * The ride's clock runs so fast that every source frame falls into a ride second of its own, so that one wrong frame
 * changes the figures. What a frame shows is read off its pixels: the number from its blocks, the figures by comparing
 * with the painter's own pictures of this second and its neighbours. Times come from ffprobe, not from our tables.
 */
import { join } from "node:path";
import type { Clip } from "../../main/contract/footage.ts";
import type { Tools } from "../../main/contract/tools.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { panelValuesAt } from "../../overlay/instant/panelValuesAt.ts";
import { layoutFor, type LayoutOptions } from "../../overlay/layout/layout.ts";
import { createPanelPainter } from "../../overlay/panels/paintPanels.ts";
import { testCanvas } from "../support/canvas.ts";
import {
  frameNumber,
  lumaFrames,
  probeFile,
  runProgram,
  scratchFolder,
  setDisplayMatrix,
  writeNumberedClip,
} from "../support/video.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext } from "./filmFixtures.ts";
import {
  CASES,
  HEIGHT,
  RIDE_OFFSET_S,
  RIDE_SECONDS_A_SECOND,
  SOURCES,
  WIDTH,
  type Case,
  type Source,
} from "./exactnessCases.ts";
import { expectedFrames, unevenSteps } from "./expectedFrames.ts";

interface MadeSource {
  readonly clip: Clip;
  /** Presentation times of the frames that are to be seen, s, in order. */
  readonly pts: readonly number[];
  /** Number in the first of them. */
  readonly firstNumber: number;
}

export interface ExactnessResult {
  readonly name: string;
  readonly frames: number;
  readonly missingFrames: number;
  /** Frames whose source frame is not the one that the film asks for. */
  readonly wrongPictures: number;
  /** Frames whose figures are not those of their own picture's instant. */
  readonly wrongPanels: number;
  /** Pictures left out or shown twice where the rates of clip and film do not ask for it. */
  readonly unevenSteps: number;
  /** Packets that are not exactly one frame long. */
  readonly unevenPackets: number;
}

export interface ExactnessOptions {
  /** Only the cases whose name holds one of these; default: all. */
  readonly only?: readonly string[];
  readonly log?: (line: string) => void;
  /** Puts the film's clock wrong by so much, s of clip time, to see the matrix fail. */
  readonly plantedErrorS?: number;
}

/** Runs the matrix. */
export async function exactnessMatrix(tools: Tools, options: ExactnessOptions = {}): Promise<ExactnessResult[]> {
  const { only = [""], log = () => undefined, plantedErrorS = 0 } = options;
  const scratch = await scratchFolder();
  const results: ExactnessResult[] = [];
  try {
    const made = new Map<string, MadeSource>();
    for (const one of CASES.filter(({ name }) => only.some((part) => name.includes(part)))) {
      const source = SOURCES.find(({ name }) => name === one.source) as Source;
      const known = made.get(source.name) ?? (await makeSource(source, scratch.path, tools));
      made.set(source.name, known);
      const result = await runCase(one, known, source.uneven === true, plantedErrorS, scratch.path, tools);
      results.push(result);
      log(
        `${result.name}: ${result.frames} frames, ${result.wrongPictures} wrong pictures, ${result.wrongPanels} ` +
          `wrong panels, ${result.missingFrames} missing, ${result.unevenSteps} lost or doubled, ` +
          `${result.unevenPackets} uneven`,
      );
    }
  } finally {
    await scratch.remove();
  }
  return results;
}

async function makeSource(source: Source, folder: string, tools: Tools): Promise<MadeSource> {
  const name = source.name.replace(/\W/g, "-");
  let path = join(folder, `${name}.mp4`);
  await writeNumberedClip(path, { widthPx: WIDTH, heightPx: HEIGHT, frames: 120, ...source }, tools);
  if (source.remux) {
    const whole = path;
    path = join(folder, `${name}-cut.mp4`);
    await runProgram(tools.ffmpeg, ["-v", "error", ...source.remux, "-i", whole, "-c", "copy", path]);
  }
  if (source.matrix) await setDisplayMatrix(path, source.matrix);
  const clip = await probeClip(path, source.name, tools);
  const { packets, streams } = await probeFile(path, tools, true);
  const video = streams.findIndex((stream) => stream.codec_type === "video");
  const all = packets.filter((packet) => packet.stream_index === video);
  // What an edit list cuts off is read but not shown.
  const shown = all.filter((packet) => !packet.flags.includes("D"));
  return {
    clip,
    pts: shown.map((packet) => Number(packet.pts_time)).sort((a, b) => a - b),
    firstNumber: all.length - shown.length,
  };
}

async function runCase(
  one: Case,
  { clip, pts, firstNumber }: MadeSource,
  uneven: boolean,
  plantedErrorS: number,
  folder: string,
  tools: Tools,
): Promise<ExactnessResult> {
  const items = one.items(clip);
  const clock = { offsetS: RIDE_OFFSET_S + RIDE_SECONDS_A_SECOND * plantedErrorS, rate: RIDE_SECONDS_A_SECOND };
  const film = filmOf(
    clip,
    items.map((shot) => ({ ...shot, clock })),
    {
      ...(one.frameRate
        ? { frameRate: one.frameRate }
        : clip.variableRate
          ? { frameRate: { num: 30000, den: 1001 } }
          : {}),
    },
  );
  const columns = countingRide(7000);
  const layoutOptions: LayoutOptions = {
    ...layoutOptionsFor(WIDTH, HEIGHT),
    panels: ["power"],
    showThread: false,
    showPlan: false,
    headLine: false,
    scale: 1.6,
  };
  const outPath = join(folder, "out.mp4");
  const preset = { ...PRESETS.share, crf: 14 };
  const result = await renderFilm(
    { film, clips: [clip], columns, outPath, preset, layoutOptions, cacheDir: join(folder, "cache") },
    tools,
    quietContext(),
  );
  if (result.kind !== "done") throw new Error(`${one.name}: ${JSON.stringify(result)}`);

  const lumas = await lumaFrames(outPath, WIDTH, HEIGHT, tools);
  const numbers = lumas.map((luma) => frameNumber(luma, WIDTH) - firstNumber);
  const expected = expectedFrames(film, items, pts, clip.variableRate, uneven);
  const reader = panelReader(layoutOptions, columns);
  let wrongPictures = 0;
  let wrongPanels = 0;
  expected.forEach((frame, k) => {
    const luma = lumas[k];
    if (luma === undefined || frame.fading) return;
    const number = numbers[k]!;
    if (!frame.allowed.includes(number)) wrongPictures += 1;
    // The instant is that of the source frame that is really seen.
    const rideS = RIDE_OFFSET_S + RIDE_SECONDS_A_SECOND * pts[number]!;
    if (!reader.shows(luma, rideS)) wrongPanels += 1;
  });
  const { packets, streams } = await probeFile(outPath, tools, true);
  const video = streams.findIndex((stream) => stream.codec_type === "video");
  const frameS = film.frameRate.den / film.frameRate.num;
  const times = packets
    .filter((packet) => packet.stream_index === video)
    .map((packet) => Number(packet.pts_time))
    .sort((a, b) => a - b);
  const unevenPackets = times.filter((time, k) => Math.abs(time - k * frameS) > 2e-6).length;
  return {
    name: one.name,
    frames: lumas.length,
    missingFrames: Math.abs(expected.length - lumas.length),
    wrongPictures,
    wrongPanels,
    unevenSteps: unevenSteps(numbers, expected, pts.length - 1, uneven),
    unevenPackets,
  };
}

/** Tells whether a frame's figures are those of a ride time, and no neighbour's. */
function panelReader(
  options: LayoutOptions,
  columns: ReturnType<typeof countingRide>,
): { shows(luma: Uint8Array, rideS: number): boolean } {
  const layout = layoutFor(options);
  const { band } = layout;
  const place = layout.panels[0]?.rect;
  const painter = createPanelPainter(layout, { bandW: null });
  const { context } = testCanvas(band.width, band.height);
  const page = { key: "", drawnTo: 0, heights: new Float64Array(2), runs: [] };
  const known = new Map<number, Float64Array>();
  /** Brightness of the ink alone, in the panel's rectangle. */
  const inkAt = (second: number): Float64Array => {
    const before = known.get(second);
    if (before) return before;
    painter.reset();
    context.clearRect(0, 0, band.width, band.height);
    painter.paint(context, panelValuesAt(columns, second), page);
    const { data } = context.getImageData(place!.x, place!.y, place!.width, place!.height);
    const ink = Float64Array.from(
      { length: place!.width * place!.height },
      (_, k) => (data[4 * k]! * data[4 * k + 3]!) / 255,
    );
    known.set(second, ink);
    return ink;
  };
  const unlikeness = (luma: Uint8Array, ink: Float64Array): number => {
    let sum = 0;
    for (let y = 0; y < place!.height; y += 1) {
      for (let x = 0; x < place!.width; x += 1) {
        sum += Math.abs(
          luma[(band.y + place!.y + y) * WIDTH + band.x + place!.x + x]! - 16 - ink[y * place!.width + x]! * 0.86,
        );
      }
    }
    return sum;
  };
  return {
    shows(luma, rideS) {
      const second = Math.floor(rideS + 1e-6);
      const own = unlikeness(luma, inkAt(second));
      for (let away = -140; away <= 140; away += 1) {
        if (away !== 0 && second + away >= 0 && unlikeness(luma, inkAt(second + away)) <= own) return false;
      }
      return true;
    },
  };
}
