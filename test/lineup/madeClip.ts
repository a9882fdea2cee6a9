import type { Clip } from "../../main/contract/footage.ts";

/** A clip of `durationS` at 30 frames a second, as a probe would describe it, for tests of pure placing. */
export function madeClip(id: string, durationS: number, more: Partial<Clip> = {}): Clip {
  const frames = Math.round(durationS * 30);
  return {
    id,
    path: `/films/${id}.mp4`,
    fileName: `${id}.mp4`,
    bytes: 1_000_000,
    fingerprint: id,
    durationS,
    widthPx: 1280,
    heightPx: 720,
    codedWidthPx: 1280,
    codedHeightPx: 720,
    rotationDeg: 0,
    mirrored: false,
    pixelAspect: { num: 1, den: 1 },
    frameRate: { num: 30, den: 1 },
    variableRate: false,
    frames: {
      timescale: 30,
      ticks: Float64Array.from({ length: frames }, (_, k) => k),
      keyframes: Uint32Array.of(0),
      endTicks: frames,
    },
    videoCodec: "h264",
    colour: { range: "tv", primaries: null, transfer: null, matrix: null, bitDepth: 8, hdr: false },
    audio: null,
    createdUtcMs: null,
    timecode: null,
    camera: "Helmet 1",
    ...(more.camera === undefined ? { serial: "1" } : {}),
    hasTelemetry: false,
    warnings: [],
    ...more,
  };
}
