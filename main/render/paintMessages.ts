import type { Card } from "../contract/film.ts";
import type { PairCard } from "../contract/pair.ts";
import type { Drawing } from "../contract/drawing.ts";
import type { RoutePath } from "../../overlay/instant/routePath.ts";
import type { LayoutOptions } from "../../overlay/layout/layout.ts";
import type { PairPicture } from "./pairPart.ts";
import type { Patch } from "./keptPicture.ts";
import type { PixelLayout } from "./matroskaStream.ts";
import type { PanelPicture } from "./panelPictures.ts";

/** What the painting child is told, once, before anything else. */
export interface PaintSetup {
  readonly kind: "setup";
  readonly layoutOptions: LayoutOptions;
  readonly route: RoutePath | null;
  readonly bandW: { readonly low: number; readonly high: number; readonly target: number } | null;
  readonly fontsFolder: string;
}

/** A picture with the time that it is sent under. */
interface TimedPicture extends Omit<PanelPicture, "frame"> {
  readonly timeUs: number;
}

/** An instant of a pair with the time that it is sent under. */
interface TimedPair extends Omit<PairPicture, "frame"> {
  readonly timeUs: number;
}

export interface TimedDrawings {
  readonly timeUs: number;
  readonly drawings: readonly Drawing[];
}

/**
 * What a picture of the band differs in from the one before it, be that of an earlier order; the first of all differs from
 * nothing at all.
 */
export interface PictureChange {
  readonly timeUs: number;
  readonly opacity: number;
  readonly patches: readonly Patch[];
}

/** One order; the answer is a stream of chunks, an empty one after the last. */
export type PaintOrder =
  /** Answer: for each picture that differs from the one before a `PictureChange`, serialized, a chunk each. */
  | { readonly kind: "panels"; readonly pictures: readonly TimedPicture[]; readonly pixels: PixelLayout }
  /** Answer: as of panels, of the pair's own layer. */
  | {
      readonly kind: "pair";
      readonly card: PairCard;
      readonly pictures: readonly TimedPair[];
      readonly pixels: PixelLayout;
    }
  /** Answer: the raw yuv420p picture of a card; of a pair what stands still of it. */
  | { readonly kind: "card"; readonly card: Card }
  /** Answer: a Matroska stream of `rect`. */
  | { readonly kind: "drawings"; readonly pictures: readonly TimedDrawings[] };

/** A process that must not outlive this program, however that ends; or one that has ended. No answer. */
interface PaintGuard {
  readonly kind: "guard";
  readonly pid: number;
  readonly ended: boolean;
}

export type PaintMessage = PaintSetup | PaintGuard | PaintOrder;
