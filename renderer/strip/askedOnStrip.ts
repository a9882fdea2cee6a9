import type { Plan, PlannedBlock } from "../../main/contract/plan.ts";
import type { StripAsked } from "./paintStrip.ts";

/** What a plan asks for besides the band of power, as the strip draws it. */
export function askedOnStrip(
  { heartLowBpm: low, heartHighBpm: high }: Pick<Plan, "heartLowBpm" | "heartHighBpm">,
  blocks: readonly PlannedBlock[],
): StripAsked {
  return { heartBpm: low === null || high === null ? null : { low, high }, blocks };
}
