// Set-up as a fresh machine runs it, on a small project with stand-ins for what it would fetch: what it says, and that it
// goes on. Node's versions are told to it before it starts.
import { spawnSync } from "node:child_process";
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, dirname, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { createHash } from "node:crypto";
import { afterAll, describe, expect, it } from "vitest";
import { testTools } from "../support/tools.ts";

const folder = mkdtempSync(join(tmpdir(), "followcar-setup-"));
chmodSync(folder, 0o755);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const BINARY = process.platform === "win32" ? "electron.exe" : "electron";
/** What Electron's install.js does, in a few words: the binary, then path.txt as its last act. */
const INSTALLS = `const fs = require("fs"), path = require("path");
  fs.mkdirSync(path.join(__dirname, "dist"), { recursive: true });
  fs.writeFileSync(path.join(__dirname, "dist", "${BINARY}"), "x");
  fs.writeFileSync(path.join(__dirname, "path.txt"), "${BINARY}");`;
const BREAKS_OFF = `const fs = require("fs"), path = require("path");
  fs.mkdirSync(path.join(__dirname, "dist"), { recursive: true });
  fs.writeFileSync(path.join(__dirname, "dist", "${BINARY}"), "x");
  console.error("TypeError: terminated\\n  cause: SocketError: other side closed { code: 'UND_ERR_SOCKET' }"); process.exit(1);`;
const failsWith = (text: string) => `console.error(${JSON.stringify(text)}); process.exit(1);`;

/** A lock file of no packages. */
const LOCK = '{"packages":{}}';

let made = 0;
const stamped = (lock: string, node: string) =>
  createHash("sha256").update(lock).update(`v${node} ${process.platform} ${process.arch}`).digest("hex");

/** A project folder whose packages are there for `node`, with `installJs` for Electron's download. */
function project(installJs: string, node: string): string {
  const root = join(folder, `project-${(made += 1)}`);
  mkdirSync(join(root, "main", "cli"), { recursive: true });
  cpSync("main/setup", join(root, "main", "setup"), { recursive: true });
  // The notice of all packages quotes the face's licence.
  cpSync("assets/fonts/OFL.txt", join(root, "assets", "fonts", "OFL.txt"));
  writeFileSync(join(root, "main", "cli", "followcar.ts"), "export const here = 1;\n");
  writeFileSync(join(root, "package-lock.json"), LOCK);
  const packages = join(root, "node_modules");
  mkdirSync(join(packages, "electron"), { recursive: true });
  for (const name of ["esbuild", "@esbuild"]) symlinkSync(resolve("node_modules", name), join(packages, name), "dir");
  writeFileSync(join(packages, "electron", "package.json"), '{"type":"commonjs"}');
  writeFileSync(join(packages, "electron", "install.js"), installJs);
  writeFileSync(join(packages, ".followcar-stamp"), stamped(LOCK, node));
  writeFileSync(join(packages, ".followcar-ffmpeg-tried"), "");
  writeFileSync(join(packages, ".followcar-browser-tried"), "");
  return root;
}

interface Run {
  readonly root: string;
  readonly node?: string;
  readonly args?: readonly string[];
  readonly env?: Record<string, string>;
  readonly uid?: number;
}

function setUp({ root, node = "24.11.0", args = ["--quiet", "--window"], env = {}, uid }: Run) {
  const told = join(root, "node-version.mjs");
  if (!existsSync(told))
    writeFileSync(
      told,
      `Object.defineProperty(process.versions, "node", { value: "${node}" });
       Object.defineProperty(process, "version", { value: "v${node}" });`,
    );
  const tools = testTools();
  const {
    FOLLOWCAR_SHELL: _,
    ELECTRON_OVERRIDE_DIST_PATH: __,
    HTTPS_PROXY: ___,
    https_proxy: ____,
    ...rest
  } = process.env;
  const run = spawnSync(
    process.execPath,
    ["--import", pathToFileURL(told).href, join(root, "main", "setup", "setup.mjs"), ...args],
    {
      encoding: "utf8",
      ...(uid === undefined ? {} : { uid, gid: uid }),
      env: { ...rest, FOLLOWCAR_FFMPEG: tools.ffmpeg, FOLLOWCAR_FFPROBE: tools.ffprobe, ...env },
    },
  );
  return { status: run.status, said: run.stderr };
}

const noElectron = (root: string) => {
  const left = readdirSync(join(root, "node_modules", "electron"));
  return !left.includes("dist") && !left.includes("path.txt");
};

describe("Electron's binary", () => {
  it("is fetched once, said once, and not asked for again", () => {
    const root = project(INSTALLS, "24.11.0");
    const first = setUp({ root });
    expect(first).toMatchObject({ status: 0 });
    expect(first.said).toContain("fetching Electron");
    expect(first.said).not.toContain("no Electron");
    writeFileSync(join(root, "node_modules", "electron", "install.js"), failsWith("asked again"));
    expect(setUp({ root })).toEqual({ status: 0, said: "" });
  });

  it.each([
    ["no network", "FetchError: ENOTFOUND"],
    ["no network", "connect ECONNREFUSED 192.0.2.1:443"],
    ["the disk is full", "Error: ENOSPC: no space left on device, write"],
    ["this folder can't be written", "Error: EROFS: read-only file system, mkdir"],
    [
      "what came is not what its checksum promises",
      'ChecksumMismatchError: Generated checksum for "electron.zip" did not match expected checksum.',
    ],
    ["the download failed", "something else"],
  ])("%s: said in one sentence, and the window goes another way", (why, output) => {
    const root = project(failsWith(output), "24.11.0");
    const { status, said } = setUp({ root });
    expect(status).toBe(0);
    expect(said).toContain(`set-up: no Electron: ${why}; `);
    expect(said).toContain("To try again: npm run setup");
    expect(existsSync(join(root, "dist", "followcar.mjs"))).toBe(true);
    // Not tried again at each start, but by `npm run setup`.
    expect(setUp({ root }).said).toBe("");
    expect(setUp({ root, args: ["--window"], env: { npm_lifecycle_event: "setup" } }).said).toContain("no Electron");
  });

  it("a download that breaks off in the middle leaves nothing that could be taken for whole", () => {
    const root = project(BREAKS_OFF, "24.11.0");
    expect(setUp({ root }).said).toContain("no Electron: the network broke off in the middle");
    expect(noElectron(root)).toBe(true);
  });

  it.each([
    ["20.19.2", "Electron's own tools ask for Node 22.12 or newer (this is 20.19.2)"],
    ["22.11.0", "Electron's own tools ask for Node 22.12 or newer (this is 22.11.0)"],
  ])("on Node %s it is not tried, and said why", (node, why) => {
    const root = project(INSTALLS, node);
    const { status, said } = setUp({ root, node });
    expect(status).toBe(0);
    expect(said).toContain(`no Electron: ${why}`);
    expect(noElectron(root)).toBe(true);
  });

  it.each(["22.12.0", "24.11.0", "25.0.0"])("on Node %s it is fetched", (node) => {
    const root = project(INSTALLS, node);
    expect(setUp({ root, node }).said).not.toContain("no Electron");
    expect(noElectron(root)).toBe(false);
  });

  it("a proxy of the environment is used where Node can, and named where it can't", () => {
    const asks = `if (process.env.NODE_USE_ENV_PROXY !== "1") process.exit(1); ${INSTALLS}`;
    const env = { HTTPS_PROXY: "http://proxy.example:3128" };
    expect(setUp({ root: project(asks, "24.11.0"), env }).said).not.toContain("no Electron");
    const refused = failsWith("connect ECONNREFUSED");
    expect(setUp({ root: project(refused, "22.12.0"), node: "22.12.0", env }).said).toContain(
      "no Electron: no network; HTTPS_PROXY is set, and Node goes by way of a proxy from 22.21 on; ",
    );
    expect(setUp({ root: project(refused, "24.11.0"), env }).said).toContain("no Electron: no network; the window");
  });

  it("is not waited for by the demo and the tests, nor where the other shell is wished", () => {
    const root = project(failsWith("asked"), "24.11.0");
    for (const args of [["--quiet"], ["--quiet", "--tests"]]) expect(setUp({ root, args }).said).toBe("");
    expect(setUp({ root, env: { FOLLOWCAR_SHELL: "chromium" } }).said).toBe("");
    const scripts = (JSON.parse(readFileSync("package.json", "utf8")) as { scripts: Record<string, string> }).scripts;
    expect(Object.keys(scripts).filter((name) => scripts[name]?.includes("--window"))).toEqual([
      "start",
      "setup",
      "package",
      "try:electron",
      "pictures",
    ]);
  });

  it("without any browser the person is told what works and what does not", () => {
    const root = project(failsWith("ENOTFOUND"), "24.11.0");
    const bare = join(root, "bin");
    mkdirSync(bare);
    const { said } = setUp({ root, env: { PATH: [bare, dirname(process.execPath)].join(delimiter) } });
    if (/chromium|chrome/i.test(readdirSync(dirname(process.execPath)).join(" "))) return;
    expect(said).toContain("the command line works, the window needs one of them");
  });
});

describe("the machine", () => {
  it.each(["18.20.0", "20.18.9"])("Node %s is refused with the version that is needed", (node) => {
    const { status, said } = setUp({ root: project(INSTALLS, node), node });
    expect(status).toBe(1);
    expect(said).toBe(`set-up: Node ${node} is too old. Install Node 20.19 or newer.\n`);
  });

  it.runIf(process.platform === "linux" && process.getuid?.() === 0)(
    "where another program installs just now, its end is waited for, two minutes at most",
    () => {
      const root = project(INSTALLS, "24.11.0");
      const programs = join(root, "programs");
      mkdirSync(programs);
      // What apt-get was told; ffmpeg is there, the tools of the tests are not.
      writeFileSync(join(programs, "apt-get"), `#!/bin/sh\necho "$@" >> "${join(root, "apt")}"\n`);
      chmodSync(join(programs, "apt-get"), 0o755);
      setUp({ root, args: ["--quiet", "--tests"], env: { PATH: programs } });
      const asked = readFileSync(join(root, "apt"), "utf8").trim().split("\n");
      expect(asked.some((line) => line.includes("install") && line.includes("tesseract-ocr"))).toBe(true);
      for (const line of asked) expect(line).toMatch(/^-o DPkg::Lock::Timeout=120 (update|install) /);
    },
  );

  it.runIf(process.getuid?.() === 0)("a folder that can't be written is named, with what to do", () => {
    const root = project(INSTALLS, "24.11.0");
    writeFileSync(
      join(root, "node-version.mjs"),
      "Object.defineProperty(process.versions, 'node', { value: '24.11.0' });",
    );
    const { status, said } = setUp({ root, uid: 65_534 });
    expect(status).toBe(1);
    expect(said).toBe(
      `set-up: ${root} can't be written. Copy the project into a folder of your own and run the command there.\n`,
    );
  });
});
