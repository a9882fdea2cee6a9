import type { Anchor, ClipPlacement } from "../../main/contract/lineup.ts";

/** Standard error of a place set by hand, s: as fine as the step it was set with. */
export const SET_BY = { frame: 0.05, second: 0.3, minute: 2, drag: 0.5, eye: 0.5 } as const;

/**
 * The anchors after footage was moved. Clips of one camera share its clock, so all of them that hang on it move: their
 * anchors are shifted, or, where there is none, one is set at the picture that was looked at. Beyond the error of the
 * place before, it is a proposal from then on, until somebody compares it with the picture.
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
  const together = groupOf(placements, clipId);
  // Small moves add up.
  const hand = (before = 0) => {
    const movedS = before + byS;
    return { movedS, ...(own?.sure !== true || Math.abs(movedS) > (own.uncertaintyS ?? 0) ? { byHand: true } : {}) };
  };
  if (anchors.some((anchor) => together.has(anchor.clipId)))
    return anchors.map((anchor) =>
      together.has(anchor.clipId) ? { ...anchor, rideS: anchor.rideS + byS, ...hand(anchor.movedS) } : anchor,
    );
  const clock = own?.found ?? { offsetS: 0, rate: 1 };
  const rideS = clock.offsetS + clock.rate * atMediaS + byS;
  return [...anchors, { clipId, mediaS: atMediaS, rideS, sigmaS, ...hand() }];
}

/** The clips whose clock is the same camera's, the one itself among them. */
function groupOf(placements: readonly ClipPlacement[], clipId: string): ReadonlySet<string> {
  const own = placements.find((one) => one.clipId === clipId);
  return new Set([
    clipId,
    ...placements.filter((one) => own !== undefined && one.clockGroup === own.clockGroup).map((one) => one.clipId),
  ]);
}

/**
 * Of a clip's camera: how many clips move along with it, and how many stay where something of their own puts them. A clip
 * moves along that has an anchor, or takes its clock from one that moves.
 */
export function movesAlong(
  anchors: readonly Anchor[],
  placements: readonly ClipPlacement[],
  clipId: string,
): { readonly along: number; readonly stay: number } {
  const together = groupOf(placements, clipId);
  const anchored = new Set(anchors.map((anchor) => anchor.clipId).filter((id) => together.has(id)));
  const others = placements.filter((one) => one.clipId !== clipId && together.has(one.clipId));
  const from = (id: string | null) => id !== null && (id === clipId || anchored.has(id));
  const along = others.filter((one) => anchored.has(one.clipId) || from(one.inheritedFrom)).length;
  return { along, stay: others.length - along };
}

/**
 * The anchors after somebody compared the picture with the numbers and found them agreeing: the place stands as it is,
 * with no wider error, and what was moved by hand is confirmed.
 */
export function confirmed(
  anchors: readonly Anchor[],
  placements: readonly ClipPlacement[],
  placement: ClipPlacement,
  mediaS: number,
): readonly Anchor[] {
  const { clipId, found, uncertaintyS } = placement;
  const together = groupOf(placements, clipId);
  if (found === null) return anchors;
  // An anchor stands for twice its standard error.
  const sigmaS = uncertaintyS === null ? SET_BY.eye : Math.min(SET_BY.eye, uncertaintyS / 2);
  const agreed = anchors.map((anchor): Anchor => {
    if (!together.has(anchor.clipId)) return anchor;
    const { byHand: _, movedS: __, ...kept } = anchor;
    return kept;
  });
  return [...agreed, { clipId, mediaS, rideS: found.offsetS + found.rate * mediaS, sigmaS }];
}

/** The anchors after one clip was tried at a place: anchors of its camera give way to this one, a proposal as yet. */
export function putFootage(
  anchors: readonly Anchor[],
  placements: readonly ClipPlacement[],
  next: Anchor,
): readonly Anchor[] {
  const together = groupOf(placements, next.clipId);
  return [...anchors.filter((anchor) => !together.has(anchor.clipId)), { ...next, byHand: true }];
}

/** An anchor of the clip's camera was moved by hand, and nobody compared it with the picture since. */
export function isProposal(anchors: readonly Anchor[], placements: readonly ClipPlacement[], clipId: string): boolean {
  const together = groupOf(placements, clipId);
  return anchors.some((anchor) => anchor.byHand === true && together.has(anchor.clipId));
}
