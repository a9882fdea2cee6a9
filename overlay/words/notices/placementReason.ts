import type { PlacementReason } from "../../../main/contract/notices/placement.ts";
import type { Language } from "../../../main/contract/languageAndUnits.ts";
import { placementReasonDe } from "./de/placement.ts";
import { placementReasonEn } from "./en/placement.ts";

/** Why a clip lies where it lies, as part of a sentence: a small letter first, no full stop. */
export function placementReasonText(reason: PlacementReason, language: Language): string {
  return language === "de" ? placementReasonDe(reason) : placementReasonEn(reason);
}
