// Every rule of the rooms must be seen to fail: a tree with one planted violation for each.
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

interface Planted {
  /** `not-in-allowed`: no line allows it. */
  readonly rule:
    | "not-in-allowed"
    | "no-circles"
    | "doors-not-to-debrief-store"
    | "no-room-without-a-rule"
    | "ffmpeg-commands-in-one-file"
    | "programs-by-one-edge"
    | "pure-not-to-edge"
    | "window-desk-below-all"
    | "window-shared-not-to-screen";
  /** The first is the one at fault. */
  readonly files: readonly (readonly [file: string, text: string])[];
}

const notAllowed = (file: string, text: string): Planted => ({ rule: "not-in-allowed", files: [[file, text]] });

const programStarted = (file: string): Planted => ({
  rule: "programs-by-one-edge",
  files: [[file, 'import { spawn } from "node:child_process"; export const c = spawn;']],
});

const PLANTED: Readonly<Record<string, Planted>> = {
  "a circle": {
    rule: "no-circles",
    files: [
      ["main/film/a.ts", 'import { b } from "./b.ts"; export const a = () => b;'],
      ["main/film/b.ts", 'import { a } from "./a.ts"; export const b = () => a;'],
    ],
  },
  "step to step": notAllowed("main/ride/toReading.ts", 'import "../reading/target.ts";'),
  "step to step, types alone": notAllowed(
    "main/ride/toFilm.ts",
    'import type { target } from "../film/target.ts"; export type T = typeof target;',
  ),
  "step to step by way of a new room: into it": notAllowed("main/ride/toNew.ts", 'import "../shared/between.ts";'),
  "step to step by way of a new room: out of it": notAllowed(
    "main/shared/between.ts",
    'import "../reading/target.ts";',
  ),
  "a new room below main/ that nobody imports": {
    rule: "no-room-without-a-rule",
    files: [["main/attic/alone.ts", "export const alone = 1;"]],
  },
  "a file beside the rooms": {
    rule: "no-room-without-a-rule",
    files: [["main/loose.ts", "export const loose = 1;"]],
  },
  "step to journey": notAllowed("main/reading/toJourney.ts", 'import "../journey/target.ts";'),
  "step to debrief": notAllowed("main/film/toDebrief.ts", 'import "../debrief/target.ts";'),
  "pure step to host": notAllowed("main/render/toHost.ts", 'import "../host/target.ts";'),
  "overlay to maths": notAllowed("overlay/toMaths.ts", 'import "../main/maths/target.ts";'),
  "overlay to a package": notAllowed(
    "overlay/toReact.ts",
    'import { createElement } from "react"; export const c = createElement;',
  ),
  "maths to contract": notAllowed("main/maths/toContract.ts", 'import "../contract/target.ts";'),
  "page to reading": notAllowed("main/page/toReading.ts", 'import "../reading/target.ts";'),
  "contract to overlay": notAllowed("main/contract/toOverlay.ts", 'import "../../overlay/target.ts";'),
  "contract to a package": notAllowed("main/contract/toZod.ts", 'import { z } from "zod"; export const c = z;'),
  "demo to journey": notAllowed("main/demo/toJourney.ts", 'import "../journey/target.ts";'),
  "app to the demo": notAllowed("main/app/toDemo.ts", 'import "../demo/target.ts";'),
  "journey to command line": notAllowed("main/journey/toCli.ts", 'import "../cli/target.ts";'),
  "host to a step": notAllowed("main/host/toRide.ts", 'import "../ride/target.ts";'),
  "app to command line": notAllowed("main/app/toCli.ts", 'import "../cli/target.ts";'),
  "app to the window": notAllowed("main/app/toRenderer.ts", 'import "../../renderer/target.ts";'),
  "command line to a step": notAllowed("main/cli/toFilm.ts", 'import "../film/target.ts";'),
  "command line to a type of a step": notAllowed(
    "main/cli/toReading.ts",
    'import type { target } from "../reading/target.ts"; export type T = typeof target;',
  ),
  "app to a step": notAllowed("main/app/toRender.ts", 'import "../render/target.ts";'),
  "app's launcher to a step": notAllowed("main/app/launch/toRender.ts", 'import "../../render/target.ts";'),
  "app to the debrief's store": {
    rule: "doors-not-to-debrief-store",
    files: [["main/app/toStore.ts", 'import "../debrief/store.edge.ts";']],
  },
  "window to a step": notAllowed("renderer/toRide.ts", 'import "../main/ride/target.ts";'),
  "command line to a test": notAllowed("main/cli/toTest.ts", 'import "../../test/target.ts";'),
  "a server package in a pure step": notAllowed(
    "main/film/toServer.ts",
    'import { serve } from "@hono/node-server"; export const c = serve;',
  ),
  "a package that no list names": notAllowed(
    "main/reading/toWs.edge.ts",
    'import { WebSocket } from "ws"; export const c = WebSocket;',
  ),
  "the disk in a pure file": notAllowed(
    "main/ride/toDisk.ts",
    'import { readFileSync } from "node:fs"; export const f = readFileSync;',
  ),
  "chance from Node in a pure file": notAllowed(
    "main/reading/toCrypto.ts",
    'import { randomUUID } from "node:crypto"; export const f = randomUUID;',
  ),
  "process by import in a pure file": notAllowed(
    "main/reading/toProcess.ts",
    'import process from "node:process"; export const f = process;',
  ),
  "a native canvas in a pure file": notAllowed(
    "main/render/toCanvas.ts",
    'import { createCanvas } from "@napi-rs/canvas"; export const c = createCanvas;',
  ),
  "an ffmpeg command of one's own": {
    rule: "ffmpeg-commands-in-one-file",
    files: [
      ["main/render/ownCommand.edge.ts", 'import fluentFfmpeg from "fluent-ffmpeg"; export const c = fluentFfmpeg;'],
    ],
  },
  "a program started beside the edge, in host": programStarted("main/host/ownProgram.edge.ts"),
  "a program started beside the edge, in a step's edge": programStarted("main/render/ownProgram.edge.ts"),
  "a program started beside the edge, by the window's launcher": programStarted("main/app/launch/ownProgram.ts"),
  "a program started beside the edge, by a type alone": {
    rule: "programs-by-one-edge",
    files: [
      ["main/host/childType.ts", 'import type { ChildProcess } from "child_process"; export type C = ChildProcess;'],
    ],
  },
  "a program started beside the edge, fetched when needed": {
    rule: "programs-by-one-edge",
    files: [["main/journey/later.ts", 'export const later = () => import("node:child_process");']],
  },
  "what screens share to a screen": {
    rule: "window-shared-not-to-screen",
    files: [["renderer/strip/toBuild.ts", 'import "../build/target.ts";']],
  },
  "a new folder of the window to a screen": {
    rule: "window-shared-not-to-screen",
    files: [["renderer/attic/toBuild.ts", 'import "../build/target.ts";']],
  },
  "the window's desk to the look": {
    rule: "window-desk-below-all",
    files: [["renderer/desk/toLook.ts", 'import "../look/target.ts";']],
  },
  "pure to edge": { rule: "pure-not-to-edge", files: [["main/ride/toEdge.ts", 'import "./disk.edge.ts";']] },
};

const ROOMS = [
  "main/ride",
  "main/reading",
  "main/journey",
  "main/host",
  "main/debrief",
  "main/maths",
  "main/page",
  "main/contract",
  "main/cli",
  "main/app",
  "main/film",
  "main/render",
  "overlay",
  "renderer",
  "renderer/build",
  "renderer/look",
  "test",
];

describe("the rules of the rooms", () => {
  let root = "";
  const broken = new Set<string>();

  beforeAll(() => {
    root = mkdtempSync(join(tmpdir(), "followcar-rules-"));
    const write = (file: string, text: string) => {
      mkdirSync(dirname(join(root, file)), { recursive: true });
      writeFileSync(join(root, file), text);
    };
    for (const room of ROOMS) write(`${room}/target.ts`, "export const target = 1;\n");
    write("main/ride/disk.edge.ts", 'import { readFile } from "node:fs/promises"; export const f = readFile;\n');
    write("main/debrief/store.edge.ts", "export const store = 1;\n");
    write("main/host/program.edge.ts", 'import { spawn } from "node:child_process"; export const s = spawn;\n');
    for (const { files } of Object.values(PLANTED)) for (const [file, text] of files) write(file, `${text}\n`);
    write(
      "tsconfig.json",
      '{ "compilerOptions": { "module": "ESNext", "moduleResolution": "bundler", "allowImportingTsExtensions": true, "noEmit": true } }',
    );
    symlinkSync(resolve("node_modules"), join(root, "node_modules"), "dir");
    const run = spawnSync(
      process.execPath,
      [
        resolve("node_modules/dependency-cruiser/bin/dependency-cruise.mjs"),
        "--config",
        resolve(".dependency-cruiser.cjs"),
        "--output-type",
        "json",
        "main",
        "overlay",
        "renderer",
      ],
      { cwd: root, encoding: "utf8" },
    );
    const { summary } = JSON.parse(run.stdout) as {
      summary: { violations: { from: string; rule: { name: string } }[] };
    };
    for (const { from, rule } of summary.violations) broken.add(`${rule.name} ${from}`);
  });

  afterAll(() => rmSync(root, { recursive: true, force: true }));

  it.each(Object.entries(PLANTED))("%s is seen", (_name, { rule, files }) => {
    expect([...broken]).toContain(`${rule} ${files[0]![0]}`);
  });

  it("an edge may touch the disk", () => {
    expect([...broken].filter((entry) => entry.endsWith("main/ride/disk.edge.ts"))).toEqual([]);
  });

  it("the one edge starts programs", () => {
    expect([...broken].filter((entry) => entry.endsWith("main/host/program.edge.ts"))).toEqual([]);
  });
});
