/** A debrief film: shots of footage and still cards, in order. Film time is counted in whole frames. */
import type { Rational } from "./footage.ts";
import type { RideClock } from "./lineup.ts";
import type { Drawing } from "./drawing.ts";
import type { Card } from "./card.ts";
import type { CloseUpKey, Cover } from "./framing.ts";
import type { ShotBeside } from "./pair.ts";

export type { Card, Drawing };

/** A moment as it was when a film took it: by this it is known again when the list of moments changes. */
export interface MomentKey {
  readonly kind: string;
  readonly startS: number;
  /** Missing: only the start is known. */
  readonly endS?: number;
}

export interface Caption {
  /** From the item's own start, s. */
  readonly startS: number;
  readonly endS: number;
  readonly text: string;
}

/** A span of footage. Its length on film = (end - start) / speed + what freezes add. */
export interface Shot {
  readonly type: "shot";
  readonly id: string;
  readonly clipId: string;
  /** Clip time, s, of the first frame shown and of the first not shown. */
  readonly mediaStartS: number;
  readonly mediaEndS: number;
  /** 0.125 to 32; 1 is as filmed. */
  readonly speed: number;
  /** Hold the picture at this clip time for so long. */
  readonly freezes: readonly {
    readonly atMediaS: number;
    readonly durationS: number;
    /** Set by the program: the picture waits for the comment to end; reckoned anew each time. */
    readonly forComment?: boolean;
  }[];
  readonly captions: readonly Caption[];
  readonly drawings: readonly Drawing[];
  /** Start of the thread's page in ride time: the shot with the 60 s before it. */
  /** What of the picture is hidden, wherever it is shown. Missing: nothing. */
  readonly covers?: readonly Cover[];
  /** The part of the picture that fills the frame, by clip time. Missing: all of it. */
  readonly closeUp?: readonly CloseUpKey[];
  /** Another ride on the same road. Missing: none. */
  readonly beside?: ShotBeside;
  readonly pageStartS: number;
  readonly pageEndS: number;
  readonly clock: RideClock;
  /** As in `ClipPlacement`: how far ahead of the shown rider another's camera was, s. Missing: the rider's own, or unknown. */
  readonly leadS?: number;
  /** The moment it shows (index into the reading's list), or null. */
  readonly moment: number | null;
  /** Whose numbers; null when there is one rider. */
  readonly riderName: string | null;
  /** Why it is in the film, for `--why`. */
  readonly why: string;
  /** Sound file of a spoken comment, from the debrief's folder with `/`, or null. The shot holds until it ends. */
  readonly commentPath: string | null;
  /** How long the comment lasts, s; missing: not known yet. */
  readonly commentS?: number;
  /** Crossfade from the item before, s; 0 is a cut. */
  readonly crossfadeS: number;
  /** True: the ride's own sound carries speech and stays up beneath a comment and at any speed to 2x. Missing: false. */
  readonly keepRideSound?: boolean;
  readonly momentKey?: MomentKey;
  /** Mark of the captions as the program wrote them; while they still are those, they follow the reading. Missing: a person's. */
  readonly made?: string;
}

export interface CardItem {
  readonly type: "card";
  readonly id: string;
  readonly durationS: number;
  readonly card: Card;
  readonly moment: number | null;
  readonly why: string;
  /** As of a shot. */
  readonly commentPath: string | null;
  readonly commentS?: number;
  readonly crossfadeS: number;
  readonly momentKey?: MomentKey;
  /** Mark of the card as the program wrote it, as of a shot's captions. */
  readonly made?: string;
}

export type FilmItem = Shot | CardItem;

/** Ids of the clips that an item shows. */
export function clipsShownBy(item: FilmItem): string[] {
  if (item.type === "shot") return [item.clipId];
  if (item.card.kind !== "pair") return [];
  return item.card.sides.flatMap(({ footage }) => (footage === null ? [] : [footage.clipId]));
}

export interface Film {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly frameRate: Rational;
  readonly items: readonly FilmItem[];
  /** What was left out and why, for `--why`. */
  readonly leftOut: readonly string[];
}
