import type { Anchor, ClipPlacement } from "../../main/contract/lineup.ts";

/** Standard error of a place set by hand, s: as fine as the step it was set with. */
export const SET_BY = { frame: 0.05, second: 0.3, minute: 2, drag: 0.5, typed: 0.5, eye: 0.5 } as const;

/**
 * The anchors after footage was moved. Clips of one camera share its clock, so all of them move: their anchors are
 * shifted, or, where there is none, one is set at the picture that was looked at.
 *
 * @param byS ride seconds; later is positive
 * @param atMediaS clip time of the picture that was looked at
 */
export function moveFootage(
  anchors: readonly Anchor[],
  placements: readonly ClipPlacement[],
  clipId: string,
  atMediaS: number,
  byS: number,
  sigmaS: number,
): readonly Anchor[] {
  const own = placements.find((one) => one.clipId === clipId);
  const together = new Set(
    placements.filter((one) => own !== undefined && one.clockGroup === own.clockGroup).map((one) => one.clipId),
  );
  together.add(clipId);
  if (anchors.some((anchor) => together.has(anchor.clipId)))
    return anchors.map((anchor) => (together.has(anchor.clipId) ? { ...anchor, rideS: anchor.rideS + byS } : anchor));
  const clock = own?.found ?? { offsetS: 0, rate: 1 };
  return [...anchors, { clipId, mediaS: atMediaS, rideS: clock.offsetS + clock.rate * atMediaS + byS, sigmaS }];
}

/** The anchors after one clip was put at a place of its own: anchors of its camera give way to this one. */
export function putFootage(
  anchors: readonly Anchor[],
  placements: readonly ClipPlacement[],
  next: Anchor,
): readonly Anchor[] {
  const own = placements.find((one) => one.clipId === next.clipId);
  const together = new Set(
    placements.filter((one) => own !== undefined && one.clockGroup === own.clockGroup).map((one) => one.clipId),
  );
  together.add(next.clipId);
  return [...anchors.filter((anchor) => !together.has(anchor.clipId)), next];
}
