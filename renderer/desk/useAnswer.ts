import { type DependencyList, useEffect, useState } from "react";

/**
 * What the program answers to a question that is asked again whenever something of `of` changes; `before` until the first
 * answer. An answer that comes after the next question, or after the part has gone, is dropped.
 * @param failed what stands in place of an answer; without it what was there before stays
 */
export function useAnswer<T>(ask: () => Promise<T>, of: DependencyList, before: T, failed?: (error: unknown) => T): T {
  const [answer, setAnswer] = useState(before);
  useEffect(() => {
    let here = true;
    ask().then(
      (found) => here && setAnswer(found),
      (error: unknown) => here && failed !== undefined && setAnswer(failed(error)),
    );
    return () => void (here = false);
  }, of);
  return answer;
}
