/** Output frames from one step of the thread to the next, so that its cadence is even: 5 steps a second, 10 for `archive`. */
export function threadStepFrames(
  frameRate: { readonly num: number; readonly den: number },
  stepsPerSecond: number,
): number {
  return Math.max(1, Math.round(frameRate.num / frameRate.den / stepsPerSecond));
}

/**
 * The frames of an item whose instants a picture shows: the thread's is that of the latest step; the figures' is the
 * frame itself, except in sped-up footage, where they change with the thread only.
 *
 * @param frameInItem frames since the item's first
 * @param speed of the shot
 */
export function shownFrames(
  frameInItem: number,
  stepFrames: number,
  speed: number,
): { readonly figures: number; readonly thread: number } {
  const thread = frameInItem - (frameInItem % stepFrames);
  return { figures: speed > 1 ? thread : frameInItem, thread };
}
