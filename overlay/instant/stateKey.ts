import type { PanelValues } from "./panelValuesAt.ts";

/** Equal for two instants exactly when their pictures are the same; cheap to compare. `threadStep`: the instant or frame that the thread stands at. */
export function stateKey(values: PanelValues, threadStep: number | string): string {
  return [
    values.rideS,
    values.countedS,
    values.phase,
    values.powerW,
    values.heartRateBpm,
    values.cadenceRpm,
    values.speedMps,
    values.gradientPercent,
    values.likePowerBeats,
    ...(values.then === undefined ? [] : Object.values(values.then.values)),
    threadStep,
  ].join("|");
}
