import type { RawRecords } from "../ride.ts";
import type { NoFacts } from "./noFacts.ts";

/** A column of a ride's records. */
export type RideColumn = Exclude<keyof RawRecords, "count" | "timeS">;

interface OfFile {
  /** Base name. */
  readonly fileName: string;
}
interface Count {
  readonly count: number;
}

/** The first spans, ride seconds, how many more, and the seconds of all. */
interface Spans {
  readonly spans: readonly { readonly startS: number; readonly endS: number }[];
  readonly more: number;
  readonly seconds: number;
}

/** What makes a file no ride that can be read. */
export interface RideFailures {
  readonly "ride-empty": OfFile;
  readonly "ride-file-too-large": OfFile;
  readonly "ride-packed-twice": OfFile;
  readonly "ride-zip-archive": OfFile;
  readonly "ride-no-ride-file": OfFile;
  readonly "ride-without-records": OfFile;
  readonly "ride-without-values": OfFile;
  readonly "ride-over-a-week": OfFile;
  readonly "ride-too-many-records": OfFile;
  /** Reading it took more memory than a ride does. */
  readonly "ride-needs-memory": OfFile;
  readonly "ride-one-record": OfFile;
  readonly "ride-clock-stands": OfFile;
  readonly "ride-gzip-damaged": OfFile;
  readonly "ride-gzip-too-large": OfFile & { readonly limitMb: number };
  readonly "gpx-without-points": OfFile;
  readonly "gpx-without-times": OfFile & { readonly timed: number; readonly points: number };
  readonly "csv-without-header": OfFile;
  readonly "csv-without-times": OfFile;
  readonly "ride-is-folder": OfFile;
  /** `rideName`: the file that it was made of; `ridePath`: where that is, null where it is not found or not looked for. */
  readonly "ride-is-debrief": { readonly name: string; readonly rideName: string; readonly ridePath: string | null };
  readonly "ride-no-ordinary-file": OfFile;
  /** `path`: the whole path that was looked for. */
  readonly "ride-file-missing": { readonly path: string };
  readonly "ride-file-forbidden": OfFile;
  /** `error`: the system's code, such as `EIO`; null where it gave none. */
  readonly "ride-file-unreadable": OfFile & { readonly error: string | null };
}

/** What is odd in a ride that was read. */
export interface RideNotes {
  readonly "ride-gzip-cut": NoFacts;
  readonly "ride-very-short": { readonly elapsedS: number; readonly records: number };
  readonly "ride-without-date": { readonly why: "counts from switch-on" | "none" };
  readonly "ride-wrong-date": { readonly year: number };
  readonly "ride-own-steps": NoFacts;
  readonly "ride-null-positions": Count;
  readonly "ride-dead-sensor": { readonly column: RideColumn };
  readonly "ride-records-out-of-order": NoFacts;
  /** `left`: the first few pieces, by size and first time (ms since 1970, UTC). */
  readonly "ride-times-jump": {
    readonly left: readonly { readonly records: number; readonly startMs: number }[];
    readonly more: number;
  };
  readonly "ride-power-spikes": Count;
  readonly "ride-power-dropouts": { readonly seconds: number };
  readonly "ride-heart-jumps": { readonly seconds: number };
  readonly "ride-heart-follows-cadence": Spans;
  readonly "ride-heart-stuck": Spans;
  readonly "ride-heart-no-pulse": Spans;
  readonly "ride-power-zero-turning": Spans;
  readonly "ride-power-frozen": Spans;
  readonly "ride-cadence-zero-pressed": Spans;
  /** The sensor gives nothing while the rider moves. */
  readonly "ride-sensor-silent": Spans & { readonly column: RideColumn };
  readonly "ride-altitude-begins-wrong": { readonly untilS: number };
  readonly "ride-cadence-spikes": { readonly seconds: number };
  readonly "ride-speed-from-places": NoFacts;
  /** Sums that no rider makes; null where that one is sound. `meanMps`: over the whole ride. */
  readonly "ride-absurd-sums": {
    readonly distanceM: number | null;
    readonly meanMps: number | null;
    readonly powerW: number | null;
  };
  readonly "ride-times-without-zone": NoFacts;
  readonly "ride-untimed-points": { readonly untimed: number; readonly points: number };
  readonly "ride-untimed-records": Count;
  readonly "ride-untimed-lines": { readonly left: number; readonly lines: number };
  readonly "ride-several-tracks": Count;
  readonly "ride-several-activities": Count;
  readonly "ride-several-recordings": Count;
  /** `sports`: the first eight, as the file names them. */
  readonly "ride-several-sessions": Count & { readonly sports: readonly string[] };
  /** Of several sports in one file only what was ridden is read. */
  readonly "ride-only-ridden": Count & { readonly sports: readonly string[] };
  /** Records cover less than half of the time from the first to the last. */
  readonly "ride-mostly-unrecorded": { readonly recordedS: number; readonly elapsedS: number };
  /** As the file names it: none that is ridden. */
  readonly "ride-other-sport": { readonly sport: string };
  /** Laps that the file calls pressed by hand, all of one length. */
  readonly "ride-laps-automatic": { readonly laps: number; readonly by: "distance" | "time" };
  readonly "ride-text-damaged": { readonly line: number };
  readonly "ride-is-course": NoFacts;
  readonly "csv-guessed-unit": { readonly column: "speed" | "distance"; readonly unit: "km/h" | "m/s" | "km" | "m" };
  readonly "fit-part-undecoded": NoFacts;
  readonly "fit-developer-column": { readonly column: RideColumn };
  readonly "fit-many-parts": { readonly limit: number };
  readonly "fit-foreign-end": NoFacts;
  readonly "fit-ride-twice": NoFacts;
  readonly "fit-bytes-damaged": { readonly bytes: number };
  readonly "fit-cut-short": NoFacts;
  readonly "fit-wrong-size": NoFacts;
  readonly "fit-wrong-checksum": NoFacts;
}
