import { useEffect, useState } from "react";

/** What was fetched last, and what went wrong with the newest address. */
export interface Fetched<T> {
  readonly value: T | null;
  readonly error: Error | null;
}

const kept = new Map<string, Promise<unknown>>();
const MOST_KEPT = 24;

/** Fetches by address, once for all components; while a new address is on its way the value before stays. Null fetches nothing. */
export function useFetched<T>(address: string | null, fetcher: (address: string) => Promise<T>): Fetched<T> {
  const [fetched, setFetched] = useState<Fetched<T>>({ value: null, error: null });
  useEffect(() => {
    if (address === null) return;
    let here = true;
    const set = (next: (before: Fetched<T>) => Fetched<T>) => here && setFetched(next);
    fetchOnce(address, fetcher).then(
      (value) => set(() => ({ value, error: null })),
      (error: unknown) =>
        set(({ value }) => ({ value, error: error instanceof Error ? error : new Error(String(error)) })),
    );
    return () => void (here = false);
    // The fetcher is a function of a module; only the address tells what is wanted.
  }, [address]);
  return fetched;
}

/** What lies at an address, fetched once while it is among the last that were asked for; what failed is asked for anew. */
export function fetchOnce<T>(address: string, fetcher: (address: string) => Promise<T>): Promise<T> {
  const known = kept.get(address) as Promise<T> | undefined;
  if (known !== undefined) return known;
  const coming = fetcher(address);
  kept.set(address, coming);
  coming.catch(() => kept.delete(address));
  for (const oldest of kept.keys()) {
    if (kept.size <= MOST_KEPT) break;
    kept.delete(oldest);
  }
  return coming;
}
