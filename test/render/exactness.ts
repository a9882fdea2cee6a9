/**
 * The matrix of frame truth: every output frame shows the source frame that was asked for, and the panels of exactly
 * that frame's instant. Run on whichever ffmpeg is there: `npm run verify:ffmpeg`.
 *
 * The ride's clock runs so fast that every source frame falls into a ride second of its own, so that one wrong frame
 * changes the figures. What a frame shows is read off its pixels: the number from its blocks, the figures by comparing
 * with the painter's own pictures of this second and its neighbours. Times come from ffprobe, not from our tables.
 */
import { join } from "node:path";
import type { Film, Shot } from "../../main/contract/film.ts";
import type { Clip, Rational } from "../../main/contract/footage.ts";
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
  type DisplayMatrix,
  type NumberedClip,
} from "../support/video.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext, shotOf } from "./filmFixtures.ts";

const WIDTH = 320;
const HEIGHT = 180;

interface Source extends Omit<NumberedClip, "widthPx" | "heightPx" | "frames"> {
  readonly name: string;
  readonly frames?: number;
  /** Display matrix of the track: a, b, c, d, x, y. */
  readonly matrix?: DisplayMatrix;
  /** Its frames keep to no even grid. */
  readonly uneven?: true;
  /** Arguments for a copy without encoding. */
  readonly remux?: readonly string[];
}

interface MadeSource {
  readonly clip: Clip;
  /** Presentation times of the frames that are to be seen, s, in order. */
  readonly pts: readonly number[];
  /** Number in the first of them. */
  readonly firstNumber: number;
}

interface Case {
  readonly name: string;
  readonly source: string;
  /** Of the film; default: the clip's. */
  readonly frameRate?: Rational;
  readonly items: (clip: Clip) => readonly Shot[];
}

/** What cameras, phones and editing programs write, and the time bases that cannot hold all of them. */
const RATES = ["24000/1001", "24", "25", "30000/1001", "30", "50", "60000/1001", "60", "120000/1001", "120", "240"];
const BASES = [90_000, 600, 1000, 15_360];
const onBase = (rate: string, base: number): string => `${rate} on a base of ${base}`;

/** Source 8 ms off its steps, with dropped frames and gaps of 0.4 s. */
const UNEVEN = "N*3003+mod(N*7\\,5)*180+3003*floor(N/17)+36000*gt(N\\,40)";

/** A phone's 30 frames a second: up to 4 ms off each. */
const JITTERING = "N*3000+gt(N\\,0)*(mod(N*37\\,19)-9)*40";
/** The same at 29.92, as a phone's clock may have it. */
const JITTERING_SLOW = "N*3008+gt(N\\,0)*(mod(N*37\\,19)-9)*40";

const SOURCES: readonly Source[] = [
  ...RATES.flatMap((rate) =>
    BASES.map((base) => ({ name: onBase(rate, base), rate, output: ["-video_track_timescale", String(base)] })),
  ),
  { name: "jittering", rate: "30", times: JITTERING, frames: 330 },
  { name: "jittering and slow", rate: "30", times: JITTERING_SLOW, frames: 330 },
  { name: "29.97", rate: "30000/1001" },
  { name: "23.976", rate: "24000/1001" },
  { name: "25", rate: "25" },
  { name: "50", rate: "50" },
  { name: "59.94", rate: "60000/1001" },
  { name: "60", rate: "60" },
  { name: "120", rate: "120", frames: 240 },
  { name: "variable", rate: "30000/1001", times: UNEVEN, uneven: true },
  { name: "starts late", rate: "30000/1001", output: ["-output_ts_offset", "3.7"] },
  { name: "edit list", rate: "30000/1001", sound: "sine=440:r=48000:d=4", remux: ["-ss", "0.5005"] },
  { name: "turned", rate: "30000/1001", filters: "transpose=cclock", matrix: [0, 1, -1, 0, HEIGHT, 0] },
  { name: "mirrored", rate: "30000/1001", filters: "hflip", matrix: [-1, 0, 0, 1, WIDTH, 0] },
  { name: "narrow pixels", rate: "30000/1001", filters: "scale=160:180,setsar=2/1" },
  { name: "millisecond base", rate: "30000/1001", output: ["-video_track_timescale", "1000"] },
  {
    name: "keyframe each 4",
    rate: "30000/1001",
    frames: 720,
    output: ["-g", "4", "-keyint_min", "4", "-sc_threshold", "0"],
  },
];

const atOne = (clip: Clip): Shot[] => [counted(clip, 0.9, 2.4)];

/** A shot that starts on a frame of the clip, and ends with one. */
const onFrames =
  (from: number, until: number) =>
  (clip: Clip): Shot[] => {
    const { ticks, timescale } = clip.frames;
    return [counted(clip, ticks[from]! / timescale, ticks[until]! / timescale)];
  };

const CASES: readonly Case[] = [
  ...RATES.flatMap((rate) =>
    BASES.map((base) => ({
      name: `${onBase(rate, base)}, from a frame`,
      source: onBase(rate, base),
      items: onFrames(20, 100),
    })),
  ),
  ...["jittering", "jittering and slow"].map((source) => ({
    name: `${source}, from a frame`,
    source,
    frameRate: { num: 30, den: 1 },
    items: onFrames(20, 320),
  })),
  ...[
    "29.97",
    "23.976",
    "25",
    "50",
    "59.94",
    "60",
    "120",
    "variable",
    "millisecond base",
    "edit list",
    "turned",
    "mirrored",
    "narrow pixels",
  ].map((source) => ({
    name: `${source}, cut at 0.9 s`,
    source,
    items: atOne,
  })),
  {
    name: "29.97, from its first frame to its last",
    source: "29.97",
    items: (clip) => [counted(clip, 0, clip.durationS)],
  },
  { name: "starts late, cut", source: "starts late", items: (clip) => [counted(clip, 4.5, 6)] },
  {
    name: "starts late, from its first frame",
    source: "starts late",
    items: (clip) => [counted(clip, (clip.frames.ticks[0] ?? 0) / clip.frames.timescale, 5)],
  },
  { name: "60 in a film at 29.97", source: "60", frameRate: { num: 30000, den: 1001 }, items: atOne },
  { name: "23.976 in a film at 30", source: "23.976", frameRate: { num: 30, den: 1 }, items: atOne },
  { name: "variable in a film at 25", source: "variable", frameRate: { num: 25, den: 1 }, items: atOne },
  { name: "slowed to a quarter", source: "60", items: (clip) => [counted(clip, 0.9, 1.3, { speed: 0.25 })] },
  ...[
    ["120", 600, 0.25],
    ["120", 1000, 0.25],
    ["240", 90_000, 0.125],
    ["240", 15_360, 0.125],
  ].map(([rate, base, speed]) => ({
    name: `slow motion, ${onBase(String(rate), Number(base))} at ${speed} in a film at 30`,
    source: onBase(String(rate), Number(base)),
    frameRate: { num: 30, den: 1 },
    items: (clip: Clip) => [
      counted(clip, clip.frames.ticks[21]! / clip.frames.timescale, clip.frames.ticks[81]! / clip.frames.timescale, {
        speed: Number(speed),
      }),
    ],
  })),
  { name: "slowed to 0.4", source: "29.97", items: (clip) => [counted(clip, 0.9, 1.7, { speed: 0.4 })] },
  {
    name: "frozen twice",
    source: "29.97",
    items: (clip) => [
      counted(clip, 0.9, 1.9, {
        freezes: [
          { atMediaS: 1.2, durationS: 0.51 },
          { atMediaS: 1.6, durationS: 0.3 },
        ],
      }),
    ],
  },
  { name: "twice as fast", source: "29.97", items: (clip) => [counted(clip, 0.5, 3.4, { speed: 2 })] },
  {
    name: "8 times, frozen",
    source: "29.97",
    items: (clip) => [counted(clip, 0.2, 3.6, { speed: 8, freezes: [{ atMediaS: 2, durationS: 0.4 }] })],
  },
  {
    name: "16 times, keyframes only",
    source: "keyframe each 4",
    items: (clip) => [counted(clip, 1, 23, { speed: 16 })],
  },
  {
    name: "32 times, keyframes only",
    source: "keyframe each 4",
    items: (clip) => [counted(clip, 0, 24, { speed: 32 })],
  },
  {
    name: "three shots, one crossfade",
    source: "29.97",
    items: (clip) => [counted(clip, 0.3, 1), counted(clip, 2, 2.9), counted(clip, 1.1, 2, { crossfadeS: 0.3 })],
  },
];

/** Ride seconds to a clip second: more than the frames of the fastest clip, and no multiple of any rate. */
const RIDE_SECONDS_A_SECOND = 257;
const RIDE_OFFSET_S = 50;

function counted(clip: Clip, fromS: number, untilS: number, more: Partial<Shot> = {}): Shot {
  return shotOf(clip, fromS, untilS, { clock: { offsetS: RIDE_OFFSET_S, rate: RIDE_SECONDS_A_SECOND }, ...more });
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

interface Expected {
  /** Source frames that may be seen; more than one where the instant lies in the middle between two. */
  readonly allowed: readonly number[];
  readonly fading: boolean;
  /** Source frames that a step to the next film frame passes over, at an even rate; null where the picture is held. */
  readonly step: number | null;
}

/** So far off its place may a picture stand that a clock's jitter moved, frames. */
const JITTER_FRAMES = 0.3;

/**
 * The film's frames from its definition alone: at each output instant the nearest source frame, or the last that has
 * come where each stands for several output frames; the shot's start may move to its own nearest frame. In shots of
 * keyframes the last of those that has come.
 */
function expectedFrames(
  film: Film,
  items: readonly Shot[],
  pts: readonly number[],
  variable: boolean,
  uneven: boolean,
): Expected[] {
  const frameS = film.frameRate.den / film.frameRate.num;
  const steps = pts.slice(1).map((time, k) => time - pts[k]!);
  const intervalS = uneven
    ? steps.sort((a, b) => a - b)[Math.floor(steps.length / 2)]!
    : (pts.at(-1)! - pts[0]!) / (pts.length - 1);
  const expected: Expected[] = [];
  for (const shot of items) {
    const heldS = shot.freezes.reduce((sum, freeze) => sum + freeze.durationS, 0);
    const frames = Math.round(((shot.mediaEndS - shot.mediaStartS) / shot.speed + heldS) / frameS);
    const fading = Math.round(shot.crossfadeS / frameS);
    const start = expected.length - fading;
    const stepS = frameS * shot.speed;
    for (let k = 0; k < frames; k += 1) {
      const atS = mediaAt(shot, k * frameS);
      const held = [k - 1, k, k + 1].some((near) =>
        shot.freezes.some(({ atMediaS }) => mediaAt(shot, near * frameS) === atMediaS),
      );
      const allowed: number[] = [];
      if (shot.speed >= 15) {
        const shown = pts.findLastIndex((time, index) => index % 4 === 0 && time <= atS + 2e-5);
        allowed.push(Math.max(0, shown));
      } else {
        const soonerS = Math.min(stepS, intervalS) / 2;
        const slackS = intervalS * (0.5 + (variable ? JITTER_FRAMES : 0)) + (held ? stepS / 2 : 0) + 1e-3;
        for (let n = 0; n < pts.length; n += 1) {
          const comesS = pts[n]! - soonerS;
          const goesS = (pts[n + 1] ?? Infinity) - soonerS;
          if (comesS <= atS + slackS && goesS > atS - slackS) allowed.push(n);
        }
      }
      const one = { allowed, fading: k < fading, step: held || shot.speed >= 15 ? null : stepS / intervalS };
      if (k < fading) expected[start + k] = one;
      else expected.push({ ...one, step: k === frames - 1 ? null : one.step });
    }
  }
  return expected;
}

/**
 * Steps from a picture to the next that are not one of the two whole numbers about the rates' own; where the rates are
 * the same but for a clock that runs a little fast or slow, more of them than that alone asks.
 */
function unevenSteps(
  numbers: readonly number[],
  expected: readonly Expected[],
  lastSource: number,
  uneven: boolean,
): number {
  if (uneven) return 0;
  let [odd, asked] = [0, 0];
  expected.forEach(({ step, fading }, k) => {
    if (step === null || fading || (expected[k + 1]?.fading ?? true)) return;
    const next = numbers[k + 1]!;
    // Past the clip's end its last frame stands.
    if (next >= lastSource) return;
    const made = next - numbers[k]!;
    const near = Math.round(step);
    if (near > 0 && Math.abs(step - near) < 0.02) {
      asked += Math.abs(step - near);
      if (made !== near) odd += 1;
    } else if (made < Math.floor(step) || made > Math.ceil(step)) odd += 1;
  });
  return Math.max(0, odd - Math.ceil(asked - 1e-3));
}

function mediaAt(shot: Shot, itemS: number): number {
  let atS = shot.mediaStartS;
  let leftS = itemS;
  for (const freeze of shot.freezes) {
    const untilS = (freeze.atMediaS - atS) / shot.speed;
    if (leftS <= untilS) break;
    leftS = Math.max(untilS, leftS - freeze.durationS);
    if (leftS === untilS) return freeze.atMediaS;
    leftS -= untilS;
    atS = freeze.atMediaS;
  }
  return atS + leftS * shot.speed;
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
