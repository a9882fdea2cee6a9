import type { Listing } from "../../main/contract/debriefApi.ts";

/** A dropped file as a browser tells it: no path. */
export interface DroppedFile {
  readonly name: string;
  readonly bytes: number;
}

/** Ids of the entries that are the dropped files: same name and size; a dropped folder matches by name alone. */
export function droppedMatches(listing: Listing, dropped: readonly DroppedFile[]): string[] {
  return listing.entries
    .filter((entry) =>
      dropped.some((file) => file.name === entry.name && (entry.kind === "folder" || file.bytes === entry.bytes)),
    )
    .map((entry) => entry.id);
}
