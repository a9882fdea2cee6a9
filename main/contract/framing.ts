/** What of a clip's picture a shot hides, and which part of it fills the frame. Shares of the clip's own picture, upright as shown, 0 to 1. */

export const COVER_KINDS = ["blur", "solid"] as const;

/** A box at an instant of the clip; between two it moves and grows evenly. */
export interface CoverKey {
  readonly atMediaS: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A face, a number plate. It is hidden from the frame before its first key to the frame after its last. */
export interface Cover {
  readonly kind: (typeof COVER_KINDS)[number];
  /** In order of time; one alone holds for the whole shot. */
  readonly keys: readonly CoverKey[];
}

/** The middle of the part that fills the frame, and its share of the width; 1 is all of it. Between two it moves softly. */
export interface CloseUpKey {
  readonly atMediaS: number;
  readonly x: number;
  readonly y: number;
  readonly share: number;
}
