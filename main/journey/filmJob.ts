import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Plan } from "../contract/plan.ts";
import type { Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import type { FilmSettings } from "../contract/debrief.ts";
import type { RideColumns, SensorColumn } from "../contract/rideColumns.ts";
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

/** How a column stands in a lesson that keeps the watts back: as it is, as a share of the target, or not at all. */
type InPercent<Column> =
  "passes" | (Column extends Scalable | null ? "scaled" : never) | (null extends Column ? "dropped" : never);
type Scalable = Float64Array | SensorColumn | NonNullable<RideColumns["bandW"]>;

/** A column that tells watts, or from which they can be worked out, is `scaled` or `dropped`; the rest `passes`. */
const IN_PERCENT: { readonly [Name in keyof RideColumns]: InPercent<RideColumns[Name]> } = {
  seconds: "passes",
  mode: "passes",
  setting: "passes",
  lateS: "passes",
  power3s: "scaled",
  heartRate: "passes",
  cadence: "passes",
  speed: "passes",
  gradientPercent: "passes",
  altitudeM: "passes",
  latDeg: "passes",
  lonDeg: "passes",
  pressureState: "passes",
  surge: "passes",
  countedS: "passes",
  likePowerBeats: "passes",
  bandW: "scaled",
  countedStartS: "passes",
  countedEndS: "passes",
};

/** Power and its band as shares of a target, percent: a lesson keeps the watts back from the panels too. */
function powerAsPercent(columns: RideColumns, targetW: number): RideColumns {
  const share = 100 / targetW;
  const names = Object.keys(IN_PERCENT) as (keyof RideColumns)[];
  return Object.fromEntries(
    names.map((name) => {
      const way = IN_PERCENT[name];
      if (way === "dropped") return [name, null];
      return [name, way === "scaled" ? scaled(columns[name] as Scalable | null, share) : columns[name]];
    }),
  ) as unknown as RideColumns;
}

function scaled(column: Scalable | null, share: number): Scalable | null {
  if (column === null) return null;
  if (column instanceof Float64Array) return column.map((value) => value * share);
  if ("state" in column) return { ...column, value: column.value.map((value) => value * share) };
  return { low: column.low * share, high: column.high * share, target: column.target * share };
}
