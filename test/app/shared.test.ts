// What both shells share: the files handler, the checked calls, the picker, and which shell is taken.
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { makePathBook } from "../../main/app/desk/pathBook.ts";
import { browserArguments } from "../../main/app/launch/browserWindow.ts";
import { whyNoWindow } from "../../main/app/launch/whyNoWindow.ts";
import { pickShell } from "../../main/app/launch/pickShell.ts";
import { makePicker } from "../../main/app/picker/makePicker.ts";
import { serveWindow } from "../../main/app/rpc/serveWindow.ts";
import { makeWeb, type Web } from "../../main/app/web/makeWeb.ts";
import { makeShelf } from "../../main/app/web/shelf.ts";
import { Failure } from "../../main/contract/failure.ts";
import { fakeDesk } from "./fakeDesk.ts";
import { refused } from "../support/said.ts";

const folder = realpathSync(mkdtempSync(join(tmpdir(), "followcar-shared-")));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the handler for files and footage", () => {
  const shelf = makeShelf();
  let web: Web;
  const ask = (path: string, headers: Record<string, string> = {}, method = "GET") =>
    web(new Request(`http://127.0.0.1:1${path}`, { headers, method }));
  beforeAll(async () => {
    web = await makeWeb(resolve("dist", "window"), shelf, "ws://127.0.0.1:1");
    mkdirSync(join(folder, "strip"));
    writeFileSync(join(folder, "strip", "0.jpg"), "picture");
    writeFileSync(join(folder, "strip", "secret.txt"), "secret");
    writeFileSync(join(folder, "clip.mp4"), "0123456789");
  });

  it("byte ranges as RFC 9110, 14: one, open, from the end, none that fits, several, damaged, HEAD", async () => {
    const address = shelf.lendFile("media", join(folder, "clip.mp4"));
    expect(shelf.lendFile("media", join(folder, "clip.mp4"))).toBe(address);
    const got = async (range: string, method = "GET") => {
      const response = await ask(address, { range }, method);
      return [
        response.status,
        await response.text(),
        response.headers.get("content-range"),
        response.headers.get("content-length"),
      ];
    };
    expect(await got("bytes=2-4")).toEqual([206, "234", "bytes 2-4/10", "3"]);
    expect(await got("bytes=7-")).toEqual([206, "789", "bytes 7-9/10", "3"]);
    expect(await got("bytes=-2")).toEqual([206, "89", "bytes 8-9/10", "2"]);
    expect(await got("bytes=4-99")).toEqual([206, "456789", "bytes 4-9/10", "6"]);
    expect((await got("bytes=10-"))[0]).toBe(416);
    expect(await got("bytes=0-1,4-5")).toEqual([200, "0123456789", null, "10"]);
    expect((await got("lines=1-2"))[0]).toBe(200);
    expect(await got("bytes=2-4", "HEAD")).toEqual([206, "", "bytes 2-4/10", "3"]);
    shelf.takeBack(address);
    expect((await ask(address)).status).toBe(404);
  });

  it("pictures of a folder by number, and nothing else of it", async () => {
    const strip = shelf.lendPictures(join(folder, "strip"));
    expect(await (await ask(`${strip}/0.jpg`)).text()).toBe("picture");
    for (const other of ["", "/1.jpg", "/secret.txt", "/..%2fclip.mp4", "/0.jpg/x", "/00000000000.jpg"])
      expect((await ask(strip + other)).status).toBe(404);
  });

  it("bytes made when asked, one of many by name; a page with a policy of its own", async () => {
    const data = shelf.lendBytes((name) => (name === "clip1" ? new Uint8Array([1, 2]) : null));
    expect([...new Uint8Array(await (await ask(`${data}/clip1`)).arrayBuffer())]).toEqual([1, 2]);
    expect((await ask(`${data}/clip2`)).status).toBe(404);
    const page = await ask(shelf.lendPage("<p>weeks</p>"));
    expect(await page.text()).toBe("<p>weeks</p>");
    expect(page.headers.get("content-security-policy")).toMatch(/default-src 'none'.*sandbox/);
  });

  it("no file but those that were built or lent", async () => {
    for (const path of [
      "/bundle.stamp",
      "/../followcar.mjs",
      `/media/${"0".repeat(32)}`,
      "/%2e%2e/package.json",
      "/main.js/x",
    ])
      expect((await ask(path)).status).toBe(404);
    expect((await ask("/", {}, "POST")).status).toBe(405);
  });
});

describe("calls", () => {
  const fake = fakeDesk((name) => {
    if (name === "undo") throw new Failure("edit-refused", { why: "x" } as never, new Error("/home/ana/secret.ts:3"));
    if (name === "redo") throw new Error("/home/ana/secret.ts:3 broke\n    at stack");
    return { x: NaN };
  });
  const sent: Record<string, unknown>[] = [];
  let listen: (text: string) => void = () => undefined;
  const window = serveWindow(fake.makeDesk({} as never).api, {
    post: (text) => sent.push(JSON.parse(text) as Record<string, unknown>),
    on: (listener) => (listen = listener),
  });
  const call = async (m: string, a: unknown[], more: object = {}) => {
    sent.length = 0;
    listen(JSON.stringify({ t: "q", i: "1", m, a, ...more }));
    await expect.poll(() => sent.length).toBe(1);
    return sent[0] as
      { r?: unknown; e?: { code: string; notice: unknown; causes: unknown; stack?: string } } | undefined;
  };

  it("answers; a failure crosses as code and facts without its causes, any other error without its stack", async () => {
    expect((await call("about", []))!.r).toEqual({ x: null });
    expect((await call("undo", []))!.e).toEqual({
      code: "usage",
      notice: { code: "edit-refused", facts: { why: "x" } },
      causes: [],
    });
    const { e } = (await call("redo", []))!;
    expect(e!.code).toBe("internal");
    expect(JSON.stringify(e)).not.toContain("at stack");
  });

  it.each(["constructor", "toString", "__proto__", "hasOwnProperty", "close", "", "$close", "then"])(
    "there is no call %j",
    async (name) => {
      const before = fake.asked.length;
      expect((await call(name, []))!.e!.code).toBe("internal");
      expect(fake.asked.length).toBe(before);
    },
  );

  it("arguments that do not fit reach no handler", async () => {
    const before = fake.asked.length;
    const wrong: [string, unknown[]][] = [
      ["about", [1]],
      ["listFolder", []],
      ["listFolder", [3]],
      ["listFolder", ["x".repeat(65)]],
      ["addFiles", ["x"]],
      ["lineUp", ["yes"]],
      ["edit", [{ part: "plan", value: 1 }, 0]],
      ["edit", [{ part: "plan", value: 1, label: "x", more: 1 }, 0]],
      ["edit", [{ part: "plan", value: 1, label: "x" }, -1]],
      ["pickFilm", [null]],
      ["setComment", ["a", "no base64!"]],
      ["handOver", [{ forWhom: "all" }]],
    ];
    for (const [name, args] of wrong) expect((await call(name, args))!.e!.code).toBe("usage");
    for (const text of ["", "nonsense", "[]", "null", '{"t":"q"}', '{"t":"s","i":"1"}', '{"t":"q","m":"about","a":{}}'])
      listen(text);
    // They are taken in their order: once a call after them is answered, they are behind.
    expect((await call("about", []))!.r).toBeDefined();
    expect(fake.asked.length).toBe(before + 1);
    window.close();
  });
});

describe("the picker", () => {
  const home = join(folder, "home");
  const outside = join(folder, "outside");
  const paths = makePathBook();
  const picker = makePicker(paths, null, () => Promise.resolve([{ path: home, name: "Home" }]));
  beforeAll(() => {
    mkdirSync(join(home, "ana"), { recursive: true });
    mkdirSync(join(home, "old"));
    mkdirSync(outside);
    writeFileSync(join(home, "old", "debrief.json"), "{}");
    for (const name of ["b.fit", "a.gpx.gz", "c.MP4", "notes.txt", ".hidden.fit", "athlete.json"])
      writeFileSync(join(home, name), "x");
    writeFileSync(join(home, "camera"), Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from("ftypmp42")]));
    writeFileSync(join(home, "computer"), Buffer.concat([Buffer.alloc(8), Buffer.from(".FIT")]));
    writeFileSync(join(home, "packed.bin"), gzipSync("x"));
    symlinkSync(outside, join(home, "out"));
    symlinkSync(join(home, "ana"), join(home, "in"));
  });

  it("lists by kind, told by name or by how a file begins; hides what is hidden and what leads outside", async () => {
    const [place] = await picker.places();
    const listing = await picker.listFolder(place!.id);
    expect(listing.parentId).toBe(null);
    expect(listing.entries.map(({ name, kind }) => [name, kind])).toEqual([
      ["ana", "folder"],
      ["in", "folder"],
      ["a.gpx.gz", "ride"],
      ["athlete.json", "athlete"],
      ["b.fit", "ride"],
      ["c.MP4", "clip"],
      ["camera", "clip"],
      ["computer", "ride"],
      ["notes.txt", "other"],
      ["old", "debrief"],
      ["packed.bin", "other"],
    ]);
    const linked = listing.entries.find(({ name }) => name === "in")!;
    expect(paths.pathOf(linked.id)).toBe(join(home, "ana"));
    expect((await picker.listFolder(linked.id)).parentId).toBe(place!.id);
  });

  it("goes nowhere else, even by an id that it knows; ids can't be guessed or reused", async () => {
    for (const path of [outside, folder, "/", join(home, "..")])
      await expect(picker.listFolder(paths.idOf(path))).rejects.toMatchObject({ code: "file-unreadable" });
    await expect(picker.listFolder("0".repeat(32))).rejects.toMatchObject({ code: "file-unreadable" });
    expect(makePathBook().idOf(home)).not.toBe(makePathBook().idOf(home));
    await expect(picker.idsOfDropped(["x"])).rejects.toMatchObject({ code: "usage" });
  });
});

describe("which shell", () => {
  it("Electron where it is, else the browser; forced either way; told what to do where neither is", () => {
    expect(pickShell(undefined, "/e", "/c")).toEqual({ kind: "electron", path: "/e" });
    expect(pickShell("", null, "/c")).toEqual({ kind: "chromium", path: "/c" });
    expect(pickShell("chromium", "/e", "/c")).toEqual({ kind: "chromium", path: "/c" });
    expect(refused(() => pickShell("electron", null, "/c"))).toMatch(/install-electron/);
    expect(refused(() => pickShell(undefined, null, null))).toMatch(/FOLLOWCAR_CHROMIUM/);
    expect(refused(() => pickShell("other", null, "/c"))).toMatch(/electron or chromium/);
  });

  it("a session without a screen is told so, and only that", () => {
    const linux = (env: NodeJS.ProcessEnv) => whyNoWindow(1, { platform: "linux", env });
    expect(linux({})).toEqual({ kind: "no screen", exitCode: 1 });
    expect(linux({ DISPLAY: "", WAYLAND_DISPLAY: "" })).toEqual({ kind: "no screen", exitCode: 1 });
    for (const env of [{ DISPLAY: ":0" }, { WAYLAND_DISPLAY: "wayland-0" }])
      expect(linux(env)).toEqual({ kind: "ended with code", exitCode: 1 });
    expect(whyNoWindow(1, { platform: "darwin", env: {} })).toEqual({ kind: "ended with code", exitCode: 1 });
  });

  it("the browser's sandbox is left out for root alone", () => {
    expect(browserArguments("http://x/", "/p", false)).not.toContain("--no-sandbox");
    expect(browserArguments("http://x/", "/p", true)).toContain("--no-sandbox");
  });
});
