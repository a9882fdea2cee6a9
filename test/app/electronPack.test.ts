// electron-builder.yml, checked by packing on a stand-in for Electron's binary: what is in the archive, and how its fuses lie.
import { createPackage, listPackage } from "@electron/asar";
import { FuseState, FuseV1Options, getCurrentFuseWire } from "@electron/fuses";
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative, resolve } from "node:path";
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
