import { useCallback, useEffect, useRef, useState } from "react";
import type { FailureData } from "../../main/contract/failure.ts";
import { failureOf } from "../desk/failureOf.ts";

/** The calls that one screen makes: whether one is under way, and what the last one that failed said. */
export interface Calls {
  readonly busy: boolean;
  readonly failure: FailureData | null;
  /** Runs a call; a failure is kept for the screen to show. True when it went well. */
  readonly call: (run: () => Promise<unknown>) => Promise<boolean>;
  readonly forget: () => void;
}

/** Calls of a screen, with one place for their failure. */
export function useCalls(): Calls {
  const [open, setOpen] = useState(0);
  const [failure, setFailure] = useState<FailureData | null>(null);
  const here = useRef(true);
  useEffect(() => {
    here.current = true;
    return () => {
      here.current = false;
    };
  }, []);
  const call = useCallback(async (run: () => Promise<unknown>) => {
    setFailure(null);
    setOpen((count) => count + 1);
    try {
      await run();
      return true;
    } catch (error) {
      if (here.current) setFailure(failureOf(error));
      return false;
    } finally {
      if (here.current) setOpen((count) => count - 1);
    }
  }, []);
  const forget = useCallback(() => setFailure(null), []);
  return { busy: open > 0, failure, call, forget };
}
