import type { FailureData } from "../contract/failure.ts";
import type { Tools } from "../contract/tools.ts";
import type { DemoClip } from "./demoClips.ts";
import type { Picture } from "./scene/view.ts";

/** One clip to film, as it goes to a filming child. */
export interface FilmOrder {
  readonly seed: number;
  readonly clip: DemoClip;
  readonly outDir: string;
  readonly picture: Picture;
  readonly tools: Tools;
}

/** What a filming child says, a line each: frames drawn so far, or why it failed. */
export type FilmReport = { readonly frames: number } | { readonly failure: FailureData };
