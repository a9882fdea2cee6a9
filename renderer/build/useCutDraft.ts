import { useEffect, useRef, useState } from "react";
import type { Shot } from "../../main/contract/film.ts";

/** Keys are taken together until they rest so long. */
const REST_MS = 600;
/** An answer that has not come by then is given up: what stands is shown. */
const GIVE_UP_MS = 5000;

type Timer = ReturnType<typeof setTimeout> | undefined;

const sameCut = (a: Shot, b: Shot): boolean => a.mediaStartS === b.mediaStartS && a.mediaEndS === b.mediaEndS;

/**
 * A shot's cut while it is being changed, one change at a time: what is pressed on while the answer to the change before
 * is under way is kept, and sent once that came.
 *
 * @returns `now`, the shot as it is to be shown; `show` a cut that is not made yet; `make` it; `makeAtRest`, once keys rest
 */
export function useCutDraft(shot: Shot, onTrim: (mediaStartS: number, mediaEndS: number) => void) {
  const [draft, setDraft] = useState<Shot | null>(null);
  const rest = useRef<Timer>(undefined);
  const givesUp = useRef<Timer>(undefined);
  const latest = useRef({ shot, onTrim });
  /** The shot on which a cut was made that has not come back yet. */
  const awaited = useRef<Shot | null>(null);
  useEffect(() => void (latest.current = { shot, onTrim }));
  useEffect(() => {
    if (awaited.current !== null && !sameCut(awaited.current, shot)) awaited.current = null;
    if (awaited.current === null && rest.current === undefined) setDraft(null);
  }, [shot]);
  useEffect(
    () => () => {
      clearTimeout(rest.current);
      clearTimeout(givesUp.current);
    },
    [],
  );

  const make = (next: Shot): void => {
    const now = latest.current;
    clearTimeout(rest.current);
    rest.current = undefined;
    if (sameCut(next, now.shot)) {
      setDraft(null);
      return;
    }
    awaited.current = now.shot;
    clearTimeout(givesUp.current);
    givesUp.current = setTimeout(() => {
      awaited.current = null;
      if (rest.current === undefined) setDraft(null);
    }, GIVE_UP_MS);
    now.onTrim(next.mediaStartS, next.mediaEndS);
  };
  const makeAtRest = (next: Shot): void => {
    clearTimeout(rest.current);
    rest.current = setTimeout(() => (awaited.current === null ? make(next) : makeAtRest(next)), REST_MS);
  };
  return { now: draft ?? shot, show: setDraft, make, makeAtRest };
}
