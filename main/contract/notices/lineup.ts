import type { NoFacts } from "./noFacts.ts";
import type { PlacementReason } from "./placement.ts";

interface OfFile {
  readonly fileName: string;
}

/** Which forms an instant of a ride may be given in, and what the ride has of each. */
export type RideTimeFault =
  | { readonly kind: "timer ends"; readonly atS: number }
  | { readonly kind: "ran"; readonly fromS: number; readonly toS: number }
  | { readonly kind: "long in km"; readonly km: number }
  | { readonly kind: "distance unknown there" }
  | { readonly kind: "laps"; readonly count: number }
  | { readonly kind: "long"; readonly elapsedS: number };

export interface LineupFailures {
  readonly "placing-broke-off": NoFacts;
  /** `text`: as typed. */
  readonly "anchor-form": { readonly text: string };
  /** `text`: as typed, where an instant of a clip is asked for. */
  readonly "clip-instant-form": { readonly text: string };
  readonly "anchor-clip-ambiguous": { readonly name: string; readonly paths: readonly string[] };
  readonly "anchor-clip-unknown": { readonly name: string; readonly given: readonly string[] };
  readonly "anchor-outside-clip": OfFile & { readonly text: string; readonly durationS: number };
  readonly "ride-time-form": { readonly text: string };
  readonly "ride-time-outside": { readonly text: string; readonly rideName: string; readonly fault: RideTimeFault };
  readonly "ride-time-without-clock": {
    readonly text: string;
    readonly rideName: string;
    readonly lack: "date" | "zone and place";
  };
  readonly "ride-time-without-distance": { readonly text: string; readonly rideName: string };
  /**
   * `more`: clips beside the first that are not sure either; `exampleS`: an instant inside it, s of media time; `placesS`:
   * where in the ride it could begin, likeliest first.
   */
  readonly "lineup-open": OfFile & {
    readonly more: number;
    readonly reason: PlacementReason;
    readonly exampleS: number;
    readonly placesS: readonly number[];
  };
}

export interface LineupNotes {
  readonly "clip-outside-ride": OfFile & { readonly reason: PlacementReason };
  readonly "clip-begins-before": OfFile & { readonly byS: number };
  readonly "clip-ends-after": OfFile & { readonly byS: number };
  readonly "clips-overlap": {
    readonly fileName: string;
    readonly otherName: string;
    readonly overlapS: number;
    readonly sameCamera: boolean;
  };
  /** `awayS`: from the nearest likely reading of the camera's clock; `…UtcMs`: when clip and ride begin by their own clocks. */
  readonly "anchor-against-clock": OfFile & {
    readonly awayS: number;
    readonly clipUtcMs: number;
    readonly rideUtcMs: number;
  };
  readonly "anchor-against-positions": OfFile & { readonly apartS: number };
  /** One and the same file under two names, or named twice. */
  readonly "file-given-twice": OfFile & { readonly sameAs: string };
  readonly "clip-small-copy": OfFile & { readonly bigName: string };
  /** Used because an anchor set its camera's clock, though a doubt stays. */
  readonly "clip-by-anchored-clock": OfFile & { readonly reason: PlacementReason };
  readonly "clip-telemetry-parts-unread": OfFile & { readonly unread: number; readonly parts: number };
  readonly "clip-telemetry-without-places": OfFile;
  readonly "clip-telemetry-without-fix": OfFile;
  readonly "clip-picture-still": OfFile;
  readonly "clip-without-sound": OfFile;
}
