import type { Debrief } from "./debrief.ts";
import { film } from "./film.ts";
import type { Host } from "./host.ts";
import { judge } from "./judge.ts";
import { place, type PlaceOptions } from "./place.ts";

/**
 * The middle of the journey in its order: a gathered debrief placed, judged and filmed. What still holds of what was made
 * of `before` is not made again. Throws as `place` and `judge`.
 */
export async function stand(gathered: Debrief, host: Host, options: PlaceOptions = {}): Promise<Debrief> {
  const placed = await place(gathered, host, options);
  return film(await judge(placed, host, options.before));
}
