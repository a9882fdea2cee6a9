import { type RefObject, useEffect, useRef } from "react";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { useOneStop } from "../look/useOneStop.ts";
import type { StripMoment } from "../strip/paintStrip.ts";
import { skim as words } from "../words/skim.ts";

interface Props {
  readonly moments: readonly StripMoment[];
  readonly kinds: readonly { readonly kind: string; readonly count: number }[];
  readonly total: number;
  readonly kind: string | null;
  readonly selected: number | null;
  readonly filmed: (moment: StripMoment) => boolean;
  readonly onKind: (kind: string | null) => void;
  readonly onSelect: (index: number) => void;
}

/** Moments as short sentences, in the order of the ride. */
export function MomentList({ moments, kinds, total, kind, selected, filmed, onKind, onSelect }: Props) {
  const list = useRef<HTMLUListElement>(null);
  useWholeRows(list, moments);
  const begun = useRef(false);
  useEffect(() => {
    // Newer browsers answer with a promise, which must not become the effect's clean-up.
    const current = list.current?.querySelector<HTMLElement>('[aria-current="true"]');
    void current?.scrollIntoView({ block: "nearest" });
    // Keys that go on from a focused row take the focus along, lest Space and Enter go to the row left behind; so do
    // those that go on from the details of the moment before, which are gone.
    const { activeElement } = document;
    const lost = begun.current && activeElement === document.body;
    if (lost || list.current?.contains(activeElement)) current?.focus({ preventScroll: true });
    begun.current = true;
  }, [selected]);
  // The screen's own arrow keys choose a row and take the focus along.
  const { row } = useOneStop(
    list,
    moments.map(({ index }) => index),
    selected,
  );
  return (
    <div className="skim-moments">
      {(kinds.length > 1 || kind !== null) && (
        <label className="skim-filter">
          <span>{words.filter}</span>
          <select
            className="input"
            value={kind ?? ""}
            onChange={(event) => onKind(event.target.value === "" ? null : event.target.value)}
          >
            <option value="">{words.all(total)}</option>
            {kinds.map((one) => (
              <option key={one.kind} value={one.kind}>
                {words.ofKind(one.kind, one.count)}
              </option>
            ))}
          </select>
        </label>
      )}
      {moments.length === 0 && <p className="quiet skim-none">{total === 0 ? words.none : words.noneOfKind}</p>}
      <ul ref={list} className="skim-list scroll" aria-label={words.list}>
        {moments.map((moment) => (
          <li key={moment.index}>
            <button
              type="button"
              {...row(moment.index)}
              className={`skim-moment ${moment.inFilm ? "kept" : moment.keep === false ? "dropped" : ""}`}
              aria-current={moment.index === selected}
              onClick={() => onSelect(moment.index)}
            >
              <span className="skim-at">{clockText(moment.startS)}</span>
              <span>
                <span className="skim-words">{keepUnits(moment.words)}</span>{" "}
                <span className="skim-state">{stateText(moment, filmed(moment))}</span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** The focus goes to the list: to the chosen moment, else to the one last gone to, else to the first. */
export function focusMoments(): void {
  document.querySelector<HTMLElement>('.skim-list [tabindex="0"]')?.focus();
}

/** Rows that are not whole in sight are not seen at all: no sentence is cut in half. */
function useWholeRows(list: RefObject<HTMLUListElement | null>, moments: Props["moments"]): void {
  useEffect(() => {
    const root = list.current!;
    const seen = new IntersectionObserver(
      (entries) => {
        for (const { target, intersectionRatio } of entries) target.classList.toggle("cut", intersectionRatio < 0.95);
      },
      { root, threshold: [0, 0.95] },
    );
    for (const row of root.children) seen.observe(row);
    // What opens below takes room from the list: the chosen row stays in it.
    const room = new ResizeObserver(() =>
      root.querySelector('[aria-current="true"]')?.scrollIntoView({ block: "nearest" }),
    );
    room.observe(root);
    return () => {
      seen.disconnect();
      room.disconnect();
    };
  }, [list, moments]);
}

/** Read off the film: kept alone says nothing about what is in it. */
function stateText({ inFilm, keep }: StripMoment, filmed: boolean): string {
  if (inFilm) return words.state.in;
  if (keep === false) return words.state.drop;
  if (keep === true) return words.state.noRoom;
  return filmed ? "" : words.notFilmed;
}
