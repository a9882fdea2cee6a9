// electron-builder.yml, checked by packing on a stand-in for Electron's binary: what is in the archive, and how its fuses lie.
// The command line, the painter and the server then run out of that archive with Node, with nothing on PATH.
import { createPackage, extractAll, listPackage } from "@electron/asar";
import { FuseState, FuseV1Options, getCurrentFuseWire } from "@electron/fuses";
import { build } from "esbuild";
import { spawnSync } from "node:child_process";
import {
  appendFileSync,
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { builtinModules } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, relative, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findTools } from "../../main/setup/tools.mjs";

/** The mark before the fuses in Electron's binary (electron/electron, docs/tutorial/fuses.md), version 1, nine fuses, all as Electron ships them. */
const FUSE_MARK = "dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX";
const FUSES_AS_SHIPPED = "101100101";

const folder = mkdtempSync(join(tmpdir(), "followcar-pack-"));
const app = join(folder, "out", "linux-unpacked");
let listed: readonly string[] = [];

beforeAll(async () => {
  const fake = join(folder, "electron");
  mkdirSync(join(fake, "resources"), { recursive: true });
  mkdirSync(join(folder, "default"));
  writeFileSync(join(folder, "default", "package.json"), "{}");
  await createPackage(join(folder, "default"), join(fake, "resources", "default_app.asar"));
  const wire = Buffer.concat([
    Buffer.from(`padding ${FUSE_MARK}`),
    Buffer.from([1, FUSES_AS_SHIPPED.length]),
    Buffer.from(FUSES_AS_SHIPPED),
    Buffer.from(" padding"),
  ]);
  writeFileSync(join(fake, "electron"), wire, { mode: 0o755 });
  for (const name of ["LICENSE", "LICENSES.chromium.html", "version"]) writeFileSync(join(fake, name), "45.5.0");
  const run = spawnSync(
    process.execPath,
    [
      resolve("node_modules/electron-builder/cli.js"),
      "--linux",
      "dir",
      `-c.electronDist=${fake}`,
      `-c.directories.output=${join(folder, "out")}`,
    ],
    { encoding: "utf8", env: { ...process.env, USE_SYSTEM_7ZA: "true" } },
  );
  if (!existsSync(join(app, "resources", "app.asar")))
    throw new Error(`${run.stdout.slice(-2000)}${run.stderr.slice(-2000)}`);
  listed = listPackage(join(app, "resources", "app.asar"), { isPack: false });
}, 180_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.skipIf(process.platform !== "linux")("packing", () => {
  it("packs the bundles, the page, the fonts and nothing else of the project", () => {
    const top = new Set(listed.map((path) => path.split("/")[1]));
    expect([...top].sort()).toEqual(["LICENSE", "assets", "dist", "main", "node_modules", "package.json"]);
    expect(listed).toContain("/dist/electronMain.mjs");
    expect(listed).toContain("/dist/preload.cjs");
    // The licences of all packages, that of ffmpeg among them.
    expect(listed).toContain("/dist/packages.txt");
    expect(listed).toContain("/node_modules/ffmpeg-static/LICENSE");
    expect(listed).toContain("/dist/window/index.html");
    expect(listed.filter((path) => path.startsWith("/main/") && path.endsWith(".ts"))).toEqual([]);
    expect(
      listed.filter(
        (path) => /\.npmrc|\.git|\/test\/|test-demo|\.map$/.test(path) && !path.startsWith("/node_modules/"),
      ),
    ).toEqual([]);
    expect(
      listed.filter((path) => /^\/node_modules\/(electron|vitest|typescript|playwright-core)(\/|$)/.test(path)),
    ).toEqual([]);
  });

  it("native code and fonts lie beside the archive", () => {
    expect(existsSync(join(app, "resources", "app.asar.unpacked", "assets", "fonts", "OFL.txt"))).toBe(true);
    expect(existsSync(join(app, "resources", "app.asar.unpacked", "node_modules", "@napi-rs"))).toBe(true);
  });

  it("programs that are started lie beside the archive: what is inside can't be", () => {
    const { ffmpeg, ffprobe } = findTools();
    for (const { path, source } of [ffmpeg!, ffprobe!]) {
      if (source !== "ffmpeg-static" && source !== "ffprobe-installer") continue;
      const unpacked = join(app, "resources", "app.asar.unpacked", relative(resolve("."), path));
      expect(existsSync(unpacked), unpacked).toBe(true);
      expect(statSync(unpacked).mode & 0o111).not.toBe(0);
    }
    // One of the two comes from npm itself and is here on every machine.
    expect(ffprobe!.source).toBe("ffprobe-installer");
  });

  it("all that it opens at run time is in it: what its bundles import, and the files of the project that it asks for", async () => {
    // What the bundles import and do not hold themselves, as a bundler reads it.
    const entries = readdirSync("dist")
      .filter((name) => /^[a-z].*\.[cm]js$/i.test(name) && !name.startsWith("chunk-"))
      .map((name) => join("dist", name));
    const { metafile } = await build({
      entryPoints: entries,
      outdir: join(folder, "walked"),
      bundle: true,
      write: false,
      metafile: true,
      platform: "node",
      format: "esm",
      packages: "external",
      logLevel: "silent",
    });
    const imported = Object.values(metafile.inputs).flatMap(({ imports }) => imports);
    const packages = new Set(
      imported
        .filter(({ external }) => external)
        .map(({ path }) => /^(@[^/]+\/)?[^/]+/.exec(path)![0])
        .filter((name) => !name.startsWith("node:") && !builtinModules.includes(name) && name !== "electron"),
    );
    expect([...packages]).toEqual(expect.arrayContaining(["@napi-rs/canvas"]));
    for (const name of packages) expect(listed).toContain(`/node_modules/${name}/package.json`);
    for (const path of Object.keys(metafile.inputs)) expect(listed).toContain(`/${path}`);

    // Every file of the project is asked for by one function; its names stand as text, but for a bundle's and a face's.
    const asked: string[] = [];
    for (const path of readdirSync("main", { recursive: true, encoding: "utf8" })) {
      if (!path.endsWith(".ts")) continue;
      const text = readFileSync(join("main", path), "utf8").replace(/\s+/g, " ");
      for (const [, names] of text.matchAll(/(?<!function )projectFile\(([^()]*?),? ?\)/g)) asked.push(names!.trim());
    }
    const packed: Record<string, readonly string[]> = {
      '"package.json"': ["/package.json"],
      '"dist", "window"': ["/dist/window/index.html"],
      '"dist", "electronMain.mjs"': ["/dist/electronMain.mjs"],
      '"dist", "packages.txt"': ["/dist/packages.txt"],
      '"dist", "placeClipsWorker.mjs"': ["/dist/placeClipsWorker.mjs"],
      '"dist", "rideWorker.mjs"': ["/dist/rideWorker.mjs"],
      '"dist", `${name}.mjs`': ["/dist/paintChild.mjs", "/dist/watchChild.mjs", "/dist/filmClipChild.mjs"],
      '"assets", "fonts"': ["/assets/fonts/OFL.txt"],
      '"assets", "fonts", `barlow-semi-condensed-latin-${weight}-normal.woff2`': [
        "/assets/fonts/barlow-semi-condensed-latin-500-normal.woff2",
      ],
      // Electron of a checkout: a packed program is Electron itself.
      '"node_modules", "electron", "package.json"': [],
    };
    expect([...new Set(asked)].sort()).toEqual(Object.keys(packed).sort());
    for (const path of Object.values(packed).flat()) expect(listed).toContain(path);
  });

  it("fuses: no running as Node, no options from outside, no file privileges; cookies encrypted, only the checked archive", async () => {
    const wire = await getCurrentFuseWire(join(app, "followcar"));
    const off = [
      FuseV1Options.RunAsNode,
      FuseV1Options.EnableNodeOptionsEnvironmentVariable,
      FuseV1Options.EnableNodeCliInspectArguments,
      FuseV1Options.GrantFileProtocolExtraPrivileges,
    ];
    const on = [
      FuseV1Options.EnableCookieEncryption,
      FuseV1Options.EnableEmbeddedAsarIntegrityValidation,
      FuseV1Options.OnlyLoadAppFromAsar,
    ];
    expect(off.map((fuse) => wire[fuse])).toEqual(off.map(() => FuseState.DISABLE));
    expect(on.map((fuse) => wire[fuse])).toEqual(on.map(() => FuseState.ENABLE));
  });

  it("Electron is among the three newest majors of 2026-11 (45, 44, 43), pinned exactly", () => {
    const { devDependencies } = JSON.parse(readFileSync("package.json", "utf8")) as {
      devDependencies: Record<string, string>;
    };
    expect(devDependencies.electron).toMatch(/^4[345]\.\d+\.\d+$/);
  });
});

describe.skipIf(process.platform !== "linux")("out of the packed archive, with Node and nothing on PATH", () => {
  const root = join(folder, "installed");
  const state = join(folder, "state");
  const run = (args: readonly string[], more: NodeJS.ProcessEnv = {}) =>
    spawnSync(process.execPath, [join(root, "dist", "followcar.mjs"), ...args], {
      cwd: folder,
      encoding: "utf8",
      // Nothing of this computer's: no ffmpeg, no ffprobe, no browser, no folder of a person.
      env: { PATH: join(folder, "nothing"), HOME: folder, FOLLOWCAR_STATE: state, FOLLOWCAR_CACHE: state, ...more },
    });
  const ride = resolve("test/fixtures/rides/power-heart-1s.fit");

  beforeAll(() => {
    // Node doesn't read inside an archive as Electron does: it is unpacked, with what lies beside it laid over it.
    extractAll(join(app, "resources", "app.asar"), root);
    cpSync(join(app, "resources", "app.asar.unpacked"), root, { recursive: true });
    // ffmpeg-static fetches its binary from a server that not every machine reaches: this one's stands in for it there.
    const bundled = join(root, "node_modules", "ffmpeg-static", "ffmpeg");
    if (!existsSync(bundled)) {
      mkdirSync(dirname(bundled), { recursive: true });
      copyFileSync(findTools().ffmpeg!.path, bundled);
      // A distribution's is small, its code being in libraries; a static one is taken for whole from 1 MB on.
      appendFileSync(bundled, Buffer.alloc(1_000_000));
    }
  });

  it("reads a ride", () => {
    const { status, stdout, stderr } = run(["read", ride]);
    expect(status, stderr).toBe(0);
    expect(stdout).toContain("power-heart-1s.fit");
  });

  it("paints panels over a clip and reads it back by its own ffprobe", () => {
    const clip = join(folder, "clip.mp4");
    const out = join(folder, "out.mp4");
    const picture = ["-f", "lavfi", "-i", "color=gray:s=640x360:r=25:d=2", "-pix_fmt", "yuv420p", clip];
    expect(spawnSync(findTools().ffmpeg!.path, ["-v", "error", ...picture]).status).toBe(0);
    const { status, stderr } = run(["overlay", ride, clip, "--anchor", `${clip}@0=5:00`, "--out", out]);
    expect(status, stderr).toBe(0);
    const gray = (file: string) =>
      spawnSync(findTools().ffmpeg!.path, [
        ..."-v error -ss 1 -i".split(" "),
        file,
        ..."-frames:v 1 -f rawvideo -pix_fmt gray -".split(" "),
      ]).stdout;
    // Figures stand on the picture: many pixels are no longer the clip's plain gray.
    const plain = gray(clip)[0]!;
    const painted = gray(out);
    expect(painted).toHaveLength(1280 * 720);
    expect(painted.filter((level) => Math.abs(level - plain) > 60).length).toBeGreaterThan(1_000);
  }, 60_000);

  it("serves the window to a browser", () => {
    // In a browser's place, a program that opens what it was told to and writes down what it got.
    const browser = join(folder, "browser.mjs");
    const got = join(folder, "got.json");
    writeFileSync(
      browser,
      `#!${process.execPath}
import { readFileSync, writeFileSync } from "node:fs";
const page = readFileSync(new URL(process.argv.find((arg) => arg.startsWith("--app=")).slice(6)), "utf8");
const opened = await fetch(JSON.parse(/replace\\((".*?")\\)/.exec(page)[1]), { redirect: "manual" });
const cookie = opened.headers.getSetCookie().map((set) => set.split(";")[0]).join("; ");
const next = opened.headers.get("location");
const window = next === null ? opened : await fetch(new URL(next, opened.url), { headers: { cookie } });
writeFileSync(process.env.GOT, JSON.stringify({ status: window.status, text: await window.text() }));
process.exit(7);
`,
      { mode: 0o755 },
    );
    const { status, stderr } = run(["open"], { FOLLOWCAR_SHELL: "chromium", FOLLOWCAR_CHROMIUM: browser, GOT: got });
    // The stand-in ends as a browser does that breaks: the program says so and ends, too.
    expect(status).toBe(1);
    expect(stderr).toContain("code 7");
    const window = JSON.parse(readFileSync(got, "utf8")) as { status: number; text: string };
    expect(window.status).toBe(200);
    expect(window.text).toContain("<title>Followcar");
  });

  it("says so where a part of it is gone", () => {
    rmSync(join(root, "node_modules", "ffmpeg-static"), { recursive: true });
    const { status, stderr } = run(["overlay", ride, join(folder, "clip.mp4"), "--out", join(folder, "none.mp4")]);
    expect(status).not.toBe(0);
    expect(stderr).toContain("ffmpeg");
    expect(existsSync(join(folder, "none.mp4"))).toBe(false);
  });
});
