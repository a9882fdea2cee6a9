import { type Ref, type KeyboardEvent } from "react";
import type { Listing, PathId } from "../../main/contract/debriefApi.ts";
import { common } from "../words/common.ts";
import { Button } from "../look/Button.tsx";
import { Tick } from "../look/Tick.tsx";
import { bytesText } from "../look/bytesText.ts";
import { dayText } from "../look/dayText.ts";
import { picker as words } from "../words/picker.ts";
import type { PickerWants } from "./pickerWants.ts";
import { type DroppedFile, droppedMatches } from "./droppedMatches.ts";

type Entry = Listing["entries"][number];

interface HeadProps {
  /** The folder that is looked into; null: none yet. */
  readonly path: string | null;
  readonly filter: string;
  /** Null: it is the topmost. */
  readonly onUp: (() => void) | null;
  readonly onFilter: (letters: string) => void;
}

/** Where one is, the way up, and letters that names must have. */
export function PickerHead({ path, filter, onUp, onFilter }: HeadProps) {
  return (
    <div className="row picker-head">
      <Button onClick={() => onUp?.()} disabled={onUp === null}>
        {words.up}
      </Button>
      <span className="grow picker-path">{path === null ? words.loading : words.here(path)}</span>
      <label className="row">
        <span className="small">{words.filter}</span>
        <input
          className="input picker-filter"
          value={filter}
          autoComplete="off"
          onChange={(event) => onFilter(event.target.value)}
        />
      </label>
    </div>
  );
}

interface PlacesProps {
  readonly places: readonly { readonly id: PathId; readonly name: string }[];
  readonly onOpen: (id: PathId) => void;
}

/** Folders to begin at. */
export function PlaceList({ places, onOpen }: PlacesProps) {
  return (
    <nav aria-label={words.places} className="picker-places">
      <h3>{words.places}</h3>
      <ul>
        {places.map((place) => (
          <li key={place.id}>
            <Button kind="bare" onClick={() => onOpen(place.id)}>
              {place.name}
            </Button>
          </li>
        ))}
      </ul>
    </nav>
  );
}

interface DroppedProps {
  readonly dropped: readonly DroppedFile[];
  readonly listing: Listing | null;
}

/** What was dropped, and how much of it lies in this folder. */
export function DroppedNote({ dropped, listing }: DroppedProps) {
  const found = listing === null ? 0 : droppedMatches(listing, dropped).length;
  return (
    <div className="note picker-told">
      <p>
        {words.dropped(dropped.map((file) => file.name).join(", "))}{" "}
        {found > 0 && <b>{words.droppedFound(found, dropped.length)}</b>}
      </p>
    </div>
  );
}

interface EntryListProps {
  readonly list: Ref<HTMLUListElement>;
  readonly listId: string;
  /** More than one may be chosen. */
  readonly many: boolean;
  readonly listing: Listing | null;
  readonly entries: readonly Entry[];
  /** The entry that keys act on. */
  readonly at: number;
  readonly chosen: ReadonlySet<PathId>;
  /** Said where there is nothing. */
  readonly empty: string;
  readonly onKeys: (event: KeyboardEvent) => void;
  /** `ranged`: with Shift, all up to it. */
  readonly onClick: (index: number, ranged: boolean) => void;
}

/** Folders and files of one folder. */
export function EntryList({
  list,
  listId,
  many,
  listing,
  entries,
  at,
  chosen,
  empty,
  onKeys,
  onClick,
}: EntryListProps) {
  return (
    <ul
      ref={list}
      role="listbox"
      tabIndex={0}
      aria-multiselectable={many}
      aria-label={words.entries(listing?.path ?? "")}
      aria-activedescendant={entries.length > 0 ? `${listId}-${at}` : undefined}
      className="picker-list scroll"
      onKeyDown={onKeys}
    >
      {entries.map((entry, index) => (
        <li
          key={entry.id}
          id={`${listId}-${index}`}
          role="option"
          aria-selected={chosen.has(entry.id)}
          className={[index === at ? "active" : "", entry.kind].join(" ")}
          onClick={(event) => {
            // The second click of a double click: a folder has opened under it, a file was chosen by the first.
            if (event.detail > 1) return;
            onClick(index, event.shiftKey);
          }}
        >
          <span className="picker-name">{entry.name}</span>
          <span className="quiet">{words.kinds[entry.kind]}</span>
          <span className="quiet number">{entry.kind === "folder" ? "" : bytesText(entry.bytes)}</span>
          <span className="quiet number">{dayText(entry.modifiedUtcMs)}</span>
        </li>
      ))}
      {listing !== null && entries.length === 0 && (
        <li className="quiet picker-none" role="option" aria-selected={false} aria-disabled="true">
          {empty}
        </li>
      )}
    </ul>
  );
}

interface ActionsProps {
  readonly wants: PickerWants;
  readonly listed: boolean;
  /** So many are chosen. */
  readonly count: number;
  readonly onTake: () => void;
  readonly onClose: () => void;
}

/** What is chosen, and what to do with it. */
export function PickerActions({ wants, listed, count, onTake, onClose }: ActionsProps) {
  const ofFolder = wants === "folder" || wants === "media";
  return (
    <>
      <span className="quiet grow" aria-live="polite">
        {wants === "files" && count > 0 && words.chosen(count)}
      </span>
      <Button onClick={onClose}>{common.cancel}</Button>
      {wants !== "debrief" && (
        <Button kind="main" onClick={onTake} disabled={ofFolder ? !listed : count === 0}>
          {wants === "media" ? words.lookHere : wants === "folder" ? words.takeFolder : words.take(count)}
        </Button>
      )}
    </>
  );
}

interface FootProps {
  readonly wants: PickerWants;
  readonly everything: boolean;
  readonly onEverything: (everything: boolean) => void;
}

/** How the keys work, and whether every file is listed. */
export function PickerFoot({ wants, everything, onEverything }: FootProps) {
  return (
    <div className="row apart small quiet">
      <span>{wants === "folder" ? words.helpFolder : wants === "media" ? words.helpMedia : words.help}</span>
      <Tick className="row" on={everything} onChange={onEverything}>
        {words.all}
      </Tick>
    </div>
  );
}
