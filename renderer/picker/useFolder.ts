import { useCallback, useEffect, useRef, useState } from "react";
import type { Listing, PathId } from "../../main/contract/debriefApi.ts";
import type { FailureData } from "../../main/contract/failure.ts";
import { desk } from "../desk/desk.ts";
import { failureOf } from "../desk/failureOf.ts";
import type { PickerWants } from "./pickerWants.ts";
import { type DroppedFile, droppedMatches } from "./droppedMatches.ts";

interface Folder {
  readonly places: readonly { readonly id: PathId; readonly name: string }[];
  /** Null: none was read yet. */
  readonly listing: Listing | null;
  readonly failure: FailureData | null;
  readonly open: (id: PathId) => Promise<void>;
  /** The next time it begins in the folder that is open now. */
  readonly remember: () => void;
}

/** Where something was taken last, for each thing that is chosen; as long as the window is open. */
const lastTaken = new Map<PickerWants, PathId>();

/**
 * The folder that is looked into: the first place that holds what was dropped, or where something was taken last; then
 * whichever is opened.
 * @param onListing told of each new listing
 * @param onBegun told once the first stands there
 */
export function useFolder(
  wants: PickerWants,
  dropped: readonly DroppedFile[],
  onListing: (next: Listing) => void,
  onBegun: () => void,
): Folder {
  const [places, setPlaces] = useState<readonly { readonly id: PathId; readonly name: string }[]>([]);
  const [listing, setListing] = useState<Listing | null>(null);
  const [failure, setFailure] = useState<FailureData | null>(null);
  const asked = useRef(0);
  const show = useCallback(
    (next: Listing) => {
      setListing(next);
      setFailure(null);
      onListing(next);
    },
    [onListing],
  );
  const open = useCallback(
    async (id: PathId) => {
      const turn = ++asked.current;
      try {
        const next = await desk.listFolder(id);
        if (turn === asked.current) show(next);
      } catch (error) {
        if (turn === asked.current) setFailure(failureOf(error));
      }
    },
    [show],
  );

  useEffect(() => {
    const turn = ++asked.current;
    void (async () => {
      try {
        const found = await desk.places();
        if (turn !== asked.current) return;
        setPlaces(found);
        const last = dropped.length > 0 ? undefined : lastTaken.get(wants);
        // One that is gone since is passed over.
        const first =
          (last === undefined ? null : await desk.listFolder(last).catch(() => null)) ??
          (await firstWith(found, dropped));
        if (turn === asked.current && first !== null) show(first);
        onBegun();
      } catch (error) {
        if (turn === asked.current) setFailure(failureOf(error));
      }
    })();
  }, [wants, dropped, show, onBegun]);
  const remember = () => listing !== null && void lastTaken.set(wants, listing.id);
  return { places, listing, failure, open, remember };
}

/** The first place that holds a dropped file, else the first place. A place that can't be read is passed over. */
async function firstWith(
  places: readonly { readonly id: PathId }[],
  dropped: readonly DroppedFile[],
): Promise<Listing | null> {
  let first: Listing | null = null;
  for (const place of places) {
    const listing = await desk.listFolder(place.id).catch(() => null);
    if (listing === null) continue;
    first ??= listing;
    if (dropped.length === 0 || droppedMatches(listing, dropped).length > 0) return listing;
  }
  return first;
}
