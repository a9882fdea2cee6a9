import { useEffect, useRef, useState } from "react";
import type { Shot } from "../../main/contract/film.ts";

/** Keys are taken together until they rest so long. */
const REST_MS = 600;
/** An answer that has not come by then is given up: what stands is shown. */
const GIVE_UP_MS = 5000;
/** A cut made while the one before is under way looks again after so long whether its answer came. */
const AGAIN_MS = 50;

type Timer = ReturnType<typeof setTimeout> | undefined;

const sameCut = (a: Shot | null, b: Shot | null): boolean =>
  a?.mediaStartS === b?.mediaStartS && a?.mediaEndS === b?.mediaEndS;

/**
 * A shot's cut while it is being changed, one change at a time: what is pressed on, or dragged, while the answer to the
 * change before is under way is kept, and sent once that came; also when the shot is left meanwhile. Views of the
 * debrief that have nothing to do with the cut take nothing away.
 *
 * @param shot null: there is none, and nothing to cut
 * @returns `now`, the shot as it is to be shown; `show` a cut that is not made yet; `make` it; `makeAtRest`, once keys
 *   rest; `drop` what is shown and not made
 */
export function useCutDraft<Given extends Shot | null>(
  shot: Given,
  onTrim: (mediaStartS: number, mediaEndS: number) => void,
) {
  const [draft, setDraft] = useState<Shot | null>(null);
  const rest = useRef<Timer>(undefined);
  const givesUp = useRef<Timer>(undefined);
  const latest = useRef({ shot, onTrim });
  /** The shot on which a cut was made that has not come back yet. */
  const awaited = useRef<Shot | null>(null);
  /** What is shown and not made yet: a hand or keys are at it. */
  const open = useRef<Shot | null>(null);
  const before = useRef<Shot | null>(shot);
  useEffect(() => void (latest.current = { shot, onTrim }));
  useEffect(() => {
    const changed = !sameCut(before.current, shot);
    before.current = shot;
    if (!changed) return;
    awaited.current = null;
    if (open.current === null) setDraft(null);
  }, [shot]);
  useEffect(
    () => () => {
      clearTimeout(rest.current);
      clearTimeout(givesUp.current);
      const left = open.current;
      if (rest.current !== undefined && left !== null && !sameCut(left, latest.current.shot))
        latest.current.onTrim(left.mediaStartS, left.mediaEndS);
    },
    [],
  );

  const show = (next: Shot): void => {
    open.current = next;
    setDraft(next);
  };
  const drop = (): void => {
    open.current = null;
    if (awaited.current === null) setDraft(null);
  };
  const send = (next: Shot): void => {
    const now = latest.current;
    rest.current = undefined;
    open.current = null;
    if (sameCut(next, now.shot)) {
      setDraft(null);
      return;
    }
    awaited.current = now.shot;
    clearTimeout(givesUp.current);
    givesUp.current = setTimeout(() => {
      awaited.current = null;
      if (open.current === null) setDraft(null);
    }, GIVE_UP_MS);
    now.onTrim(next.mediaStartS, next.mediaEndS);
  };
  const makeAfter = (next: Shot, ms: number): void => {
    clearTimeout(rest.current);
    rest.current = setTimeout(() => (awaited.current === null ? send(next) : makeAfter(next, AGAIN_MS)), ms);
  };
  const make = (next: Shot): void => {
    clearTimeout(rest.current);
    if (awaited.current === null) send(next);
    else makeAfter(next, AGAIN_MS);
  };
  const makeAtRest = (next: Shot): void => makeAfter(next, REST_MS);
  // What is drafted is a shot where one was given.
  return { now: (draft ?? shot) as Given, show, make, makeAtRest, drop };
}
