import type { Ride } from "../../main/contract/ride.ts";
import type { RideColumns } from "../../main/contract/rideColumns.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { read } from "../../main/reading/read.ts";
import { rideColumns } from "../../main/reading/rideColumns.ts";

/** What a ride's panels are drawn from, read without a plan. */
export function shownColumns(ride: Ride): RideColumns {
  return rideColumns(ride, read(ride, defaultPlan(), []));
}
