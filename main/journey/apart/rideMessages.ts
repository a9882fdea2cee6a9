import type { Ride } from "../../contract/ride.ts";
import type { RoadBefore } from "../../contract/roads.ts";
import type { EarlierRide } from "../earlierRides.ts";
import type { JudgedParts } from "../host.ts";
import type { KnownOfRider, ReadOutcome } from "../judge.ts";
import type { FailureData } from "../../contract/failure.ts";

/** A judged ride without the ride, which both sides have. */
type Judged = Omit<ReadOutcome, "ride">;

/**
 * What the ride worker is asked. A ride is known by a number of its own, not by its path: the file there may be another
 * by now. `ride`: sent along where the worker says that it has it no more.
 */
export type RideQuestion =
  | { readonly id: number; readonly kind: "read"; readonly path: string; readonly of: number }
  | {
      readonly id: number;
      readonly kind: "judge";
      readonly path: string;
      readonly of: number;
      readonly ride: Ride | null;
      readonly document: JudgedParts;
      readonly known: KnownOfRider;
    }
  | {
      readonly id: number;
      readonly kind: "roads";
      readonly path: string;
      readonly of: number;
      readonly ride: Ride | null;
      readonly earlier: readonly EarlierRide[];
    }
  | { readonly id: number; readonly kind: "keep"; readonly paths: readonly string[] };

export type RideAnswer =
  | { readonly id: number; readonly ride: Ride }
  | { readonly id: number; readonly judged: Judged }
  | { readonly id: number; readonly roads: readonly RoadBefore[] }
  | { readonly id: number; readonly kept: boolean }
  | { readonly id: number; readonly failure: FailureData };
