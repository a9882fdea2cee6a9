import type { PlacementReason } from "../../main/contract/notices/placement.ts";

/** True where a reason only says what a place was measured by, with no doubt, correction or oddness to be told. */
export function plainReason({ code, facts }: PlacementReason): boolean {
  switch (code) {
    case "anchors":
      return facts.trouble === null && facts.rate === null && facts.byHand !== true;
    case "camera-positions":
      return !facts.anotherFits && !facts.hardlyMoved && !facts.unlike && facts.clockOffS === null;
    case "shared-clock":
      return plainReason(facts.own);
    case "clock-of":
      return facts.trimS === null;
    default:
      return false;
  }
}
