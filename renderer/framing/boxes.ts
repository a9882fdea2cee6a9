import type { Cover } from "../../main/contract/framing.ts";
import type { Shot } from "../../main/contract/film.ts";
import { filledBy, type PictureBox } from "../../overlay/instant/closeUpAt.ts";
import { coverKeyAt } from "../../overlay/instant/coverBoxes.ts";
import type { BoxDraft } from "./FrameLayer.tsx";
import { closeUpNow, type KeyedClip, withCloseUpKey, withCover, withCoverKey } from "./framingEdits.ts";

/** What a hand works on: boxes that hide, or the part that fills the frame. */
export type FramingTool = "cover" | "closeUp";

/** Width over height. */
export interface Aspects {
  readonly clip: number;
  readonly film: number;
}

/** The open shot, and what the hand does to it. */
export interface Work {
  /** Null: nothing can be changed. */
  readonly shot: Shot | null;
  readonly tool: FramingTool | null;
  /** The cover that is chosen. */
  readonly picked: number | null;
  readonly clip: KeyedClip;
  readonly aspects: Aspects;
}

/** A close-up so large shows all there is: a press draws a new one. */
const ALL_SHARE = 0.98;
const LEAST_SHARE = 0.1;

/** The boxes on the picture at a clip time, with the one under the hand as it is there. */
export function boxesAt(
  { shot, tool, aspects }: Work,
  atS: number | null,
  draft: BoxDraft | null,
): readonly BoxDraft[] {
  if (shot === null || atS === null || tool === null) return [];
  if (tool === "closeUp") {
    if (draft !== null) return [{ ...draft, index: 0 }];
    const part = closeUpNow(shot, atS);
    return part.share >= ALL_SHARE ? [] : [{ index: 0, box: filledBy(part, aspects.clip, aspects.film) }];
  }
  const there = (shot.covers ?? []).map(({ keys }, index) => ({ index, box: coverKeyAt(keys, atS) }));
  const standing = there.map((one) => (one.index === draft?.index ? draft : one));
  return draft?.index === null ? [...standing, draft] : standing;
}

/** The shot with a box as the hand has put it at a clip time; null: there is none to put it on. */
export function withBoxPut({ shot, tool, clip, aspects }: Work, { index, box }: BoxDraft, atMediaS: number | null) {
  if (shot === null || atMediaS === null) return null;
  if (tool === "closeUp") return withCloseUpKey(shot, { atMediaS, ...partOf(box, aspects) }, clip);
  const { x, y, width, height } = box;
  const key = { atMediaS, x, y, width, height };
  const old = index === null ? undefined : shot.covers?.[index];
  const cover: Cover = old === undefined ? { kind: "blur", keys: [key] } : withCoverKey(old, key, clip);
  return withCover(shot, index ?? shot.covers?.length ?? 0, cover);
}

/** The close-up that a box stands for. */
function partOf({ x, y, width, height }: PictureBox, aspects: Aspects) {
  const full = Math.min(1, aspects.film / aspects.clip);
  return { x: x + width / 2, y: y + height / 2, share: Math.max(LEAST_SHARE, Math.min(1, width / full)) };
}
