import { type KeyboardEvent, useCallback, useEffect, useId, useMemo, useRef, useState } from "react";
import type { Listing, PathId } from "../../main/contract/debriefApi.ts";
import type { FailureData } from "../../main/contract/failure.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { Dialog } from "../look/Dialog.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { failureOf } from "../look/failureOf.ts";
import { bytesText } from "../look/bytesText.ts";
import { dayText } from "../look/dayText.ts";
import { common } from "../words/common.ts";
import { picker as words } from "../words/picker.ts";
import { type DroppedFile, droppedMatches } from "./droppedMatches.ts";
import "./picker.css";

type Entry = Listing["entries"][number];

/** What may be taken: rides and clips, one folder, or one debrief. */
export type PickerWants = "files" | "folder" | "debrief";

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
  files: ["folder", "ride", "clip", "debrief"],
  folder: ["folder", "athlete"],
  debrief: ["folder", "debrief"],
};

/** One list for all renders: a new one each time would ask for the places again and again. */
const NOTHING_DROPPED: readonly DroppedFile[] = [];

/** Chooses files or a folder by the program's own listing, all by keyboard; the window never learns a path it could use. */
export function Picker({ wants, title, dropped = NOTHING_DROPPED, onPick, onClose }: Props) {
  const [places, setPlaces] = useState<readonly { readonly id: PathId; readonly name: string }[]>([]);
  const [listing, setListing] = useState<Listing | null>(null);
  const [failure, setFailure] = useState<FailureData | null>(null);
  const [filter, setFilter] = useState("");
  const [everything, setEverything] = useState(false);
  const [chosen, setChosen] = useState<ReadonlySet<PathId>>(new Set());
  const [active, setActive] = useState(0);
  const list = useRef<HTMLUListElement>(null);
  const listId = useId();
  const asked = useRef(0);

  const show = useCallback(
    (next: Listing) => {
      setListing(next);
      setFailure(null);
      setFilter("");
      setActive(0);
      setChosen(new Set(wants === "files" ? droppedMatches(next, dropped) : []));
    },
    [dropped, wants],
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
        const first = await firstWith(found, dropped);
        if (turn === asked.current && first !== null) show(first);
        list.current?.focus();
      } catch (error) {
        if (turn === asked.current) setFailure(failureOf(error));
      }
    })();
  }, [dropped, show]);

  const entries = useMemo(
    () => visibleEntries(listing, wants, everything, filter),
    [listing, wants, everything, filter],
  );
  const at = Math.min(active, Math.max(0, entries.length - 1));
  useEffect(() => {
    document.getElementById(`${listId}-${at}`)?.scrollIntoView({ block: "nearest" });
  }, [at, listId, entries]);

  const parentId = listing?.parentId ?? null;
  const take = () => {
    if (wants === "folder") {
      if (listing !== null) onPick([listing.id]);
    } else if (chosen.size > 0) onPick([...chosen]);
  };
  const press = (entry: Entry) => {
    if (entry.kind === "folder" || (entry.kind === "athlete" && wants !== "files")) void open(entry.id);
    else if (wants === "debrief" && entry.kind === "debrief") onPick([entry.id]);
    else if (wants === "files" && entry.kind !== "other") setChosen((old) => toggled(old, entry.id));
  };
  const onKeys = (event: KeyboardEvent) => {
    const step = { ArrowDown: 1, ArrowUp: -1, PageDown: 10, PageUp: -10, Home: -entries.length, End: entries.length }[
      event.key
    ];
    const entry = entries.at(at);
    if (step !== undefined) setActive(Math.max(0, Math.min(entries.length - 1, at + step)));
    else if (event.key === " " && entry !== undefined && entry.kind !== "folder") press(entry);
    else if (event.key === "Enter" && entry !== undefined && (entry.kind === "folder" || chosen.size === 0))
      press(entry);
    else if (event.key === "Enter") take();
    else if (event.key === "Backspace" && parentId !== null) void open(parentId);
    else return;
    event.preventDefault();
  };

  const found = listing === null ? 0 : droppedMatches(listing, dropped).length;
  return (
    <Dialog
      wide
      title={title ?? words[wants]}
      onClose={onClose}
      actions={
        <>
          <span className="quiet grow" aria-live="polite">
            {wants === "files" && chosen.size > 0 && words.chosen(chosen.size)}
          </span>
          <Button onClick={onClose}>{common.cancel}</Button>
          {wants !== "debrief" && (
            <Button kind="main" onClick={take} disabled={wants === "folder" ? listing === null : chosen.size === 0}>
              {wants === "folder" ? words.takeFolder : words.take(chosen.size)}
            </Button>
          )}
        </>
      }
    >
      <div className="picker">
        {dropped.length > 0 && (
          <div className="note picker-told">
            <p>
              {words.dropped(dropped.map((file) => file.name).join(", "))}{" "}
              {found > 0 && <b>{words.droppedFound(found, dropped.length)}</b>}
            </p>
          </div>
        )}
        <nav aria-label={words.places} className="picker-places">
          <h3>{words.places}</h3>
          <ul>
            {places.map((place) => (
              <li key={place.id}>
                <Button kind="bare" onClick={() => void open(place.id)}>
                  {place.name}
                </Button>
              </li>
            ))}
          </ul>
        </nav>
        <div className="picker-here">
          <div className="row picker-head">
            <Button onClick={() => parentId !== null && void open(parentId)} disabled={parentId === null}>
              {words.up}
            </Button>
            <span className="grow picker-path">{listing === null ? words.loading : words.here(listing.path)}</span>
            <label className="row">
              <span className="small">{words.filter}</span>
              <input
                className="input picker-filter"
                value={filter}
                autoComplete="off"
                onChange={(event) => {
                  setFilter(event.target.value);
                  setActive(0);
                }}
              />
            </label>
          </div>
          {failure !== null && <FailureNote failure={failure} />}
          <ul
            ref={list}
            role="listbox"
            tabIndex={0}
            aria-multiselectable={wants === "files"}
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
                  setActive(index);
                  press(entry);
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
                {filter === "" ? words.empty : words.emptyFilter}
              </li>
            )}
          </ul>
          <div className="row apart small quiet">
            <span>{wants === "folder" ? words.helpFolder : words.help}</span>
            <label className="row">
              <input type="checkbox" checked={everything} onChange={(event) => setEverything(event.target.checked)} />
              {words.all}
            </label>
          </div>
        </div>
      </div>
    </Dialog>
  );
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

function toggled(set: ReadonlySet<PathId>, id: PathId): ReadonlySet<PathId> {
  const next = new Set(set);
  if (!next.delete(id)) next.add(id);
  return next;
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
