import type { Card, Shot } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Cover } from "../contract/framing.ts";
import type { PairSide } from "../contract/pair.ts";
import { Failure } from "../contract/failure.ts";
import { coversOf } from "../../overlay/instant/coversOf.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { planPair, type PairPlan } from "./pairPart.ts";
import type { PieceComment } from "./partGraph.ts";
import { panelPictures, type PanelJob, type PanelPicture } from "./panelPictures.ts";
import type { Part, Piece } from "./planParts.ts";
import { shotFrames, type ShotTiming } from "./shotFrames.ts";

/** A shot's footage, which frames of it are shown, and what of them is hidden. */
export interface ShotSource {
  readonly kind: "shot";
  readonly shot: Shot;
  readonly clip: Clip;
  readonly timing: ShotTiming;
  readonly covers: readonly Cover[];
}

interface PlannedPiece {
  readonly piece: Piece;
  readonly source:
    ShotSource | { readonly kind: "pair"; readonly pair: PairPlan } | { readonly kind: "card"; readonly card: Card };
  readonly comment: PieceComment | null;
}

/** The pair of a part; a pair has no crossfades and so a part of its own. */
export function pairOf({ pieces }: Pick<PartPlan, "pieces">): PairPlan | null {
  const source = pieces[0]?.source;
  return source?.kind === "pair" ? source.pair : null;
}

/** All that decides how a part looks and sounds. */
export interface PartPlan {
  readonly part: Part;
  readonly pieces: readonly PlannedPiece[];
  readonly panels: readonly PanelPicture[];
}

/** A part with its source frames and panel pictures reckoned. @throws Failure where a shot's clip is not there */
export function planPart(job: PanelJob, part: Part): PartPlan {
  const { film } = job;
  const clock = filmClock(film);
  const planned = part.pieces.map((piece) => {
    const item = film.items[piece.item]!;
    const spoken = clock.commentOf(piece.item);
    const comment = spoken === null ? null : { ...spoken, lengthS: item.commentS ?? null };
    if (item.type === "card" && item.card.kind === "pair") {
      const clipOf = ({ footage }: PairSide): Clip | null => (footage === null ? null : clipIn(job, footage.clipId));
      const { firstFrame, frames } = piece;
      const pair = planPair(film, item.card, clipOf, job.threadStepsPerSecond, firstFrame, frames);
      return { frames: null, piece: { piece, source: { kind: "pair" as const, pair }, comment } };
    }
    if (item.type === "card") {
      return { frames: null, piece: { piece, source: { kind: "card" as const, card: item.card }, comment } };
    }
    const clip = clipIn(job, item.clipId);
    const frames = shotFrames(item, clip, film.frameRate, piece.firstFrame, piece.frames);
    const covers = coversOf(film, clip.id, item, { startS: item.mediaStartS, endS: item.mediaEndS });
    const source = { kind: "shot" as const, shot: item, clip, timing: frames.timing, covers };
    return { frames, piece: { piece, source, comment } };
  });
  const panels = panelPictures(
    job,
    part,
    planned.map(({ frames }) => frames),
  );
  return { part, pieces: planned.map(({ piece }) => piece), panels };
}

function clipIn({ clips }: PanelJob, clipId: string): Clip {
  const clip = clips.get(clipId);
  if (clip === undefined || clip.frames.ticks.length === 0) throw new Failure("shot-without-clip", { clipId });
  return clip;
}
