// What Electron does in ways of its own, against a stand-in for the electron module: our bundles as its processes, in real
// processes with a real message channel, and pages printed in a hidden window. What only a real Electron shows is not
// claimed here.
import type * as Electron from "electron";
import { fork } from "node:child_process";
import { EventEmitter } from "node:events";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { electronChildren } from "../../main/app/electron/electronChild.ts";
import { electronPrinter } from "../../main/app/electron/electronPrinter.ts";
import type { StartChild } from "../../main/contract/childLine.ts";
import { demoClips } from "../../main/demo/demoClips.ts";
import { DEMO_SEED } from "../../main/demo/makeDemo.edge.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { filmClips } from "../../main/demo/filmClips.edge.ts";
import { startNodeChild } from "../../main/host/nodeChild.edge.ts";
import { startPaintClient } from "../../main/render/paintClient.edge.ts";
import { layoutOptionsFor } from "../render/filmFixtures.ts";
import { rejected } from "../support/said.ts";
import { testTools } from "../support/tools.ts";

const folder = mkdtempSync(join(tmpdir(), "followcar-homes-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What Electron puts into such a process: `process.parentPort`, events with `data` (its documentation, utilityProcess). */
const PARENT_PORT = join(folder, "parentPort.mjs");
writeFileSync(
  PARENT_PORT,
  `process.parentPort = {
     on: (name, listener) => process.on("message", (data) => listener({ data })),
     postMessage: (message) => process.send(message),
   };`,
);

const forked: { path: string; options: Electron.ForkOptions | undefined }[] = [];
const utilityProcess = {
  fork(path: string, args?: string[], options?: Electron.ForkOptions) {
    forked.push({ path, options });
    const child = fork(path, args ?? [], {
      execArgv: ["--import", pathToFileURL(PARENT_PORT).href],
      serialization: "advanced",
      // No standard input, as on Windows.
      stdio: ["ignore", "ignore", "pipe", "ipc"],
      env: options?.env as NodeJS.ProcessEnv,
    });
    return Object.assign(child, { postMessage: (message: unknown) => void child.send(message as object) });
  },
} as unknown as typeof Electron.utilityProcess;

const electronHome = electronChildren(utilityProcess, resolve("dist"));
const HOMES: readonly (readonly [string, StartChild])[] = [
  ["a Node process", startNodeChild],
  ["a process of Electron's", electronHome],
];

const setup = { layoutOptions: layoutOptionsFor(640, 360), route: null, bandW: null };
const CARD = { kind: "title", title: "Ride", lines: ["steady pressure"] } as const;

async function painted(startChild: StartChild): Promise<Buffer> {
  const client = startPaintClient(setup, { startChild }, new AbortController().signal);
  const pieces: Buffer[] = [];
  try {
    // A few orders on one line, as a film has them.
    for (let order = 0; order < 3; order += 1)
      await client.paint({ kind: "card", card: CARD }, (bytes) => {
        pieces.push(Buffer.from(bytes));
        return Promise.resolve();
      });
    await client.paint(
      { kind: "drawings", pictures: [0, 1, 2].map((index) => ({ timeUs: index * 40_000, drawings: [] })) },
      (bytes) => {
        pieces.push(Buffer.from(bytes));
        return Promise.resolve();
      },
    );
  } finally {
    client.close();
  }
  return Buffer.concat(pieces);
}

describe("the painter's two homes", () => {
  it("same messages, same pixels", async () => {
    const [node, electron] = (await Promise.all(HOMES.map(([, start]) => painted(start)))) as [Buffer, Buffer];
    expect(node.length).toBeGreaterThan(3 * 640 * 360 * 1.5);
    expect(electron.equals(node)).toBe(true);
    expect(forked[0]).toMatchObject({
      path: resolve("dist", "paintChild.mjs"),
      options: { stdio: ["ignore", "ignore", "pipe"], serviceName: "Followcar painter" },
    });
  });

  it.each(HOMES)("%s: what it died of is told, and a cancel is none", async (_name, startChild) => {
    const client = startPaintClient(setup, { startChild }, new AbortController().signal);
    const impossible = { kind: "card", card: null } as never;
    expect(await rejected(client.paint(impossible, () => Promise.resolve()))).toMatch(
      /could not be painted: TypeError/,
    );
    client.close();
    const stop = new AbortController();
    const cancelled = startPaintClient(setup, { startChild }, stop.signal);
    const painting = cancelled.paint({ kind: "card", card: CARD }, () => Promise.resolve());
    stop.abort();
    await expect(painting).rejects.toMatchObject({ name: "Cancelled" });
  });

  it.each(HOMES)("%s: a taker that is slow is waited for", async (_name, startChild) => {
    const line = startChild("paintChild");
    const { serialize } = await import("node:v8");
    line.tell(serialize({ kind: "setup", fontsFolder: resolve("assets/fonts"), ...setup }));
    line.tell(serialize({ kind: "card", card: CARD }));
    line.tell(serialize({ kind: "card", card: CARD }));
    const lengths: number[] = [];
    for (let message = 0; message < 4; message += 1) {
      lengths.push((await line.take())!.length);
      await new Promise((done) => setTimeout(done, 20));
    }
    expect(lengths).toEqual([640 * 360 * 1.5, 0, 640 * 360 * 1.5, 0]);
    // Asked to end, it ends by itself.
    line.tell(new Uint8Array(0));
    expect(await line.take()).toBe(null);
    expect(await line.ended).toBe(0);
  });
});

describe("example footage", () => {
  const order = (startChild: StartChild, outDir: string, durationS: number) => ({
    seed: DEMO_SEED,
    clip: { ...demoClips(demoRide(DEMO_SEED), true)[0]!, durationS, telemetry: false },
    outDir,
    picture: { widthPx: 160, heightPx: 90 },
    tools: { ...testTools(), startChild },
  });

  it.each(HOMES)(
    "%s: films a clip, and leaves nothing of one cancelled",
    { timeout: 240_000 },
    async (name, startChild) => {
      const outDir = mkdtempSync(join(folder, `clips-${name.length}-`));
      const seen: number[] = [];
      const paths = await filmClips([order(startChild, outDir, 1)], new AbortController().signal, (_, frames) =>
        seen.push(frames),
      );
      expect(readdirSync(outDir)).toEqual(paths.map((path) => basename(path)));
      expect(seen.at(-1)).toBeGreaterThan(20);
      const stop = new AbortController();
      const second = mkdtempSync(join(folder, `cancelled-${name.length}-`));
      const filming = filmClips([order(startChild, second, 60)], stop.signal, () => stop.abort());
      await expect(filming).rejects.toMatchObject({ name: "Cancelled" });
      expect(readdirSync(second)).toEqual([]);
    },
  );
});

describe("printing", () => {
  interface Made {
    readonly options: Electron.BrowserWindowConstructorOptions;
    destroyed: boolean;
  }
  function standIn(print: () => Promise<Buffer>, load: () => Promise<void> = () => Promise.resolve()) {
    const made: Made[] = [];
    let refused: ((details: { url: string }, answer: (given: { cancel: boolean }) => void) => void) | undefined;
    class BrowserWindow extends EventEmitter {
      readonly webContents = { printToPDF: print };
      readonly #made: Made;
      constructor(options: Electron.BrowserWindowConstructorOptions) {
        super();
        made.push((this.#made = { options, destroyed: false }));
      }
      loadURL = load;
      destroy() {
        this.#made.destroyed = true;
      }
    }
    const session = {
      fromPartition: () => ({
        setPermissionRequestHandler: () => undefined,
        webRequest: { onBeforeRequest: (handler: typeof refused) => void (refused = handler) },
      }),
    };
    const electron = { BrowserWindow, session } as unknown as Pick<typeof Electron, "BrowserWindow" | "session">;
    const loads = (url: string) => {
      let cancelled: boolean | undefined;
      refused?.({ url }, ({ cancel }) => (cancelled = cancel));
      return cancelled === false;
    };
    return { print: electronPrinter(electron), made, loads };
  }

  it("a hidden, sandboxed window without scripts, that loads the one file, and is gone after", async () => {
    const { print, made, loads } = standIn(() => Promise.resolve(Buffer.from("%PDF-1.7")));
    const printed = await print("/rides/a b/debrief.html");
    expect(printed).toEqual({ pdf: Buffer.from("%PDF-1.7") });
    expect(made).toHaveLength(1);
    expect(made[0]!.destroyed).toBe(true);
    expect(made[0]!.options).toMatchObject({
      show: false,
      webPreferences: { javascript: false, sandbox: true, contextIsolation: true, nodeIntegration: false },
    });
    const own = pathToFileURL("/rides/a b/debrief.html").href;
    expect([own, "data:image/png;base64,AA=="].map(loads)).toEqual([true, true]);
    expect(["file:///etc/passwd", "https://rides.example/", "http://127.0.0.1/"].map(loads)).toEqual([
      false,
      false,
      false,
    ]);
  });

  it("a page that can't be loaded, or is printed as nothing, is said and leaves no window", async () => {
    const away = standIn(
      () => Promise.resolve(Buffer.alloc(1)),
      () => Promise.reject(new Error("ERR_FILE_NOT_FOUND")),
    );
    expect(await away.print("/none.html")).toEqual({ why: { kind: "not started", said: "ERR_FILE_NOT_FOUND" } });
    expect(away.made[0]!.destroyed).toBe(true);
    const empty = standIn(() => Promise.resolve(Buffer.alloc(0)));
    expect(await empty.print("/empty.html")).toEqual({ why: { kind: "nothing written" } });
  });
});
