/** Something that had a span when a person spoke of it. `endS` null: only its start is known. */
export interface SoughtSpan {
  readonly kind: string;
  readonly startS: number;
  readonly endS: number | null;
}

/** Something that has a span now. */
export interface FoundSpan {
  readonly kind: string;
  readonly startS: number;
  readonly endS: number;
}

/** What one sought span is among those found. */
export interface SpanMatch {
  /** Index of the one it surely is; null: it has to be asked. */
  readonly sure: number | null;
  /** Where it has to be asked: indices of those it may be, likeliest first; none: nothing like it is near. */
  readonly among: readonly number[];
}

/** Times are the same within this, s: rounding, no move. */
const SAME_S = 0.5;
/** An end may have moved so far, s. Less than half of what lies between two moments of one kind. Own choice. */
const MOVED_S = 7;
/** A rival is so many times further away, or it has to be asked. Own choice. */
const RIVAL_TIMES = 2;
/** So far around is asked about, s, and about so many at most. Own choice. */
const ASK_WITHIN_S = 60;
const ASK_MOST = 4;

/** How two spans lie to each other: shared part of both together and of the shorter (0 to 1), the nearer end's move, s. */
function between(sought: SoughtSpan, found: FoundSpan): { both: number; shorter: number; movedS: number } {
  const startS = Math.abs(found.startS - sought.startS);
  if (sought.endS === null) {
    const inside = sought.startS >= found.startS && sought.startS < found.endS;
    return { both: 0, shorter: inside ? 1 : 0, movedS: startS };
  }
  const sharedS = Math.max(0, Math.min(sought.endS, found.endS) - Math.max(sought.startS, found.startS));
  const lengths = [sought.endS - sought.startS, found.endS - found.startS] as const;
  const ratio = (ofS: number): number => (ofS > 0 ? sharedS / ofS : 0);
  return {
    both: ratio(lengths[0] + lengths[1] - sharedS),
    shorter: ratio(Math.min(...lengths)),
    movedS: Math.min(startS, Math.abs(found.endS - sought.endS)),
  };
}

/** Seconds between two spans; 0 where they touch. */
function apartS(sought: SoughtSpan, found: FoundSpan): number {
  return Math.max(0, found.startS - (sought.endS ?? sought.startS), sought.startS - found.endS);
}

/**
 * Knows spans again that may have moved, been cut or joined since: each sought one is at most one found one of its kind,
 * and none is two. Sure is, in this order: the same times; half of both together shared; half of the shorter shared or
 * an end moved by seconds, with no rival on either side. All else has to be asked. A span that moved as far as its
 * neighbour of the same kind is away cannot be told from it.
 * @returns one match for each sought span, in their order
 */
export function matchSpans(sought: readonly SoughtSpan[], found: readonly FoundSpan[]): SpanMatch[] {
  const sure = sought.map((): number | null => null);
  const taken = new Set<number>();
  const take = (pairs: readonly (readonly [number, number])[]): void => {
    for (const [one, other] of pairs) {
      if (sure[one] !== null || taken.has(other)) continue;
      sure[one] = other;
      taken.add(other);
    }
  };
  const free = (fits: (one: SoughtSpan, other: FoundSpan) => boolean): [number, number][] =>
    sought.flatMap((one, at) =>
      sure[at] !== null
        ? []
        : found.flatMap((other, index): [number, number][] =>
            !taken.has(index) && one.kind === other.kind && fits(one, other) ? [[at, index]] : [],
          ),
    );
  const alone = (pairs: readonly (readonly [number, number])[]): (readonly [number, number])[] =>
    pairs.filter(([a, b]) => pairs.every(([c, d]) => (a === c) === (b === d)));

  take(
    free(
      (one, { startS, endS }) =>
        Math.abs(startS - one.startS) < SAME_S && (one.endS === null || Math.abs(endS - one.endS) < SAME_S),
    ),
  );
  take(alone(free((one, other) => between(one, other).both >= 0.5)));
  const fair = (one: SoughtSpan, other: FoundSpan): boolean => {
    const { shorter, movedS } = between(one, other);
    return shorter >= 0.5 || movedS <= MOVED_S;
  };
  const rivals = free(() => true);
  take(
    alone(free(fair)).filter(([a, b]) => {
      const { movedS } = between(sought[a], found[b]);
      return rivals.every(
        ([c, d]) => (a === c) === (b === d) || between(sought[c], found[d]).movedS >= RIVAL_TIMES * movedS,
      );
    }),
  );
  return sought.map((one, at) => ({ sure: sure[at], among: sure[at] === null ? likely(one, found, taken) : [] }));
}

/** Those around that it may be: of its kind before others, free ones before those that another surely is, near ones first. */
function likely(sought: SoughtSpan, found: readonly FoundSpan[], taken: ReadonlySet<number>): number[] {
  return found
    .map((other, index) => ({
      index,
      apartS: apartS(sought, other),
      rank: (other.kind === sought.kind ? 0 : 2) + (taken.has(index) ? 1 : 0),
      movedS: between(sought, other).movedS,
    }))
    .filter((one) => one.apartS <= (one.rank < 2 ? ASK_WITHIN_S : 0))
    .sort((a, b) => a.rank - b.rank || a.apartS - b.apartS || a.movedS - b.movedS)
    .slice(0, ASK_MOST)
    .map(({ index }) => index);
}
