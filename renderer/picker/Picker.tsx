import { type KeyboardEvent, useCallback, useEffect, useId, useRef, useState } from "react";
import type { Listing, PathId } from "../../main/contract/debriefApi.ts";
import { Dialog } from "../look/Dialog.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { picker as words } from "../words/picker.ts";
import type { PickerWants } from "./pickerWants.ts";
import { DroppedNote, EntryList, PickerActions, PickerFoot, PickerHead, PlaceList } from "./PickerParts.tsx";
import { useChosen } from "./useChosen.ts";
import { useFolder } from "./useFolder.ts";
import { type DroppedFile, droppedMatches } from "./droppedMatches.ts";
import "./picker.css";

type Entry = Listing["entries"][number];

interface Props {
  readonly wants: PickerWants;
  /** Replaces the title of the dialog. */
  readonly title?: string;
  /** Files dropped on the window, whose folder has to be found. */
  readonly dropped?: readonly DroppedFile[];
  readonly onPick: (ids: readonly PathId[]) => void;
  readonly onClose: () => void;
}

const USABLE: Readonly<Record<PickerWants, readonly Entry["kind"][]>> = {
  files: ["folder", "ride", "clip", "plan", "debrief"],
  folder: ["folder", "athlete"],
  debrief: ["folder", "debrief"],
  media: ["folder", "ride", "clip"],
};

/** One list for all renders: a new one each time would ask for the places again and again. */
const NOTHING_DROPPED: readonly DroppedFile[] = [];

/** Chooses files or a folder by the program's own listing, all by keyboard; the window never learns a path it could use. */
export function Picker({ wants, title, dropped = NOTHING_DROPPED, onPick, onClose }: Props) {
  const { chosen, keep, toggle, all, range } = useChosen(wants);
  const { filter, everything, setFilter, setEverything, setActive, begin, shownOf } = useShown(wants);
  const list = useRef<HTMLUListElement>(null);
  const listId = useId();
  const onListing = useCallback(
    (next: Listing) => {
      begin();
      keep(droppedMatches(next, dropped));
    },
    [dropped, wants],
  );
  const onBegun = useCallback(() => list.current?.focus(), []);
  const { places, listing, failure, open, remember } = useFolder(wants, dropped, onListing, onBegun);

  const { entries, at } = shownOf(listing);
  useInSight(`${listId}-${at}`, entries);

  const parentId = listing?.parentId ?? null;
  const { take, press, rangeTo } = usePicking({
    ...{ wants, listing, entries, at, chosen, open, onAt: setActive, toggle, range },
    onPick: (ids) => {
      remember();
      onPick(ids);
    },
  });
  const onKeys = pickerKeys({
    entries,
    at,
    many: chosen.size > 0,
    onAt: setActive,
    onPress: press,
    onRange: wants === "files" ? rangeTo : null,
    onAll: () => all(entries),
    onTake: take,
    onUp: parentId === null ? null : () => void open(parentId),
  });
  return (
    <Dialog
      wide
      title={title ?? words[wants]}
      onClose={onClose}
      actions={
        <PickerActions wants={wants} listed={listing !== null} count={chosen.size} onTake={take} onClose={onClose} />
      }
    >
      <div className="picker">
        {dropped.length > 0 && <DroppedNote dropped={dropped} listing={listing} />}
        <PlaceList places={places} onOpen={(id) => void open(id)} />
        <div className="picker-here">
          <PickerHead
            path={listing?.path ?? null}
            filter={filter}
            onUp={parentId === null ? null : () => void open(parentId)}
            onFilter={setFilter}
          />
          {failure !== null && <FailureNote failure={failure} />}
          <EntryList
            list={list}
            listId={listId}
            many={wants === "files"}
            listing={listing}
            entries={entries}
            at={at}
            chosen={chosen}
            empty={filter === "" ? words.empty : words.emptyFilter}
            onKeys={onKeys}
            onClick={(index, ranged) => {
              if (ranged && wants === "files") return rangeTo(index);
              setActive(index);
              press(entries[index]!);
            }}
          />
          <PickerFoot wants={wants} everything={everything} onEverything={setEverything} />
        </div>
      </div>
    </Dialog>
  );
}

interface PickingGiven extends Pick<ReturnType<typeof useChosen>, "chosen" | "toggle" | "range"> {
  readonly wants: PickerWants;
  readonly listing: Listing | null;
  readonly entries: readonly Entry[];
  readonly at: number;
  readonly open: (id: PathId) => Promise<void>;
  readonly onAt: (at: number) => void;
  readonly onPick: (ids: readonly PathId[]) => void;
}

/** What a press on an entry does, a range of entries, and the button that takes them. */
function usePicking({ wants, listing, entries, at, chosen, open, onAt, toggle, range, onPick }: PickingGiven) {
  const take = () => {
    if (wants === "folder" || wants === "media") {
      if (listing !== null) onPick([listing.id]);
    } else if (chosen.size > 0) onPick([...chosen]);
  };
  const press = (entry: Entry) => {
    if (entry.kind === "folder" || (entry.kind === "athlete" && wants !== "files")) return void open(entry.id);
    if ((wants === "debrief" && entry.kind === "debrief") || (wants === "media" && entry.kind !== "other"))
      return onPick([entry.id]);
    toggle(entry, entries);
  };
  const rangeTo = (to: number) => {
    onAt(to);
    range(entries, at, to);
  };
  return { take, press, rangeTo };
}

/** Which entries are shown, and the one that keys act on. */
function useShown(wants: PickerWants) {
  const [filter, setLetters] = useState("");
  const [everything, setEverything] = useState(false);
  const [active, setActive] = useState(0);
  const setFilter = useCallback((letters: string) => {
    setLetters(letters);
    setActive(0);
  }, []);
  const begin = useCallback(() => setFilter(""), [setFilter]);
  const shownOf = (listing: Listing | null) => {
    const entries = visibleEntries(listing, wants, everything, filter);
    return { entries, at: Math.min(active, Math.max(0, entries.length - 1)) };
  };
  return { filter, everything, setFilter, setEverything, setActive, begin, shownOf };
}

/** Keeps the entry that keys act on in sight. */
function useInSight(id: string, entries: readonly Entry[]): void {
  useEffect(() => {
    document.getElementById(id)?.scrollIntoView({ block: "nearest" });
  }, [id, entries.length]);
}

interface KeysGiven {
  readonly entries: readonly Entry[];
  readonly at: number;
  /** Something is chosen already. */
  readonly many: boolean;
  readonly onAt: (at: number) => void;
  readonly onPress: (entry: Entry) => void;
  /** Chooses all up to an entry; null: only one can be chosen. */
  readonly onRange: ((to: number) => void) | null;
  readonly onAll: () => void;
  readonly onTake: () => void;
  readonly onUp: (() => void) | null;
}

/** The keys of the list. */
function pickerKeys({ entries, at, many, onAt, onPress, onRange, onAll, onTake, onUp }: KeysGiven) {
  return (event: KeyboardEvent) => {
    const step = { ArrowDown: 1, ArrowUp: -1, PageDown: 10, PageUp: -10, Home: -entries.length, End: entries.length }[
      event.key
    ];
    const entry = entries.at(at);
    const to = Math.max(0, Math.min(entries.length - 1, at + (step ?? 0)));
    if (step !== undefined && event.shiftKey && onRange !== null) onRange(to);
    else if (step !== undefined) onAt(to);
    else if (event.key.toLowerCase() === "a" && (event.ctrlKey || event.metaKey) && onRange !== null) onAll();
    else if (event.key === " " && entry !== undefined && entry.kind !== "folder") onPress(entry);
    else if (event.key === "Enter" && entry !== undefined && (entry.kind === "folder" || !many)) onPress(entry);
    else if (event.key === "Enter") onTake();
    else if (event.key === "Backspace" && onUp !== null) onUp();
    else return;
    event.preventDefault();
  };
}

function visibleEntries(
  listing: Listing | null,
  wants: PickerWants,
  everything: boolean,
  filter: string,
): readonly Entry[] {
  if (listing === null) return [];
  const letters = filter.trim().toLowerCase();
  const order = (entry: Entry) => (entry.kind === "folder" ? 0 : 1);
  return listing.entries
    .filter((entry) => (everything || USABLE[wants].includes(entry.kind)) && entry.name.toLowerCase().includes(letters))
    .sort((a, b) => order(a) - order(b) || a.name.localeCompare(b.name, "en", { numeric: true }));
}
