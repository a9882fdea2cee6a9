// The window's one-time address: what another user of the computer sees of it, and who comes second.
import { spawn } from "node:child_process";
import { chmod, mkdir, mkdtemp, readFile, readdir, rm, stat, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { openInBrowser } from "../../main/app/fallback/openInBrowser.ts";
import { testTools } from "../support/tools.ts";
import { fakeDesk } from "./fakeDesk.ts";
import { noticeText } from "../../overlay/words/notices/noticeText.ts";

/** "nobody" of Debian and most other systems. */
const NOBODY = 65534;
const TRIES = 200;

/**
 * A browser as slow as a real one: opens what its arguments name (a page that leads on is followed), connects the
 * window's socket, comes a second time with the same address, and tells what it got.
 */
const BROWSER = `#!${process.execPath}
const { existsSync, readFileSync, writeFileSync, renameSync } = require("node:fs");
const { fileURLToPath } = require("node:url");
const { connect } = require("node:net");
const told = process.env.FOLLOWCAR_TEST_TOLD;
const tell = (name, facts) => { writeFileSync(told + name + ".new", JSON.stringify(facts)); renameSync(told + name + ".new", told + name); };
(async () => {
  const app = process.argv.find((one) => one.startsWith("--app=")).slice(6);
  const leads = app.startsWith("file:") ? /location\\.replace\\("([^"]+)"\\)/.exec(readFileSync(fileURLToPath(app), "utf8"))[1] : app;
  const { port, origin } = new URL(leads);
  tell("port", { port: Number(port) });
  const until = Date.now() + Number(process.env.FOLLOWCAR_TEST_SLOW);
  while (Date.now() < until && !existsSync(told + "thief")) await new Promise((done) => setTimeout(done, 20));
  const first = await fetch(leads, { redirect: "manual", headers: app.startsWith("file:") ? { "sec-fetch-site": "cross-site" } : {} });
  const cookie = (first.headers.get("set-cookie") || "").split(";")[0];
  const page = await fetch(origin + "/", { headers: { cookie } });
  const again = await fetch(leads, { redirect: "manual" });
  tell("browser", { first: first.status, page: page.status, again: again.status });
  const socket = connect(Number(port), "127.0.0.1");
  socket.write(["GET /desk HTTP/1.1", "Host: 127.0.0.1:" + port, "Origin: " + origin, "Cookie: " + cookie, "Connection: Upgrade",
    "Upgrade: websocket", "Sec-WebSocket-Version: 13", "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==", "", ""].join("\\r\\n"));
  await new Promise((done) => { socket.once("data", done); socket.once("close", done); });
  process.exit(0);
})();
`;

/** Another user's program: takes every address out of the arguments of every process, follows pages that it may read, and asks the port. */
const THIEF = `
const { readFileSync, readdirSync } = require("node:fs");
const { fileURLToPath } = require("node:url");
const [told, mark, tries] = process.argv.slice(1);
const seen = new Set();
const statuses = [];
const ask = (url) => fetch(url, { redirect: "manual" }).then((answer) => answer.status, (error) => String(error.cause)).then((status) => statuses.push(status));
const look = () => {
  for (const pid of readdirSync("/proc")) {
    let text = "";
    try { text = readFileSync("/proc/" + pid + "/cmdline", "utf8"); } catch { continue; }
    if (!text.includes(mark)) continue;
    const app = text.split("\\0").find((one) => one.startsWith("--app="));
    if (app === undefined) continue;
    const url = app.slice(6);
    if (url.startsWith("http")) seen.add(url);
    else try { for (const one of readFileSync(fileURLToPath(url), "utf8").match(/http:[^"]+/g)) seen.add(one); } catch {}
  }
};
(async () => {
  let port = 0;
  const until = Date.now() + 20000;
  while (port === 0 && Date.now() < until) {
    try { port = JSON.parse(readFileSync(told + "port", "utf8")).port; } catch { await new Promise((done) => setTimeout(done, 5)); }
  }
  for (let k = 0; k < Number(tries); k += 20) {
    look();
    const urls = seen.size > 0 ? [...seen] : ["http://127.0.0.1:" + port + "/", "http://127.0.0.1:" + port + "/open/used"];
    await Promise.all(Array.from({ length: 20 }, (_, n) => ask(urls[n % urls.length])));
  }
  console.log(JSON.stringify({ statuses, uid: process.getuid() }));
})();
`;

let folder = "";
beforeEach(async () => {
  // Beside the tests' own folder, which others can't enter: nothing but the program's own keeps them out here.
  folder = await mkdtemp(join(dirname(tmpdir()), "followcar-second-"));
  await chmod(folder, 0o755);
  await chmod(folder, 0o755);
  await mkdir(join(folder, "told"), { mode: 0o755 });
  await writeFile(join(folder, "browser"), BROWSER, { mode: 0o755 });
  process.env.FOLLOWCAR_CACHE = join(folder, "cache");
  process.env.FOLLOWCAR_TEST_TOLD = join(folder, "told", "/");
  process.env.FOLLOWCAR_TEST_SLOW = "1000";
  process.env.FOLLOWCAR_BROWSER_ARGUMENTS = `--mark=${folder}`;
});
afterEach(async () => {
  delete process.env.FOLLOWCAR_CACHE;
  delete process.env.FOLLOWCAR_TEST_TOLD;
  delete process.env.FOLLOWCAR_TEST_SLOW;
  delete process.env.FOLLOWCAR_BROWSER_ARGUMENTS;
  await rm(folder, { recursive: true, force: true });
});

/** Opens the window in the stand-in; gives what was said. */
async function opened(): Promise<string[]> {
  const said: string[] = [];
  await openInBrowser(
    {
      shell: "chromium",
      tools: testTools(),
      toolWords: () => Promise.resolve([]),
      printPage: null,
      drops: null,
      given: [],
      makeDesk: fakeDesk().makeDesk,
      openFolder: () => Promise.resolve(),
    },
    join(folder, "browser"),
    new AbortController().signal,
    {
      opened: (program) => said.push(program),
      note: (one) => said.push(noticeText(one, "en", "command")),
    },
  );
  return said;
}

/** Runs the thief as another user; gives the status of each try. */
function thief(uid: number): Promise<{ statuses: (number | string)[]; uid: number }> {
  return new Promise((done, fail) => {
    const child = spawn(process.execPath, ["-e", THIEF, join(folder, "told", "/"), folder, String(TRIES)], {
      uid,
      gid: uid,
      cwd: "/",
      env: {},
      stdio: ["ignore", "pipe", "inherit"],
    });
    let out = "";
    child.stdout.on("data", (bytes: Buffer) => (out += bytes.toString()));
    child.on("error", fail);
    child.on("close", () => done(JSON.parse(out || "{}") as { statuses: (number | string)[]; uid: number }));
  });
}

const told = async (name: string) => JSON.parse(await readFile(join(folder, "told", name), "utf8")) as unknown;

test.skipIf(process.platform !== "linux" || process.getuid?.() !== 0)(
  "another user who reads every program's arguments is let in 0 of 200 times, and the window still opens",
  async () => {
    // The browser takes its address only when the thief has had all its tries.
    process.env.FOLLOWCAR_TEST_SLOW = "40000";
    const theft = thief(NOBODY).finally(() => void writeFile(join(folder, "told", "thief"), ""));
    const [found] = await Promise.all([theft, opened()]);
    expect(found.uid).toBe(NOBODY);
    expect(found.statuses.length).toBe(TRIES);
    // Each was answered, and refused.
    expect([...new Set(found.statuses)]).toEqual([401]);
    expect(await told("browser")).toMatchObject({ page: 200 });
  },
  60_000,
);

test.skipIf(process.platform === "win32")(
  "who comes second with the one-time address is refused, and it is said",
  async () => {
    const said = await opened();
    expect(await told("browser")).toEqual({ first: 200, page: 200, again: 401 });
    expect(said.filter((line) => /second time/.test(line)).length).toBe(1);
  },
  60_000,
);

test.skipIf(process.platform === "win32")(
  "the page that leads to the window and the browser's profile are the person's alone, and the page goes when it was used",
  async () => {
    await mkdir(join(folder, "cache", "browser"), { recursive: true, mode: 0o755 });
    await chmod(join(folder, "cache", "browser"), 0o755);
    let modes: number[] = [];
    const look = async () => {
      const profile = join(folder, "cache", "browser");
      const names = (await readdir(profile)).filter((name) => name.startsWith(".opening"));
      if (names.length !== 1 || modes.length > 0) return;
      const paths = [profile, join(profile, names[0]!), join(profile, names[0]!, "open.html")];
      modes = await Promise.all(paths.map(async (path) => (await stat(path)).mode & 0o777)).catch(() => []);
    };
    const timer = setInterval(() => void look(), 20);
    await opened().finally(() => clearInterval(timer));
    expect(modes).toEqual([0o700, 0o700, 0o600]);
    expect(await readdir(join(folder, "cache", "browser"))).toEqual([]);
  },
  60_000,
);
