// The strip draws what the plan asks for: the range of heart rate, and each block with its own band.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { ReadingView } from "../../main/contract/debriefApi.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { CanvasView } from "../../renderer/look/useCanvas.ts";
import { laneNames } from "../../renderer/strip/laneNames.ts";
import { penFor } from "../../renderer/strip/stripPen.ts";
import { contrastRatio, luminanceOf } from "../overlay/support/wcag.ts";
import { stripRooms } from "../../renderer/strip/stripRooms.ts";
import { axisValues, drawHeart, drawPower, drawSpeed } from "../../renderer/strip/traceLanes.ts";

const seconds = 3600;
const span = { fromS: 0, toS: seconds };
const colours = new Proxy({}, { get: (_, name) => String(name) });
const view = { widthPx: 800, heightPx: 300, textPx: 14, colours } as unknown as CanvasView;
const rooms = stripRooms({ ...view, namesPx: 80 }, { power: true, heart: true, speed: false, footage: false });
const columns = {
  seconds,
  setting: "road",
  altitudeM: null,
  bandW: { low: 173, high: 197, target: 185 },
  power30sW: new Float64Array(seconds).fill(180),
  heartRate: { value: new Float64Array(seconds).fill(135), state: new Uint8Array(seconds) },
} as unknown as WindowColumns;
const none = { firstBpm: null, lastBpm: null, firstAtS: null, lastAtS: null, onsetS: null };
const reading = { drift: { ...none, onsetLowS: null, onsetHighS: null } } as unknown as ReadingView;

/** Every rectangle that a drawing fills in the band's colour: left, right, top, bottom. */
function bands(draw: (pen: ReturnType<typeof penFor>) => void): number[][] {
  const found: number[][] = [];
  const context = new Proxy<Record<string, unknown>>(
    { fillStyle: "" },
    {
      get: (own, name) =>
        name === "fillRect"
          ? (x: number, y: number, width: number, height: number) =>
              own["fillStyle"] === "band" && found.push([x, x + width, y, y + height])
          : name === "measureText"
            ? () => ({ width: 20 })
            : typeof own[String(name)] === "string"
              ? own[String(name)]
              : () => undefined,
      set: (own, name, value) => {
        own[String(name)] = value;
        return true;
      },
    },
  ) as unknown as CanvasRenderingContext2D;
  draw(penFor(context, view, rooms, span));
  return found;
}

/** Contrast of two colours `#rrggbb`. */
function contrast(one: string, other: string): number {
  const luminance = (hex: string): number =>
    luminanceOf(parseInt(hex.slice(1, 3), 16), parseInt(hex.slice(3, 5), 16), parseInt(hex.slice(5, 7), 16));
  return contrastRatio(luminance(one), luminance(other));
}

describe("the strip", () => {
  const x = (rideS: number) => rooms.left + (rideS / seconds) * (rooms.right - rooms.left);

  it("draws each block's own band, the plan's outside them, and none where a block rests", () => {
    const blocks = [
      { startS: 600, endS: 1200, kind: "effort" as const, lowW: 250, highW: 270 },
      { startS: 1200, endS: 1500, kind: "rest" as const, lowW: null, highW: null },
    ];
    const drawn = bands((pen) => drawPower(pen, columns, { heartBpm: null, blocks }));
    expect(drawn.map(([from, to]) => [from, to])).toEqual([
      [x(0), x(600)],
      [x(1500), x(3600)],
      [x(600), x(1200)],
    ]);
    const [before, , effort] = drawn;
    // Harder stands higher, and all of it in the lane.
    expect(effort![3]).toBeLessThan(before![2]!);
    expect(effort![2]).toBeGreaterThanOrEqual(rooms.power.top);
    expect(bands((pen) => drawPower(pen, columns, { heartBpm: null, blocks: [] }))).toHaveLength(1);
  });

  it("frames each block in an ink that is seen on every ground, and names its range", () => {
    const blocks = [
      { startS: 600, endS: 1200, kind: "effort" as const, lowW: 250, highW: 270 },
      { startS: 1200, endS: 1500, kind: "rest" as const, lowW: null, highW: null },
      { startS: 1500, endS: 2100, kind: "effort" as const, lowW: 260, highW: 290 },
    ];
    const frames: [string, number, number][] = [];
    const own: Record<string, unknown> = {};
    const context = new Proxy(own, {
      get: (_, name) =>
        name === "strokeRect"
          ? (left: number, _top: number, width: number) => frames.push([String(own["strokeStyle"]), left, left + width])
          : name === "measureText"
            ? () => ({ width: 20 })
            : () => undefined,
      set: (_, name, value) => {
        own[String(name)] = value;
        return true;
      },
    }) as unknown as CanvasRenderingContext2D;
    drawPower(penFor(context, view, rooms, span), columns, { heartBpm: null, blocks });
    expect(frames).toEqual([
      ["edge", x(600), x(1200)],
      ["edge", x(1500), x(2100)],
    ]);
    // Contrast of parts of graphics: 3:1 (WCAG 2.2, 1.4.11), against the ground, the part that does not count and the band.
    const tokens = readFileSync("renderer/look/tokens.css", "utf8");
    const pair = (name: string) => new RegExp(`--${name}: light-dark\\((#\\w+), (#\\w+)\\)`).exec(tokens)!.slice(1);
    for (const ground of ["ground", "sunk"])
      pair(ground).forEach((colour, at) =>
        expect(contrast(pair("edge")[at]!, colour), ground).toBeGreaterThanOrEqual(3),
      );
    const power = (asked: typeof blocks) =>
      laneNames(columns, { heartBpm: null, blocks: asked }, "metric").find(({ lane }) => lane === "power");
    expect(power(blocks)).toMatchObject({ more: "band 173\u2013197 W", also: "blocks 250\u2013290 W" });
    expect(power([])).toEqual({ lane: "power", said: "power", more: "band 173\u2013197 W" });
  });

  it("draws the range of heart rate that is asked for, and names it", () => {
    const asked = { heartBpm: { low: 128, high: 140 }, blocks: [] };
    const drawn = bands((pen) => drawHeart(pen, columns, reading, asked));
    expect(drawn).toHaveLength(1);
    expect(drawn[0]!.slice(0, 2)).toEqual([rooms.left, rooms.right]);
    expect(drawn[0]![2]).toBeGreaterThanOrEqual(rooms.heart.top);
    expect(drawn[0]![3]).toBeLessThanOrEqual(rooms.heart.bottom);
    expect(laneNames(columns, asked, "metric").find(({ lane }) => lane === "heart")?.more).toBe(
      "band 128\u2013140 bpm",
    );
    expect(bands((pen) => drawHeart(pen, columns, reading, { heartBpm: null, blocks: [] }))).toEqual([]);
  });
});

describe("the axis of a lane", () => {
  it("has round figures that span most of what is drawn, and no more than have room", () => {
    expect(axisValues(0, 268, 2)).toEqual([0, 200]);
    expect(axisValues(96, 163, 2)).toEqual([100, 150]);
    expect(axisValues(0, 43, 5)).toEqual([0, 20, 40]);
    expect(axisValues(0, 1000, 12)).toEqual([0, 500, 1000]);
    expect(axisValues(3.2, 3.4, 4)).toEqual([]);
  });

  it("draws speed in the units of the plan", () => {
    const speed = { value: new Float64Array(seconds).fill(12), state: new Uint8Array(seconds) };
    const said: string[] = [];
    const context = new Proxy<Record<string, unknown>>(
      {},
      {
        get: (_, name) =>
          name === "measureText"
            ? () => ({ width: 20 })
            : name === "fillText"
              ? (text: string) => said.push(text)
              : () => undefined,
        set: () => true,
      },
    ) as unknown as CanvasRenderingContext2D;
    const tall = stripRooms(
      { ...view, heightPx: 900, namesPx: 80 },
      { power: true, heart: true, speed: true, footage: false },
    );
    const pen = penFor(context, view, tall, span);
    drawSpeed(pen, { ...columns, speed }, "metric");
    expect(said.at(-1)).toBe("40");
    said.length = 0;
    drawSpeed(pen, { ...columns, speed }, "imperial");
    expect(said.at(-1)).toBe("20");
    expect(
      laneNames(columns, { heartBpm: null, blocks: [] }, "imperial").find(({ lane }) => lane === "speed")?.more,
    ).toBe("mph");
  });
});
