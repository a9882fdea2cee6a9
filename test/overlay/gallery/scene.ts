import type { SKRSContext2D } from "@napi-rs/canvas";
import type { Ground } from "../support/grounds.ts";

/** A picture that is looked at in the gallery and held to a stored one by the golden test. */
export interface Scene {
  readonly name: string;
  /** Sizes in the gallery and of the golden, px. */
  readonly gallery: readonly [number, number];
  readonly golden: readonly [number, number];
  /** What lies beneath: footage in the gallery, a plain ramp in the golden; cards cover it. */
  readonly ground: Ground | null;
  /** Mean difference of a byte that the golden test lets pass, of 255; 0 where only outlines are drawn. */
  readonly tolerance: number;
  readonly paint: (context: SKRSContext2D, width: number, height: number) => void;
}
