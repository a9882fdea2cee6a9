import { useMemo, useState } from "react";
import type { DebriefView, ReadingView } from "../../main/contract/debriefApi.ts";
import type { Moment } from "../../main/contract/reading.ts";
import { FILMED } from "../words/skim.ts";
import { type PlacedClip, firstFilmed } from "../player/placedClips.ts";
import type { StripMoment } from "../strip/paintStrip.ts";
import { useKept } from "../desk/useKept.ts";
import { type KnownMoment, sameMoment } from "./momentChoices.ts";

/** The moment that is open. One of the coach's own goes only because its coach takes it away: nothing needs saying then. */
interface HeldMoment extends KnownMoment {
  readonly own: boolean;
}

export type SkimMoments = ReturnType<typeof useSkimMoments>;

/** The moments as they are listed: by kind, with what was said about them; and the one that is open. */
export function useSkimMoments(debrief: DebriefView, placed: readonly PlacedClip[]) {
  const { document: doc, momentWords, momentChoices, film } = debrief;
  const reading = debrief.reading!;
  const [kind, setKind] = useState<string | null>(null);
  const all = useMemo(
    () =>
      reading.moments
        .map((moment, index): StripMoment & { readonly kind: string } => {
          const choice = momentChoices[index];
          const { startS, endS } = choice?.span ?? moment;
          return {
            index,
            kind: moment.kind,
            startS,
            endS,
            keep: choice?.keep ?? null,
            inFilm: film?.items.some((item) => item.moment === index) ?? false,
            words: choice?.name ?? momentWords[index]!,
          };
        })
        .sort((a, b) => a.startS - b.startS),
    [reading.moments, momentChoices, momentWords, film],
  );
  const kinds = useMemo(() => {
    const counts = new Map<string, number>();
    for (const one of all) counts.set(one.kind, (counts.get(one.kind) ?? 0) + 1);
    // The kind that is shown stays to be chosen from, also once its last moment is gone.
    if (kind !== null && !counts.has(kind)) counts.set(kind, 0);
    const filmedCount = all.filter((one) => isFilmed(placed, one)).length;
    const listed = [...counts].map(([name, count]) => ({ kind: name, count }));
    return placed.length === 0 ? listed : [{ kind: FILMED, count: filmedCount }, ...listed.filter(isKind)];
  }, [all, kind, placed]);
  const moments = useMemo(
    () =>
      kind === null
        ? all
        : kind === FILMED
          ? all.filter((one) => isFilmed(placed, one))
          : all.filter((one) => one.kind === kind),
    [all, kind, placed],
  );
  const filmed = (span: { readonly startS: number; readonly endS: number }) => isFilmed(placed, span);
  const nextKind = () => {
    const at = kinds.findIndex((one) => one.kind === kind);
    setKind(at + 1 < kinds.length ? kinds[at + 1]!.kind : null);
  };

  const asHeld = (moment: Moment): HeldMoment => ({
    kind: moment.kind,
    startS: moment.startS,
    own: doc.ownMoments.some((one) => sameMoment(one, moment)),
  });
  // The moment itself, not its place in the reading: an overruled break takes moments away, and another must not stand in.
  const [before, keepHeld] = useKept("moment", debrief);
  const [held, setHeld] = useState<HeldMoment | null>(() => {
    const one = heldBefore(before);
    if (one !== null && reading.moments.some((moment) => sameMoment(one, moment))) return one;
    const first = reading.moments.at(firstRanked(reading, placed) ?? Infinity);
    return first === undefined ? null : asHeld(first);
  });
  const hold = (next: HeldMoment | null) => {
    keepHeld(next === null ? null : JSON.stringify(next));
    setHeld(next);
  };
  const heldAt = held === null ? -1 : reading.moments.findIndex((moment) => sameMoment(held, moment));
  const selected = heldAt < 0 ? null : heldAt;
  const chosen = reading.moments.at(selected ?? Infinity);

  const gone = held !== null && !held.own && chosen === undefined;
  const open = (index: number) => hold(asHeld(reading.moments[index]!));
  return { all, kinds, moments, kind, setKind, nextKind, filmed, selected, chosen, gone, open, hold };
}

const isKind = ({ kind }: { readonly kind: string }): boolean => kind !== FILMED;

/** The moment that was open when another step came, or the page was loaded anew; null: none. */
function heldBefore(text: string | null): HeldMoment | null {
  if (text === null) return null;
  const { kind, startS, own } = JSON.parse(text) as Partial<HeldMoment>;
  return typeof kind === "string" && typeof startS === "number" && typeof own === "boolean"
    ? { kind, startS, own }
    : null;
}

function isFilmed(placed: readonly PlacedClip[], { startS, endS }: { readonly startS: number; readonly endS: number }) {
  return firstFilmed(placed, startS, endS) !== null;
}

/** What was filmed is seen first. */
function firstRanked({ moments }: ReadingView, placed: readonly PlacedClip[]): number | null {
  const ranked = [...moments.keys()].sort((a, b) => moments[a]!.rank - moments[b]!.rank);
  return ranked.find((index) => isFilmed(placed, moments[index]!)) ?? ranked.at(0) ?? null;
}
