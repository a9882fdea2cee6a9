import type { DebriefDocument } from "../../contract/debrief.ts";
import type { FailureData } from "../../contract/failure.ts";
import type { Clip } from "../../contract/footage.ts";
import type { Anchor, Lineup } from "../../contract/lineup.ts";
import type { ClipSignals } from "../../contract/signals.ts";
import type { Ride } from "../../contract/ride.ts";
import type { KnownOfRider, ReadOutcome } from "../../journey/readJourney.ts";

/** A judged ride without the ride, which both sides have. */
export type Judged = Omit<ReadOutcome, "ride">;

/** The parts of a document that a ride is judged by. */
export type JudgedParts = Pick<DebriefDocument, "plan" | "overrides" | "ownMoments">;

/** What clips are placed on a ride by. */
export interface PlacedParts {
  readonly clips: readonly Clip[];
  readonly anchors: readonly Anchor[];
  readonly deviceDelayS: number;
  readonly signals: readonly ClipSignals[];
  readonly indoors: boolean;
}

/** What the ride worker is asked. `rideId` names the ride in its own memory. */
export type RideQuestion =
  | { readonly id: number; readonly kind: "read"; readonly rideId: string; readonly path: string }
  | { readonly id: number; readonly kind: "judge"; readonly rideId: string; readonly document: JudgedParts; readonly known: KnownOfRider }
  | { readonly id: number; readonly kind: "place"; readonly rideId: string; readonly what: PlacedParts }
  | { readonly id: number; readonly kind: "forget" };

export type RideAnswer =
  | { readonly id: number; readonly lineup: Lineup }
  | { readonly id: number; readonly ride: Ride }
  | { readonly id: number; readonly judged: Judged }
  | { readonly id: number; readonly forgotten: true }
  | { readonly id: number; readonly failure: FailureData };
