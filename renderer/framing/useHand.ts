import { type RefObject, useRef } from "react";
import type { Shot } from "../../main/contract/film.ts";
import { filledBy } from "../../overlay/instant/closeUpAt.ts";
import { framing as words } from "../words/framing.ts";
import { boxesAt, withBoxPut, type Work } from "./boxes.ts";
import type { BoxDraft } from "./FrameLayer.tsx";
import { withCover, withoutCloseUpKey } from "./framingEdits.ts";

/** The stage, as far as framing needs it. */
export interface FramingStage {
  stop(): void;
  look(mediaS: number): void;
  repaint(): void;
  readonly mediaS: number | null;
}

/** Keys that follow each other so soon are one edit, ms. */
const NUDGES_MS = 350;
/** What Enter puts in the middle. */
const MIDDLE = {
  cover: { x: 0.42, y: 0.4, width: 0.16, height: 0.2 },
  closeUpShare: 0.5,
} as const;

interface Nudged {
  readonly atMediaS: number;
  readonly timer: ReturnType<typeof setTimeout>;
}

/** What a hand does with boxes on the picture: shown as it goes, one edit when it is done. */
export function useHand(
  work: Work,
  stage: RefObject<FramingStage | null>,
  onPick: (index: number | null) => void,
  onChange: (shot: Shot, label: string) => void,
) {
  const { shot, tool, picked, clip, aspects } = work;
  const draft = useRef<BoxDraft | null>(null);
  const nudged = useRef<Nudged | null>(null);
  /** What was put last, until the shot comes back with it. */
  const put = useRef<{ readonly shot: Shot | null; readonly tool: Work["tool"]; readonly made: BoxDraft } | null>(null);
  const now = () => stage.current?.mediaS ?? null;
  const underHand = () =>
    draft.current ?? (put.current?.shot === shot && put.current.tool === tool ? put.current.made : null);
  const boxes = () => boxesAt(work, now(), underHand());
  const show = (next: BoxDraft | null) => {
    draft.current = next;
    stage.current?.repaint();
  };
  const done = (made: BoxDraft, atMediaS = now()) => {
    draft.current = null;
    const next = withBoxPut(work, made, atMediaS);
    if (next === null) return;
    put.current = { shot, tool, made };
    const isNew = tool === "cover" && made.index === null;
    if (isNew) onPick(shot?.covers?.length ?? 0);
    onChange(next, tool === "closeUp" ? words.labels.closeUp : isNew ? words.labels.cover : words.labels.coverChanged);
  };
  const settle = () => {
    const { current } = nudged;
    nudged.current = null;
    clearTimeout(current?.timer);
    if (current !== null && draft.current !== null) done(draft.current, current.atMediaS);
  };
  // The edit is made on the shot as it is by then.
  const latest = useRef(settle);
  latest.current = settle;
  const nudge = (made: BoxDraft) => {
    const atMediaS = nudged.current?.atMediaS ?? now();
    if (atMediaS === null) return;
    clearTimeout(nudged.current?.timer);
    nudged.current = { atMediaS, timer: setTimeout(() => latest.current(), NUDGES_MS) };
    show(made);
  };
  const middle = () =>
    done(
      tool === "closeUp"
        ? { index: 0, box: filledBy({ x: 0.5, y: 0.5, share: MIDDLE.closeUpShare }, aspects.clip, aspects.film) }
        : { index: null, box: MIDDLE.cover },
    );
  const chosen = () => boxes().find(({ index }) => index === (tool === "closeUp" ? 0 : picked));
  const remove = () => {
    const atS = now();
    if (shot === null || atS === null) return;
    if (tool === "cover" && picked !== null) {
      onPick(null);
      return onChange(withCover(shot, picked, null), words.labels.uncover);
    }
    const at = shot.closeUp?.findIndex(({ atMediaS }) => Math.abs(atMediaS - atS) < clip.frameS / 2) ?? -1;
    if (tool === "closeUp" && at >= 0) onChange(withoutCloseUpKey(shot, at), words.labels.closeUpRemoved);
  };
  return { draft, boxes, show, done, settle, nudge, middle, chosen, remove };
}
