import type { FailureKind } from "../failure.ts";

/** Of rooms whose sentences are not data yet; goes with the last of them. */
export interface ProseFailures {
  readonly prose: { readonly kind: FailureKind; readonly sentence: string; readonly remedy: string };
}
export interface ProseNotes {
  readonly "prose-note": { readonly sentence: string };
}
