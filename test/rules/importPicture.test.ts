// The picture of the imports in DEVELOPERS.md is what dependency-cruiser finds, room by room; no arrow leads from a
// door (app, cli) to a step.
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { expect, it } from "vitest";

const STEPS = ["ride", "footage", "lineup", "roads", "reading", "film", "render", "handover", "weeks"];

/** `main/app/` as `app`. */
const nameOf = (room: string) => room.replace(/^main\//, "").replace(/\/$/, "");

interface Found {
  readonly modules: readonly {
    readonly source: string;
    readonly dependencies: readonly { readonly resolved: string }[];
  }[];
}

/** Rooms and the rooms they import, as dependency-cruiser gives them. */
function imports(): Map<string, string[]> {
  const { stdout, stderr } = spawnSync(
    "node_modules/.bin/depcruise",
    [
      ...["--config", ".dependency-cruiser.cjs", "--output-type", "json"],
      ...["--include-only", "^(main|overlay|renderer)/", "--collapse", "^(main/[^/]+|overlay|renderer)/"],
      ...["main", "overlay", "renderer"],
    ],
    { encoding: "utf8", maxBuffer: 64e6 },
  );
  if (stdout === "") throw new Error(stderr);
  const { modules } = JSON.parse(stdout) as Found;
  return new Map(
    modules.map(({ source, dependencies }) => [
      nameOf(source),
      [...new Set(dependencies.map(({ resolved }) => nameOf(resolved)))].filter((to) => to !== nameOf(source)).sort(),
    ]),
  );
}

/** As mermaid text. Every room may import contract: those arrows are left out. */
function picture(found: ReadonlyMap<string, readonly string[]>): string {
  const rooms = [...found.keys()].sort();
  return [
    "flowchart TD",
    "  subgraph steps",
    ...STEPS.filter((step) => found.has(step)).map((step) => `    ${step}`),
    "  end",
    ...rooms.flatMap((from) => {
      const to = found.get(from)!.filter((room) => room !== "contract");
      return to.length === 0 ? [] : [`  ${from} --> ${to.join(" & ")}`];
    }),
    "",
  ].join("\n");
}

it("stands in DEVELOPERS.md as the imports are", () => {
  const found = imports();
  const made = picture(found);
  mkdirSync("dist", { recursive: true });
  writeFileSync("dist/imports.mmd", made);
  for (const door of ["app", "cli"]) {
    expect(found.get(door), door).toContain("journey");
    expect(
      found.get(door)!.filter((room) => STEPS.includes(room)),
      door,
    ).toEqual([]);
  }
  expect(found.get("contract")).toEqual([]);
  const drawn = /```mermaid\n([^`]*)```/.exec(readFileSync("DEVELOPERS.md", "utf8"))?.[1];
  expect(drawn, "put dist/imports.mmd into DEVELOPERS.md, and look whether each new arrow is meant").toBe(made);
});
