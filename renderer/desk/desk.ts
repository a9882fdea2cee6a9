/** The window's one connection to the program, over the bridge of Electron's preload or over a web socket. */
import { createBirpc } from "birpc";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import type { DebriefApi, DeskEvents, DeskState } from "../../main/contract/debriefApi.ts";
import type { Film } from "../../main/contract/film.ts";
import type { Progress } from "../../main/contract/job.ts";
import { turns } from "./inTurn.ts";
import { rebased } from "./rebased.ts";

/** `open`: calls are answered. `lost`: the program went away, the window tries again. */
export type Connection = "opening" | "open" | "lost";

/** Text frames to and from the program. */
interface Wire {
  readonly post: (text: string) => void;
  readonly onText: (listener: (text: string) => void) => void;
  readonly onEnd: (listener: () => void) => void;
}

/** What Electron's preload puts into the page. */
interface Bridge {
  readonly post: (text: string) => void;
  readonly onText: (listener: (text: string) => void) => void;
  /** Tells the program where a dropped file lies; the page gets a token, never the path. Empty: it has no path. */
  readonly tokenOf: (file: File) => string;
  /** A comment is being recorded from now on, or no more: only then does the program let the microphone be used. */
  readonly recording: (on: boolean) => void;
}

declare global {
  interface Window {
    readonly followcar?: Bridge;
  }
}

const AGAIN_MS = 1000;

let state: DeskState | null = null;
let connection: Connection = "opening";
const progress = new Map<string, Progress>();
const listeners = new Set<() => void>();
/** Documents of late by their `edit`, so that an edit made on one of them can be told to be still good. */
const seen = new Map<number, DebriefDocument>();
const MOST_SEEN = 24;
/** The film that stood with each document: what a person saw and changed, also while the document has none of its own. */
const filmsShown = new WeakMap<DebriefDocument, Film>();
let current: DebriefApi | null = null;

function changed(): void {
  for (const listener of listeners) listener();
}

const events: DeskEvents = {
  state(next) {
    state = next;
    if (next.debrief !== null) {
      seen.set(next.debrief.edit, next.debrief.document);
      if (next.debrief.film !== null) filmsShown.set(next.debrief.document, next.debrief.film);
    }
    for (const edit of seen.keys()) if (seen.size > MOST_SEEN) seen.delete(edit);
    for (const id of progress.keys())
      if (!next.jobs.some((job) => job.id === id && job.state === "running")) progress.delete(id);
    changed();
  },
  progress(jobId, next) {
    progress.set(jobId, next);
    changed();
  },
};

const HEARD: Readonly<Record<string, ((...args: never[]) => void) | undefined>> = {
  state: (next: DeskState) => events.state(next),
  progress: (jobId: string, next: Progress) => events.progress(jobId, next),
};

function lose(): void {
  current = null;
  connection = "lost";
  changed();
  setTimeout(() => void open(), AGAIN_MS);
}

async function open(): Promise<void> {
  let wire: Wire;
  try {
    wire = window.followcar === undefined ? await socketWire() : bridgeWire(window.followcar);
  } catch {
    lose();
    return;
  }
  const rpc = createBirpc<DebriefApi, DeskEvents>(events, {
    post: (text: string) => wire.post(text),
    on: (listener) => wire.onText(listener as (text: string) => void),
    serialize: (message) => JSON.stringify(message),
    deserialize: (text: string) => JSON.parse(text) as unknown,
    // Not an inherited name, and nothing but the two events.
    resolver: (name) => (Object.hasOwn(HEARD, name) ? HEARD[name] : undefined),
    timeout: -1,
  });
  wire.onEnd(() => {
    rpc.$close(new Error("The program went away before it answered."));
    lose();
  });
  current = rpc;
  const first = await rpc.state();
  connection = "open";
  events.state(first);
}

function bridgeWire(bridge: Bridge): Wire {
  return { post: bridge.post, onText: bridge.onText, onEnd: () => undefined };
}

async function socketWire(): Promise<Wire> {
  const socket = new WebSocket(`ws://${location.host}/desk`);
  await new Promise<void>((resolve, reject) => {
    socket.addEventListener("open", () => resolve(), { once: true });
    socket.addEventListener("close", () => reject(new Error("closed")), { once: true });
  });
  return {
    post: (text) => socket.send(text),
    onText: (listener) => socket.addEventListener("message", (event: MessageEvent<string>) => listener(event.data)),
    onEnd: (listener) => socket.addEventListener("close", listener, { once: true }),
  };
}

/** Starts the connection; called once by the page. */
export function openDesk(): void {
  void open();
}

/** How long the number of the document is waited for after a refusal, ms. */
const MOVED_WITHIN_MS = 2000;

const inTurn = turns({
  now: () => state?.debrief ?? null,
  seenAt: (edit) => seen.get(edit),
  movedFrom: (edit) =>
    new Promise((resolve) => {
      const done = () => {
        clearTimeout(late);
        listeners.delete(look);
        resolve();
      };
      const look = () => {
        if (state?.debrief?.edit !== edit) done();
      };
      const late = setTimeout(done, MOVED_WITHIN_MS);
      listeners.add(look);
      look();
    }),
});

/** The calls that change the document: one after another. */
const changes: Pick<DebriefApi, "edit" | "chooseMoment" | "settleAsked" | "showBeside"> = {
  edit: (edit, madeOn) =>
    inTurn(
      madeOn,
      (before, now) => {
        const good = rebased(edit, withFilmShown(before), withFilmShown(now));
        return good === null ? null : (on) => answering().edit(good, on);
      },
      (on) => answering().edit(edit, on),
    ),
  chooseMoment: (choices, moment, madeOn) => {
    const send = (on: number) => answering().chooseMoment(choices, moment, on);
    // A moment is told by its place in the reading: as long as the reading is of the same ride, plan and overrules.
    const good = (before: DebriefDocument, now: DebriefDocument) =>
      sameReading(before, now) && rebased(choices, before, now) === choices;
    return inTurn(madeOn, (before, now) => (good(before, now) ? send : null), send);
  },
  showBeside: (ask, madeOn) => {
    const send = (on: number) => answering().showBeside(ask, on);
    const good = (before: DebriefDocument, now: DebriefDocument) =>
      sameReading(before, now) && same(before.film, now.film);
    return inTurn(madeOn, (before, now) => (good(before, now) ? send : null), send);
  },
  settleAsked: (asked, to, madeOn) => {
    const send = (on: number) => answering().settleAsked(asked, to, on);
    const good = (before: DebriefDocument, now: DebriefDocument) =>
      sameReading(before, now) && same(before.choices, now.choices) && same(before.film, now.film);
    return inTurn(madeOn, (before, now) => (good(before, now) ? send : null), send);
  },
};

const withFilmShown = (document: DebriefDocument): DebriefDocument => ({
  ...document,
  film: filmsShown.get(document) ?? document.film,
});
const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
const sameReading = (a: DebriefDocument, b: DebriefDocument): boolean =>
  a.shownRideId === b.shownRideId && same([a.plan, a.overrides], [b.plan, b.overrides]);

/** @throws Error while the program is away */
function answering(): DebriefApi {
  if (current === null) throw new Error("The program does not answer yet.");
  return current;
}

/** Every call of the program; rejects with a `FailureData`, or with an `Error` while the program is away. */
export const desk: DebriefApi = new Proxy({} as DebriefApi, {
  get: (_, name) =>
    Object.hasOwn(changes, name)
      ? changes[name as keyof typeof changes]
      : (...args: unknown[]) =>
          current === null
            ? Promise.reject(new Error("The program does not answer yet."))
            : (current as unknown as Record<string | symbol, (...args: unknown[]) => unknown>)[name]!(...args),
});

/** The desk as last sent; null before the first answer. */
export function deskState(): DeskState | null {
  return state;
}

/** Whether the program answers. */
export function deskConnection(): Connection {
  return connection;
}

/** The latest progress of a running job, newer than the one in its `JobView`; null before any. */
export function jobProgress(jobId: string): Progress | null {
  return progress.get(jobId) ?? null;
}

/** Calls back after every change of the state, of progress or of the connection; gives the way to stop. */
export function onDesk(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** True in Electron, where a dropped file's path can be found. */
export function seesDroppedPaths(): boolean {
  return window.followcar !== undefined;
}

/** Tokens for `desk.idsOfDropped`; Electron only. */
export function dropTokens(files: readonly File[]): readonly string[] {
  const bridge = window.followcar;
  return bridge === undefined ? [] : files.map((file) => bridge.tokenOf(file)).filter((token) => token !== "");
}

/** Says that recording a comment begins or ends; to be called before the microphone is asked for, and after it is let go. */
export function sayRecording(on: boolean): void {
  window.followcar?.recording(on);
}
