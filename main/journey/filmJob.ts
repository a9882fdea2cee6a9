import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Plan } from "../contract/plan.ts";
import type { Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import type { Language } from "../../overlay/words/phrases.ts";
import { availableIn } from "../../overlay/layout/availableIn.ts";
import { defaultLayoutOptions } from "../../overlay/layout/layout.ts";
import { rideColumns } from "../reading/rideColumns.ts";
import type { Preset } from "../render/presets.ts";
import type { FilmJob } from "../render/renderFilm.edge.ts";
import { cacheFolder } from "./cacheFolder.ts";

/** What rendering needs, from what the steps before it made. */
export function filmJob(
  made: { readonly ride: Ride; readonly plan: Plan; readonly reading: Reading; readonly clips: readonly Clip[]; readonly film: Film },
  preset: Preset,
  language: Language,
  outPath: string,
): FilmJob {
  const columns = rideColumns(made.ride, made.reading);
  const { widthPx, heightPx } = made.film;
  return {
    film: made.film,
    clips: made.clips,
    columns,
    outPath,
    preset,
    layoutOptions: { ...defaultLayoutOptions(widthPx, heightPx, availableIn(columns)), units: made.plan.units, language },
    cacheDir: cacheFolder(),
  };
}
