import type { Surface } from "../../../overlay/surface.ts";
import type { Course } from "../course.ts";
import { noise1 } from "./hashNoise.ts";
import { FIELD_M, inWood } from "./land.ts";
import { paintBike } from "./paintBike.ts";
import { paintCrossing } from "./paintCrossing.ts";
import { paintDashes, paintSlice, paintTexture } from "./paintGround.ts";
import { paintRoadside } from "./roadside.ts";
import { paintSky, paintSkyShades } from "./paintSky.ts";
import { viewAt, type Picture, type SceneInstant } from "./view.ts";

const NEAREST_M = 0.9;
const FARTHEST_M = 300;

/**
 * Paints the road as the rider's camera sees it at one instant; nothing but the arguments decides a pixel.
 *
 * It covers the whole picture, whatever was on the surface before.
 */
export function paintScene(surface: Surface, road: Course, at: SceneInstant, picture: Picture): void {
  const view = viewAt(surface, road, at, picture);
  const { widthPx, heightPx } = picture;
  paintSkyShades(view);
  surface.save();
  surface.translate(widthPx / 2, heightPx * 0.55);
  surface.rotate(view.rollRad);
  surface.translate(-widthPx / 2, -heightPx * 0.55);
  paintSky(view);
  const cuts = slices(at.distanceM);
  // What stands in a slice is painted after the ground of the next nearer one, which reaches a little into it.
  const fill = (i: number): void => {
    const [fromM, toM] = [cuts[i]!, cuts[i + 1]!];
    paintTexture(view, fromM, toM);
    paintDashes(view, fromM, toM);
    paintCrossing(view, fromM, toM);
    paintRoadside(view, fromM, toM);
  };
  const last = cuts.length - 2;
  for (let i = last; i >= 0; i--) {
    paintSlice(view, cuts[i]!, cuts[i + 1]!);
    if (i < last) fill(i + 1);
  }
  fill(0);
  surface.restore();
  // Cloud shadow and the shade of woods.
  const cloud = Math.max(0, noise1(at.distanceM / 160 + at.rideS / 40, 99) - 0.45) * 0.34;
  const shade = cloud + (inWood(road, at.distanceM + 6) ? 0.1 + 0.14 * noise1(at.distanceM / 4.5, 98) : 0);
  if (shade > 0.004) {
    surface.fillStyle = `rgba(16,26,34,${shade.toFixed(3)})`;
    surface.fillRect(0, 0, widthPx, heightPx);
  }
  paintBike(view);
}

/** Where the land is cut into slices, m ahead: finer near by, and at every field's border. */
function slices(distanceM: number): number[] {
  const cuts: number[] = [];
  for (let m = NEAREST_M; m < FARTHEST_M; m *= 1.22) cuts.push(m);
  for (let b = Math.ceil(distanceM / FIELD_M); b * FIELD_M - distanceM < FARTHEST_M; b++) {
    const m = b * FIELD_M - distanceM;
    if (m > NEAREST_M) cuts.push(m);
  }
  return cuts.sort((a, b) => a - b);
}
