// The map beside another ride: the stretch that both rode, its place as a ring, nothing where a position is kept back.
import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { routePath } from "../../../overlay/instant/routePath.ts";
import { routeMap } from "../../../overlay/panels/paintRoute.ts";
import { bandPixels, paintedBand, sampleLayout } from "../support/paintedBand.ts";
import { byTime, earlierRide } from "../support/rideBeside.ts";
import { sampleRide } from "../support/sampleRide.ts";
import { testCanvas } from "../../support/canvas.ts";

const ROAD = { fromS: 4200, toS: 4399 };
const HOME = { fromS: 4290, toS: 4310 };
const panels = { panels: ["power", "route"] } as const;

/** Marks the pixels of the map with both rides where they are said to be. */
function drawn(rideS: number | null, spotS: number | null, columns = sampleRide()): string {
  const layout = sampleLayout(columns, 1280, 720, panels);
  const place = layout.panels.find(({ name }) => name === "route")!;
  const { context } = testCanvas(layout.band.width, layout.band.height);
  routeMap(place, layout, routePath(columns)!).draw(context, rideS, { name: "16 May", road: ROAD, spotS });
  const { data } = context.getImageData(0, 0, layout.band.width, layout.band.height);
  return createHash("sha256").update(data).digest("hex");
}

test("the other's place is a mark of its own, also where both are at one spot", () => {
  expect(drawn(4344, 4250)).not.toEqual(drawn(4344, null));
  expect(drawn(4344, 4344)).not.toEqual(drawn(4344, null));
  expect(drawn(null, 4250)).not.toEqual(drawn(4250, null));
});

test("off the road that both rode, and where the position is not known, no mark stands", () => {
  for (const away of [ROAD.fromS - 1, ROAD.toS + 1]) expect(drawn(4344, away)).toEqual(drawn(4344, null));
  const gone = sampleRide();
  gone.latDeg!.fill(Number.NaN, 4360, 4364);
  expect(drawn(4344, 4362, gone)).toEqual(drawn(4344, null, gone));
});

test("what a home hides is hidden for both rides", () => {
  const hidden = sampleRide();
  for (const column of [hidden.latDeg!, hidden.lonDeg!]) column.fill(Number.NaN, HOME.fromS, HOME.toS);
  for (let s = HOME.fromS; s < HOME.toS; s += 5) {
    expect(drawn(4344, s, hidden)).toEqual(drawn(4344, null, hidden));
    // What is ridden ends before it, and no disc stands there.
    expect(drawn(s, 4344, hidden)).toEqual(drawn(HOME.fromS, 4344, hidden));
  }
});

test("a ride whose road is hidden all along has a map without a line or a mark", () => {
  const hidden = sampleRide();
  for (const column of [hidden.latDeg!, hidden.lonDeg!]) column.fill(Number.NaN, 4100, 4500);
  expect(drawn(4344, 4250, hidden)).toEqual(drawn(null, null, hidden));
});

test("by time the picture has two places and two gradients, by place one; without the coach's wish none of the other's", () => {
  const columns = sampleRide();
  const layout = sampleLayout(columns, 1280, 720, { panels: ["gradient", "route"] });
  const picture = (asked: readonly ("gradient" | "route")[], timed: boolean) => {
    const band = paintedBand(layout, columns);
    const beside = { ...earlierRide(), panels: asked };
    band.paint(4344.4, {}, undefined, timed ? byTime(beside) : beside);
    return Buffer.from(bandPixels(band)).toString("base64");
  };
  const all = [
    picture([], false),
    picture(["route"], false),
    picture(["gradient"], false),
    picture(["gradient", "route"], false),
    picture(["gradient", "route"], true),
  ];
  expect(new Set(all).size).toBe(all.length);
});
