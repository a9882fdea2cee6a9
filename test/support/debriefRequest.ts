import type { DebriefRequest } from "../../main/journey/preparedDebrief.ts";

/** What a coach who says nothing but `more` asks for: a draft, so that tests render small. */
export function debriefRequest(
  more: { readonly paths: readonly string[]; readonly targetW?: number } & Partial<DebriefRequest>,
): DebriefRequest {
  const { targetW = null, ...said } = more;
  return {
    anchors: [],
    deviceDelayS: 0,
    show: null,
    acceptUnsure: false,
    plan: { planPath: null, targetW, toleranceW: null, setting: null },
    outDir: null,
    lengthS: 60,
    preset: "draft",
    forWhom: "athlete",
    asPercent: false,
    language: null,
    athleteDir: null,
    consent: null,
    ...said,
  };
}
