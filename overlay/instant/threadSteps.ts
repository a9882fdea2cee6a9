/** Output frames from one step of the thread to the next, so that its cadence is even: 5 steps a second, 10 for `archive`. */
export function threadStepFrames(
  frameRate: { readonly num: number; readonly den: number },
  stepsPerSecond: number,
): number {
  return Math.max(1, Math.round(frameRate.num / frameRate.den / stepsPerSecond));
}

/**
 * The frame of an item at whose instant the thread stands: that of the latest step. Sped-up footage takes shorter steps,
 * so that the thread is never more of the ride behind its picture than at the speed of life. The figures are always those
 * of the picture itself.
 *
 * @param frameInItem frames since the item's first
 * @param speed of the shot
 */
export function threadFrame(frameInItem: number, stepFrames: number, speed: number): number {
  const ownSteps = Math.max(1, Math.floor(stepFrames / Math.max(1, speed)));
  return frameInItem - (frameInItem % ownSteps);
}
