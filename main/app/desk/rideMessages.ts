import type { DebriefDocument } from "../../contract/debrief.ts";
import type { FailureData } from "../../contract/failure.ts";
import type { Ride } from "../../contract/ride.ts";
import type { KnownOfRider, ReadOutcome } from "../../journey/judge.ts";

/** A judged ride without the ride, which both sides have. */
export type Judged = Omit<ReadOutcome, "ride">;

/** The parts of a document that a ride is judged by. */
export type JudgedParts = Pick<DebriefDocument, "plan" | "overrides" | "ownMoments">;

/** What the ride worker is asked. `rideId` names the ride in its own memory. */
export type RideQuestion =
  | { readonly id: number; readonly kind: "read"; readonly rideId: string; readonly path: string }
  | {
      readonly id: number;
      readonly kind: "judge";
      readonly rideId: string;
      readonly document: JudgedParts;
      readonly known: KnownOfRider;
    }
  | { readonly id: number; readonly kind: "keep"; readonly rideIds: readonly string[] };

export type RideAnswer =
  | { readonly id: number; readonly ride: Ride }
  | { readonly id: number; readonly judged: Judged }
  | { readonly id: number; readonly kept: true }
  | { readonly id: number; readonly failure: FailureData };
