// Every rule of the rooms must be seen to fail: a tree with one planted violation for each.
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const PLANTED: Readonly<Record<string, readonly [file: string, text: string][]>> = {
  "no-circles": [
    ["main/film/a.ts", 'import { b } from "./b.ts"; export const a = () => b;'],
    ["main/film/b.ts", 'import { a } from "./a.ts"; export const b = () => a;'],
  ],
  "step-not-to-step": [["main/ride/toReading.ts", 'import "../reading/target.ts";']],
  "steps-not-upwards": [["main/reading/toJourney.ts", 'import "../journey/target.ts";']],
  "step-not-to-debrief": [["main/film/toDebrief.ts", 'import "../debrief/target.ts";']],
  "overlay-sees-contract": [["overlay/toMaths.ts", 'import "../main/maths/target.ts";']],
  "maths-imports-nothing": [["main/maths/toRide.ts", 'import "../contract/target.ts";']],
  "page-of-contract-overlay-and-react": [["main/page/toReading.ts", 'import "../reading/target.ts";']],
  "contract-imports-nothing": [["main/contract/toOverlay.ts", 'import "../../overlay/target.ts";']],
  "journey-not-upwards": [["main/journey/toCli.ts", 'import "../cli/target.ts";']],
  "doors-not-to-steps": [
    ["main/app/toRender.ts", 'import "../render/target.ts";'],
    ["main/cli/toReading.ts", 'import type { T } from "../reading/target.ts"; export type U = T;'],
  ],
  "doors-not-to-debrief-store": [["main/app/toStore.ts", 'import "../debrief/store.edge.ts";']],
  "host-imports-no-room": [["main/host/toRide.ts", 'import "../ride/target.ts";']],
  "main-not-to-renderer": [["main/app/toRenderer.ts", 'import "../../renderer/target.ts";']],
  "renderer-sees-overlay-and-contract": [["renderer/toRide.ts", 'import "../main/ride/target.ts";']],
  "nothing-imports-tests": [["main/cli/toTest.ts", 'import "../../test/target.ts";']],
  "ffmpeg-commands-in-one-file": [
    ["main/render/ownCommand.edge.ts", 'import fluentFfmpeg from "fluent-ffmpeg"; export const c = fluentFfmpeg;'],
  ],
  "pure-not-to-edge": [["main/ride/toEdge.ts", 'import "./disk.edge.ts";']],
  "pure-not-to-node": [
    ["main/ride/toDisk.ts", 'import { readFileSync } from "node:fs"; export const f = readFileSync;'],
  ],
  "pure-not-to-machine": [
    ["main/render/toCanvas.ts", 'import { createCanvas } from "@napi-rs/canvas"; export const c = createCanvas;'],
  ],
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
    write("main/ride/disk.edge.ts", 'import { readFileSync } from "node:fs"; export const f = readFileSync;\n');
    write("main/debrief/store.edge.ts", "export const store = 1;\n");
    for (const files of Object.values(PLANTED)) for (const [file, text] of files) write(file, `${text}\n`);
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

  it.each(Object.entries(PLANTED))("%s is seen", (rule, files) => {
    expect([...broken]).toContain(`${rule} ${files[0][0]}`);
  });

  it("the command line may not name even a type of a step", () => {
    expect([...broken]).toContain("doors-not-to-steps main/cli/toReading.ts");
  });

  it("an edge may touch the disk", () => {
    expect([...broken].filter((entry) => entry.endsWith("main/ride/disk.edge.ts"))).toEqual([]);
  });
});
