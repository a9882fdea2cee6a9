import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { DebriefView, DeskState, JobView } from "../../../main/contract/debriefApi.ts";
import { makeDesk } from "../../../main/app/desk/makeDesk.ts";
import { makePathBook } from "../../../main/app/desk/pathBook.ts";
import type { Desk } from "../../../main/app/surroundings.ts";
import { makeShelf, type StockedShelf } from "../../../main/app/web/shelf.ts";
import { demoRideFile } from "../../../main/demo/demoRideFile.ts";
import { demoRide } from "../../../main/demo/rideModel.ts";
import { testTools } from "../../support/tools.ts";
import { writeNumberedClip } from "../../support/video.ts";

/** A desk without a window, in a folder of its own that holds its caches too. */
export interface OpenDesk {
  readonly desk: Desk;
  readonly api: Desk["api"];
  readonly folder: string;
  readonly shelf: StockedShelf;
  readonly states: DeskState[];
  readonly progress: { readonly jobId: string; readonly atMs: number }[];
  readonly opened: string[];
  id(path: string): string;
  path(name: string): string;
  /** The debrief as the window was last told. */
  view(): DebriefView;
  /** Resolves once no job waits or runs. */
  idle(): Promise<readonly JobView[]>;
  close(): Promise<void>;
}

/** Opens a desk; `folder` is one that another desk left. */
export async function openDesk(folder: string | null = null): Promise<OpenDesk> {
  const home = folder ?? (await mkdtemp(join(tmpdir(), "followcar-desk-")));
  process.env.FOLLOWCAR_CACHE = join(home, "cache");
  process.env.FOLLOWCAR_STATE = join(home, "state");
  const states: DeskState[] = [];
  const progress: OpenDesk["progress"][number][] = [];
  const opened: string[] = [];
  const shelf = makeShelf();
  const paths = makePathBook();
  const desk = makeDesk({
    shell: "chromium",
    version: "0.0.0",
    tools: testTools(),
    toolWords: () => Promise.resolve([]),
    printPage: null,
    shelf,
    paths,
    picker: {
      places: () => Promise.resolve([]),
      listFolder: () => Promise.reject(new Error("no picker")),
      idsOfDropped: () => Promise.resolve([]),
    },
    events: {
      state: (state) => void states.push(JSON.parse(JSON.stringify(state)) as DeskState),
      progress: (jobId) => void progress.push({ jobId, atMs: performance.now() }),
    },
    openFolder: (path) => Promise.resolve(void opened.push(path)),
  });
  const busy = (): boolean => desk_jobs().some(({ state }) => state === "waiting" || state === "running");
  const desk_jobs = (): readonly JobView[] => states.at(-1)?.jobs ?? [];
  return {
    desk,
    api: desk.api,
    folder: home,
    shelf,
    states,
    progress,
    opened,
    id: (path) => paths.idOf(path),
    path: (name) => join(home, name),
    view() {
      const view = states.at(-1)?.debrief;
      if (!view) throw new Error("no debrief on the desk");
      return view;
    },
    async idle() {
      for (let quiet = 0; quiet < 3;) {
        await new Promise((resolve) => setTimeout(resolve, 60));
        quiet = busy() ? 0 : quiet + 1;
      }
      return desk_jobs();
    },
    async close() {
      await desk.close();
      if (folder === null) await rm(home, { recursive: true, force: true });
    },
  };
}

/** A new desk with the demo's ride on it, `sunday.fit` in the folder `rides`. */
export async function openDeskWithRide(): Promise<{ readonly open: OpenDesk; readonly rides: string }> {
  const open = await openDesk();
  const rides = open.path("rides");
  await open.api.addFiles([open.id(await putRide(rides))]);
  return { open, rides };
}

/** The demo's ride as a file of a desk's folder, ridden so many days later. */
export async function putRide(folder: string, name = "sunday.fit", laterDays = 0): Promise<string> {
  await mkdir(folder, { recursive: true });
  const path = join(folder, name);
  const ride = demoRide(1);
  await writeFile(path, demoRideFile({ ...ride, startUtcMs: ride.startUtcMs + laterDays * 86_400_000 }));
  return path;
}

/** A short clip whose frames carry their number, claiming to begin `rideS` into the demo's ride. */
export async function putClip(folder: string, name: string, rideS: number, frames = 60): Promise<string> {
  const path = join(folder, name);
  const startUtcMs = demoRide(1).startUtcMs + rideS * 1000;
  const created = new Date(startUtcMs).toISOString();
  await writeNumberedClip(
    path,
    {
      widthPx: 320,
      heightPx: 192,
      frames,
      rate: "25",
      sound: "sine=frequency=300",
      output: ["-metadata", `creation_time=${created}`],
    },
    testTools(),
  );
  return path;
}
