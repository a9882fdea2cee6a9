import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Plan } from "../contract/plan.ts";
import type { Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import type { FilmSettings } from "../contract/debrief.ts";
import type { RideColumns } from "../contract/rideColumns.ts";
import { rideColumns } from "../reading/rideColumns.ts";
import { PLAIN_LOOK } from "../contract/filmLook.ts";
import { fitFor, type Preset } from "../contract/presets.ts";
import type { FilmJob } from "../render/renderFilm.edge.ts";
import { lookLayout } from "../render/lookLayout.ts";

/** What film and window paint a ride from, second by second. */
export function columnsOf({ ride, reading }: { readonly ride: Ride; readonly reading: Reading }): RideColumns {
  return rideColumns(ride, reading);
}

/** What rendering needs, from what the steps before it made. */
export function filmJob(
  made: {
    readonly ride: Ride;
    readonly plan: Plan;
    readonly reading: Reading;
    readonly clips: readonly Clip[];
    readonly film: Film;
  },
  preset: Preset,
  settings: Pick<FilmSettings, "language" | "forWhom" | "asPercent" | "look">,
  outPath: string,
  cacheDir: string,
): FilmJob {
  const target = settings.forWhom === "lesson" && settings.asPercent ? (made.reading.bandW?.target ?? null) : null;
  const whole = columnsOf(made);
  const columns = target === null ? whole : powerAsPercent(whole, target);
  const look = { ...PLAIN_LOOK, ...settings.look };
  return {
    film: made.film,
    clips: made.clips,
    columns,
    outPath,
    preset,
    fit: fitFor(preset, look.shape, look.fit),
    layoutOptions: {
      ...lookLayout(look, made.film, columns, { units: made.plan.units, language: settings.language }),
      powerUnit: target === null ? "W" : "%",
    },
    cacheDir,
  };
}

/** Power and its band as shares of a target, percent: a lesson keeps the watts back from the panels too. */
function powerAsPercent(columns: RideColumns, targetW: number): RideColumns {
  const share = 100 / targetW;
  const { power3s, bandW } = columns;
  return {
    ...columns,
    power3s: power3s && { ...power3s, value: power3s.value.map((watts) => watts * share) },
    bandW: bandW && { low: bandW.low * share, high: bandW.high * share, target: bandW.target * share },
  };
}
