import type { Plan, PlannedBlock } from "../contract/plan.ts";
import { thresholds } from "./thresholds.ts";

/** What a second is held to, on the meter's own scale, W. */
export interface Band {
  readonly targetW: number;
  readonly lowW: number;
  readonly highW: number;
}

/** What the plan asks of one second. */
export interface Asked {
  /** Null: nothing to hold power to. */
  readonly band: Band | null;
  readonly planned: "steady" | "effort" | "rest";
}

/** The plan's main band on the meter's own scale: a meter that reads 8 W low has its band 8 W lower. Null without a target. */
export function planBand(plan: Plan): Band | null {
  return bandOf(plan, plan.targetW, plan.toleranceW);
}

function bandOf(plan: Plan, targetW: number | null, toleranceW: number | null): Band | null {
  if (targetW === null) return null;
  const half = toleranceW ?? plan.toleranceW ?? thresholds.pressure.defaultToleranceW;
  const shifted = targetW - plan.meterOffsetW;
  return { targetW: shifted, lowW: shifted - half, highW: shifted + half };
}

/** The plan's blocks with the power each asks for: its own, else the plan's; a rest asks for none. */
export function plannedBlocks(plan: Plan): PlannedBlock[] {
  return plan.blocks.map(({ startS, endS, kind, targetW, toleranceW }) => {
    const own = targetW === null ? planBand(plan) : bandOf(plan, targetW, toleranceW);
    const band = kind === "rest" ? null : own;
    return { startS, endS, kind, lowW: band?.lowW ?? null, highW: band?.highW ?? null };
  });
}

/** What the plan asks of each second: a block's own target inside a block, the plan's everywhere else. */
export function askedOf(plan: Plan): (second: number) => Asked {
  const outside: Asked = { band: planBand(plan), planned: "steady" };
  const blocks = plan.blocks.map((block) => ({
    startS: block.startS,
    endS: block.endS,
    asked: {
      band: block.targetW === null ? outside.band : bandOf(plan, block.targetW, block.toleranceW),
      planned: block.kind,
    } satisfies Asked,
  }));
  return (second) => blocks.find((block) => second >= block.startS && second < block.endS)?.asked ?? outside;
}
