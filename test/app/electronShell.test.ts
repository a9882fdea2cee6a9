// Electron's published security checklist (electron/electron, docs/tutorial/security.md at 2026-08-22), against a stand-in for
// the electron module; each test is named by its item. What only a real Electron shows is not claimed here.
import type * as Electron from "electron";
import { EventEmitter } from "node:events";
import { mkdtempSync, rmSync, writeFileSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { runInNewContext } from "node:vm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { CHANNEL } from "../../main/app/electron/channel.ts";
import { DropBook } from "../../main/app/electron/dropBook.ts";
import { isOurs, WINDOW_URL } from "../../main/app/electron/origin.ts";
import { givenPaths, runElectron } from "../../main/app/electron/runElectron.ts";
import { windowOptions } from "../../main/app/electron/windowOptions.ts";
import { testTools } from "../support/tools.ts";
import { fakeDesk } from "./fakeDesk.ts";

type Handler = (...args: never[]) => unknown;

const order: string[] = [];
const sent: string[] = [];
const fake = fakeDesk((name) => (name === "about" ? { version: "1" } : null));
const contents = Object.assign(new EventEmitter(), {
  mainFrame: { url: WINDOW_URL },
  isDestroyed: () => false,
  send: (_channel: string, text: string) => void sent.push(text),
  openHandler: null as Handler | null,
  setWindowOpenHandler(handler: Handler) {
    this.openHandler = handler;
  },
});
const handlers: Record<string, Handler> = {};
const keep = (name: string) => (handler: Handler) => void (handlers[name] = handler);
const app = Object.assign(new EventEmitter(), {
  requestSingleInstanceLock: () => true,
  enableSandbox: () => void order.push("sandbox"),
  whenReady: () => Promise.resolve(order.push("ready")),
  quit: () => undefined,
});
const ipcMain = new EventEmitter();
const shown: string[] = [];
let schemes: unknown;
let options: Electron.BrowserWindowConstructorOptions | undefined;
let web: ((request: Request) => Promise<Response>) | undefined;
let loaded = "";
const folder = mkdtempSync(join(tmpdir(), "followcar-electron-"));

class BrowserWindow extends EventEmitter {
  readonly webContents = contents;
  constructor(given: Electron.BrowserWindowConstructorOptions) {
    super();
    options = given;
    app.emit("web-contents-created", {}, contents);
  }
  show() {}
  isMinimized = () => false;
  focus() {
    shown.push("focus");
  }
  loadURL(url: string) {
    loaded = url;
    return Promise.resolve();
  }
}

beforeAll(async () => {
  const session = {
    setPermissionRequestHandler: keep("request"),
    setPermissionCheckHandler: keep("check"),
    setDevicePermissionHandler: keep("device"),
    webRequest: { onBeforeRequest: keep("load") },
  };
  const electron = {
    app,
    BrowserWindow,
    ipcMain,
    Menu: { setApplicationMenu: () => undefined, buildFromTemplate: () => ({}) },
    protocol: {
      registerSchemesAsPrivileged(given: unknown) {
        order.push("schemes");
        schemes = given;
      },
      handle: (_scheme: string, handler: typeof web) => void (web = handler),
    },
    session: { defaultSession: session },
  };
  await runElectron(electron as unknown as typeof Electron, {
    dist: resolve("dist"),
    parts: (drops) => ({
      shell: "electron",
      tools: testTools(),
      toolWords: () => Promise.resolve([]),
      printPage: null,
      drops,
      given: [],
      makeDesk: fake.makeDesk,
      openFolder: () => Promise.resolve(),
    }),
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const HOSTILE = [
  "https://rides.example/",
  "followcar://window.rides.example/",
  "followcar://rides.example/",
  "file:///etc/passwd",
  "javascript:alert(1)",
  "followcar://window@rides.example/",
  "http://followcar://window/",
  "",
];

const ours = { sender: contents, senderFrame: contents.mainFrame };

describe("checklist", () => {
  it("1, 17: nothing is loaded but our own scheme; no remote content", () => {
    expect(loaded).toBe(WINDOW_URL);
    const refused = (url: string) => {
      let answer: { cancel?: boolean } = {};
      (handlers.load as (details: object, answer: (a: object) => void) => void)({ url }, (given) => (answer = given));
      return answer.cancel;
    };
    expect(
      ["https://rides.example/", "http://127.0.0.1/", "file:///etc/passwd", "ws://rides.example", "ftp://x"].map(
        refused,
      ),
    ).toEqual([true, true, true, true, true]);
    expect([WINDOW_URL, "blob:followcar://window/1", "data:image/png;base64,"].map(refused)).toEqual([
      false,
      false,
      false,
    ]);
  });

  it("2, 3, 4, 6, 8, 9, 10, 11: no Node in the page, isolated, sandboxed, web security on, nothing experimental, no webview", () => {
    expect(options).toEqual(windowOptions(resolve("dist", "preload.cjs")));
    expect(options!.webPreferences).toMatchObject({
      contextIsolation: true,
      sandbox: true,
      webSecurity: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webviewTag: false,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      spellcheck: false,
    });
    expect(options!.webPreferences).not.toHaveProperty("enableBlinkFeatures");
    // The sandbox and the schemes have to be there before the program is ready.
    expect(order).toEqual(["sandbox", "schemes", "ready"]);
  });

  it.each([
    "media",
    "geolocation",
    "notifications",
    "midi",
    "midiSysex",
    "pointerLock",
    "openExternal",
    "display-capture",
    "hid",
    "serial",
    "usb",
    "idle-detection",
    "clipboard-read",
  ])("5: permission %s is refused", (permission) => {
    let given: boolean | undefined;
    (handlers.request as (...args: unknown[]) => void)(contents, permission, (answer: boolean) => (given = answer), {
      requestingUrl: WINDOW_URL,
      mediaTypes: ["audio"],
    });
    expect(given).toBe(false);
    expect(
      (handlers.check as (...args: unknown[]) => boolean)(contents, permission, WINDOW_URL, { mediaType: "audio" }),
    ).toBe(false);
    expect((handlers.device as () => boolean)()).toBe(false);
  });

  it("5: the microphone, sound alone, to our page alone, between record and stop", () => {
    const asked = (url: string, mediaTypes: readonly string[]) => {
      let given = false;
      (handlers.request as (...args: unknown[]) => void)(contents, "media", (answer: boolean) => (given = answer), {
        requestingUrl: url,
        mediaTypes,
      });
      return given;
    };
    expect(asked(WINDOW_URL, ["audio"])).toBe(false);
    ipcMain.emit(CHANNEL, ours, { kind: "recording", on: true });
    expect([
      asked(WINDOW_URL, ["audio"]),
      asked(WINDOW_URL, ["audio", "video"]),
      asked(WINDOW_URL, []),
      asked("https://rides.example/", ["audio"]),
    ]).toEqual([true, false, false, false]);
    ipcMain.emit(CHANNEL, ours, { kind: "recording", on: false });
    expect(asked(WINDOW_URL, ["audio"])).toBe(false);
  });

  it("7: a content security policy on every answer, without inline code; byte ranges from the same handler", async () => {
    const page = await web!(new Request(WINDOW_URL));
    expect([page.status, page.headers.get("content-type")]).toEqual([200, "text/html; charset=utf-8"]);
    const policy = page.headers.get("content-security-policy")!;
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("require-trusted-types-for 'script'");
    expect(policy).not.toMatch(/unsafe|\*|https?:|wss?:/);
    const clip = join(folder, "clip.mp4");
    writeFileSync(clip, "0123456789");
    const address = fake.surroundings().shelf.lendFile("media", clip);
    const part = await web!(new Request(new URL(address, WINDOW_URL), { headers: { range: "bytes=2-4" } }));
    expect([part.status, await part.text(), part.headers.get("content-range")]).toEqual([206, "234", "bytes 2-4/10"]);
    expect((await web!(new Request(new URL(address, WINDOW_URL), { headers: { range: "bytes=99-" } }))).status).toBe(
      416,
    );
  });

  it("12, 13: no navigation away, no frame of others", () => {
    for (const event of ["will-navigate", "will-frame-navigate", "will-redirect"]) {
      const stopped = (url: string) => {
        let prevented = false;
        contents.emit(event, { url, preventDefault: () => (prevented = true) });
        return prevented;
      };
      expect(HOSTILE.map(stopped)).toEqual(HOSTILE.map(() => true));
      expect(stopped(`${WINDOW_URL}#x`)).toBe(false);
    }
    let prevented = false;
    contents.emit("will-attach-webview", { preventDefault: () => (prevented = true) });
    expect(prevented).toBe(true);
    expect(HOSTILE.map(isOurs)).toEqual(HOSTILE.map(() => false));
  });

  it("14: no new windows", () => {
    expect((contents.openHandler as unknown as (details: object) => unknown)({ url: WINDOW_URL })).toEqual({
      action: "deny",
    });
  });

  it("17: only our window's top frame on our page is heard", async () => {
    const callNamed = (i: string) => ({ kind: "text", text: JSON.stringify({ t: "q", i, m: "about", a: [] }) });
    const call = callNamed("stranger");
    const before = [sent.length, fake.asked.length];
    const strangers = [
      { ...ours, sender: new EventEmitter() },
      { ...ours, senderFrame: null },
      { ...ours, senderFrame: { url: WINDOW_URL } },
      { sender: contents, senderFrame: Object.assign(contents.mainFrame, { url: "https://rides.example/" }) },
    ];
    for (const stranger of strangers) ipcMain.emit(CHANNEL, stranger, call);
    contents.mainFrame.url = WINDOW_URL;
    for (const odd of [
      null,
      "text",
      { kind: "text" },
      { kind: "text", text: 3 },
      { kind: "path", path: "/" },
      { kind: "dropped", token: "x", path: "/etc/passwd" },
      { ...call, more: 1 },
    ])
      ipcMain.emit(CHANNEL, ours, odd);
    ipcMain.emit(CHANNEL, ours, callNamed("ours"));
    // Calls are answered in their order: with ours answered, whatever of the others was heard would be answered, too.
    await expect.poll(() => sent.length).toBeGreaterThan(before[0]!);
    expect(sent.slice(before[0]).map((text) => JSON.parse(text))).toEqual([{ t: "s", i: "ours", r: { version: "1" } }]);
    expect(fake.asked.length).toBe(before[1]! + 1);
  });

  it("18: a scheme of our own, which obeys the policy; no file addresses", () => {
    expect(schemes).toEqual([
      {
        scheme: "followcar",
        privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true, codeCache: true },
      },
    ]);
  });

  it("20: the preload shows the page one object, of functions that hand over no event and no Electron", () => {
    const world: Record<string, Record<string, (...args: unknown[]) => unknown>> = {};
    const posted: unknown[] = [];
    const ipcRenderer = Object.assign(new EventEmitter(), { send: (...args: unknown[]) => void posted.push(args) });
    const electron = {
      contextBridge: { exposeInMainWorld: (name: string, value: never) => (world[name] = value) },
      ipcRenderer,
      webUtils: { getPathForFile: () => "/home/a/ride.fit" },
    };
    const module = { exports: {} };
    runInNewContext(readFileSync(resolve("dist", "preload.cjs"), "utf8"), {
      require: (name: string) => (name === "electron" ? electron : undefined),
      module,
      exports: module.exports,
      crypto,
    });
    expect(Object.keys(world)).toEqual(["followcar"]);
    expect(Object.keys(world.followcar!).sort()).toEqual(["onText", "post", "recording", "tokenOf"]);
    const heard: unknown[][] = [];
    world.followcar!.onText!((...args: unknown[]) => heard.push(args));
    ipcRenderer.emit(CHANNEL, { sender: "secret" }, "hello");
    expect(heard).toEqual([["hello"]]);
    const token = world.followcar!.tokenOf!({});
    expect(token).not.toContain("home");
    expect(posted).toEqual([[CHANNEL, { kind: "dropped", token, path: "/home/a/ride.fit" }]]);
  });
});

describe("a second start", () => {
  it("its paths are seen from where it was given; switches and our bundle are none", () => {
    const cwd = resolve("/rides");
    expect(givenPaths(["/opt/followcar", "sunday.fit"], true, cwd)).toEqual([join(cwd, "sunday.fit")]);
    expect(givenPaths(["/opt/followcar", "--no-sandbox"], true, cwd)).toEqual([]);
    expect(givenPaths(["electron", "--no-sandbox", "dist/electronMain.mjs", "a", "b.fit"], false, cwd)).toEqual([
      join(cwd, "a"),
      join(cwd, "b.fit"),
    ]);
  });

  it("brings the window forward and its file onto the desk; a debrief is opened, a ride is added", async () => {
    const debrief = mkdtempSync(join(folder, "debrief-"));
    shown.length = 0;
    const before = fake.asked.length;
    app.emit("second-instance", {}, ["/opt/followcar", "main.mjs", debrief], folder);
    const ride = join(folder, "sunday.fit");
    writeFileSync(ride, "x");
    app.emit("second-instance", {}, ["/opt/followcar", "main.mjs", ride], folder);
    await expect
      .poll(() => fake.asked.slice(before).map(([name]) => name))
      .toEqual(expect.arrayContaining(["openDebrief", "addFiles"]));
    expect(shown).toEqual(["focus", "focus"]);
  });

  it("a file that the system hands over is opened likewise: a debrief by the debrief.json in it", async () => {
    const debrief = join(mkdtempSync(join(folder, "debrief-")), "debrief.json");
    writeFileSync(debrief, "{}");
    shown.length = 0;
    const before = fake.asked.length;
    let prevented = 0;
    app.emit("open-file", { preventDefault: () => (prevented += 1) }, debrief);
    await expect.poll(() => fake.asked.slice(before)).toEqual([["openDebrief", [expect.any(String), false]]]);
    expect(prevented).toBe(1);
    expect(shown).toEqual(["focus"]);
  });
});

it("a dropped file's token is good once", () => {
  const book = new DropBook();
  book.put("a", "/rides/1.fit");
  expect([book.take("a"), book.take("a"), book.take("b")]).toEqual(["/rides/1.fit", null, null]);
});
