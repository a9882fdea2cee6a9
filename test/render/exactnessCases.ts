// What is filmed and cut for the matrix of frame truth (exactness.ts).
import type { Shot } from "../../main/contract/film.ts";
import type { Clip, Rational } from "../../main/contract/footage.ts";
import type { DisplayMatrix, NumberedClip } from "../support/video.ts";
import { shotOf } from "./filmFixtures.ts";

export const WIDTH = 320;
export const HEIGHT = 180;

export interface Source extends Omit<NumberedClip, "widthPx" | "heightPx" | "frames"> {
  readonly name: string;
  readonly frames?: number;
  /** Display matrix of the track: a, b, c, d, x, y. */
  readonly matrix?: DisplayMatrix;
  /** Its frames keep to no even grid. */
  readonly uneven?: true;
  /** Arguments for a copy without encoding. */
  readonly remux?: readonly string[];
}

export interface Case {
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

export const SOURCES: readonly Source[] = [
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

export const CASES: readonly Case[] = [
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
export const RIDE_SECONDS_A_SECOND = 257;
export const RIDE_OFFSET_S = 50;

function counted(clip: Clip, fromS: number, untilS: number, more: Partial<Shot> = {}): Shot {
  return shotOf(clip, fromS, untilS, { clock: { offsetS: RIDE_OFFSET_S, rate: RIDE_SECONDS_A_SECOND }, ...more });
}
