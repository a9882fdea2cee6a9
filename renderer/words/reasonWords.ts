import type { BreakReason } from "../../main/contract/reading.ts";
import { skim } from "./skim.ts";

/** The reason of a break, the coach's own words as they are. */
export function reasonWords(reason: BreakReason): string {
  return typeof reason === "string" ? skim.reasons[reason] : reason.coach;
}
