import type { Film, FilmItem } from "../contract/film.ts";
import type { Preset } from "../contract/presets.ts";
import { BUFFER_S, LEAST_KBPS, MOST_KBPS, pictureKbps } from "./encoding.ts";
import { planParts, type Part } from "./planParts.ts";

/** A second of a card takes so much of what a second of footage takes: common practice, no source. */
const CARD_SHARE = 0.25;
/** An encoder's buffer is full to this when it begins (x264's own setting, from memory). */
const BUFFER_FULL = 0.9;
/** Ceilings come in steps of this, so that a part a little larger or smaller changes no ceiling after it. */
const STEP = 1.05;
/** A part that takes so much of its ceiling would have taken more. */
const LIMITED_FROM = 0.8;
/** At least so much of a size is used where the film needs it. */
const LEAST_USED = 0.87;

/** What sound takes that is silent, kbit/s. */
const SILENCE_KBPS = 16;

interface PartLength {
  readonly lengthS: number;
  /** Seconds of footage, with those of cards at their share. */
  readonly weightS: number;
}

/** What each part of a film may take so that the whole keeps within a size. */
export interface SizeBudget {
  /** Ceiling of the next part, kbit/s, from what those before it have left. */
  ceilingKbps(part: number): number;
  took(part: number, bits: number): void;
  /**
   * Parts to make once more, with their ceilings, kbit/s: the largest smaller where the whole came out too large; those
   * that wanted more where much was left. Empty where the first pass hit.
   */
  secondPass(): ReadonlyMap<number, number>;
}

/** The budget of a film for a preset with a size. @param sizeMb largest size of the file, MB (10^6 bytes) */
export function sizeBudget(film: Film, preset: Preset, sizeMb: number, lengthS: number): SizeBudget {
  const lengths = planParts(film).map((part) => lengthOf(part, film));
  // A card without a comment is silent, and silence is small.
  const silentS = film.items.reduce(
    (silent, item) => silent + (item.type === "card" && item.commentPath === null ? item.durationS : 0),
    0,
  );
  const wholeBits =
    (pictureKbps(preset, sizeMb, lengthS) * lengthS + Math.max(0, preset.audioKbps - SILENCE_KBPS) * silentS) * 1000;
  const bits: number[] = [];
  const ceilings: number[] = [];
  const sum = (from: number, of: (one: PartLength) => number): number =>
    lengths.slice(from).reduce((total, one) => total + of(one), 0);
  const usedBits = (): number => bits.reduce((total, one) => total + one, 0);
  /** At full rate with a full buffer first, a part takes its length and this much more. */
  const atMostS = (part: number): number => lengths[part]!.lengthS + BUFFER_FULL * BUFFER_S;

  return {
    ceilingKbps(part) {
      const leftBits = wholeBits - usedBits();
      const shareBits = (leftBits * lengths[part]!.weightS) / sum(part, ({ weightS }) => weightS);
      const laterBits = LEAST_KBPS * 1000 * sum(part + 1, (one) => one.lengthS);
      const wished = shareBits / lengths[part]!.weightS;
      const possible = (leftBits - laterBits) / atMostS(part);
      ceilings[part] = inSteps(Math.min(wished, possible) / 1000);
      return ceilings[part];
    },
    took(part, taken) {
      bits[part] = taken;
    },
    secondPass() {
      const again = new Map<number, number>();
      const overBits = usedBits() - wholeBits;
      if (overBits > 0) {
        const largest = bits.indexOf(Math.max(...bits));
        again.set(largest, Math.max(100, Math.floor((bits[largest]! - 1.5 * overBits) / 1000 / atMostS(largest))));
        return again;
      }
      const limited = lengths.flatMap((length, part) => {
        const full =
          ceilings[part]! < MOST_KBPS && bits[part]! >= LIMITED_FROM * ceilings[part]! * 1000 * length.lengthS;
        return full ? [part] : [];
      });
      if (usedBits() >= LEAST_USED * wholeBits || limited.length === 0) return again;
      const limitedBits = limited.reduce((total, part) => total + bits[part]!, 0);
      const more = 1 - overBits / limitedBits;
      for (const part of limited) {
        const possible = (bits[part]! * more) / 1000 / atMostS(part);
        const wished = Math.min(ceilings[part]! * more, possible);
        if (wished > ceilings[part]! * STEP) again.set(part, inSteps(wished));
      }
      return again;
    },
  };
}

function standsStill(item: FilmItem): boolean {
  return item.type === "card" && item.card.kind !== "pair";
}

function lengthOf(part: Part, film: Film): PartLength {
  const { num, den } = film.frameRate;
  const ownFrames = part.pieces.map(({ item, frames, crossfadeFrames }) => ({
    card: standsStill(film.items[item]!),
    frames: frames - crossfadeFrames,
  }));
  const weighted = ownFrames.reduce((sum, { card, frames }) => sum + (card ? CARD_SHARE : 1) * frames, 0);
  return { lengthS: (part.frames * den) / num, weightS: (weighted * den) / num };
}

/** Down to the next step; never above what is worth having nor below what can be watched. */
function inSteps(kbps: number): number {
  const stepped = STEP ** Math.floor(Math.log(Math.max(1, kbps)) / Math.log(STEP));
  return Math.max(Math.min(LEAST_KBPS, Math.floor(kbps)), Math.min(MOST_KBPS, Math.floor(stepped)));
}
