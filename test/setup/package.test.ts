// Installers, the container and the builds of a forge: what can be seen of them without their systems.
import { convertWorkflowTemplate, parseWorkflow } from "@actions/workflow-parser";
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { INSTALLERS, packAll, packFailure, packLines } from "../../main/setup/package.mjs";

const folder = mkdtempSync(join(tmpdir(), "followcar-package-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("npm run package", () => {
  test("knows the targets of electron-builder.yml, and only those", () => {
    const targets = [...readFileSync("electron-builder.yml", "utf8").matchAll(/^  target: \[(.+)\]$/gm)];
    expect(targets.flatMap(([, list]) => list!.split(", "))).toEqual(INSTALLERS.map(({ target }) => target));
  });

  // Linux: a desktop entry holds media types alone (Desktop Entry Specification 1.5, MimeType), so a type without one is none.
  test("what the installed program opens has a media type, and takes nothing from the program that has it", () => {
    const config = readFileSync("electron-builder.yml", "utf8");
    const types = config
      .split(/^fileAssociations:$/m)[1]!
      .split(/^\S/m)[0]!
      .split(/^  - /m)
      .slice(1);
    expect(types).toHaveLength(1);
    for (const type of types) expect(type).toMatch(/mimeType: application\/\S+[^]*rank: Alternate/);
    // A debrief is a folder: by its debrief.json, on Windows by a verb on folders that goes with the program.
    expect(config).toMatch(/^  mimeTypes: \[application\/json\]$/m);
    expect(config).toMatch(/- ext: json\n\s+name: Debrief\n\s+role: Editor\n\s+rank: Alternate/);
    const verb = readFileSync(/^  include: (.+)$/m.exec(config)![1]!, "utf8");
    const written = [...verb.matchAll(/WriteRegStr SHELL_CONTEXT "([^"]+)"/g)].map(([, key]) => key!);
    const gone = /DeleteRegKey SHELL_CONTEXT "([^"]+)"/.exec(verb)![1]!;
    expect(written).toHaveLength(3);
    expect(written.filter((key) => !key.startsWith(gone))).toEqual([]);
  });

  test("builds what this system can, each by itself, and says of every other why not", () => {
    const asked: string[] = [];
    const made = packAll(".", {
      system: "linux",
      out: folder,
      electron: "/opt/electron",
      run(args) {
        asked.push(args.join(" "));
        if (args.includes("AppImage"))
          return { ok: false, output: "• packaging\n⨯ Get https://x: dial tcp: no such host" };
        writeFileSync(join(folder, "Followcar-0.1.0-linux-amd64.deb"), Buffer.alloc(2_000_000));
        return { ok: true, output: "" };
      },
    });
    expect(asked).toHaveLength(2);
    expect(asked[1]).toContain("-c.electronDist=/opt/electron");
    expect(packLines(made)).toEqual([
      "AppImage  not built: a part of it could not be downloaded (no network, or its server is not reached from here)",
      `deb       ${join(folder, "Followcar-0.1.0-linux-amd64.deb")} (2 MB)`,
      "dmg       not built: it is built on a Mac",
      "nsis      not built: it is built on Windows",
    ]);
  });

  test("a failure is told in one sentence, an unknown one by the packer's own line", () => {
    expect(packFailure("write ENOSPC")).toBe("the disk is full");
    expect(packFailure("• a\n⨯ icon is too small\n• b")).toBe("⨯ icon is too small");
    expect(packFailure("")).toBe("");
  });
});

describe("the forge's builds", () => {
  const workflow = readFileSync(".github/workflows/build.yml", "utf8");

  /** What the forge's own reader finds wrong (package @actions/workflow-parser, of the forge, with its schema). */
  async function faultsOf(content: string): Promise<readonly string[]> {
    const quiet = { error: () => undefined, info: () => undefined, verbose: () => undefined };
    const { context, value } = parseWorkflow({ name: "build.yml", content }, quiet);
    const template = value === undefined ? undefined : await convertWorkflowTemplate(context, value);
    return [...context.errors.getErrors().map(({ message }) => message), ...(template?.errors ?? []).map(String)];
  }

  test("every step is a script of ours", () => {
    const { scripts } = JSON.parse(readFileSync("package.json", "utf8")) as { scripts: Record<string, string> };
    const steps = [...workflow.matchAll(/^ +- run: (.+)$/gm)].map(([, run]) => run!);
    expect(steps).toEqual(["npm run setup", "npm test", "npm run package"]);
    for (const step of steps) expect(Object.keys(scripts)).toContain(step.split(" ").at(-1));
  });

  test("are read by the forge's own reader without a fault", async () => {
    expect(await faultsOf(workflow)).toEqual([]);
  });

  test.each([
    ["a key that is none", "timeout-minutes:", "timeout-minuts:", "timeout-minuts"],
    ["a value that is no number", "timeout-minutes: 90", "timeout-minutes: soon", "soon"],
    ["a context that is none", "matrix.os", "matrx.os", "matrx"],
    ["no system to run on", "    runs-on: ${{ matrix.os }}\n", "", "runs-on"],
  ])("%s would be found", async (_fault, from, to, said) => {
    expect(workflow).toContain(from);
    expect((await faultsOf(workflow.replace(from, to))).join("\n")).toContain(said);
  });
});

describe("the container", () => {
  const dockerfile = readFileSync("Dockerfile", "utf8");
  const copied = [...dockerfile.matchAll(/^COPY (.+) \S+$/gm)].flatMap(([, names]) => names!.split(" "));

  test("may be built from what .dockerignore lets through", () => {
    const letThrough = readFileSync(".dockerignore", "utf8")
      .split("\n")
      .filter((line) => line.startsWith("!"));
    expect(letThrough.map((line) => line.slice(1)).sort()).toEqual([...copied].sort());
  });

  test("what is copied into it is enough to set up and to run", () => {
    const root = join(folder, "container");
    for (const name of copied) cpSync(name, join(root, name), { recursive: true });
    symlinkSync(resolve("node_modules"), join(root, "node_modules"), "dir");
    const [, setup] = /^RUN node (.+) &&/m.exec(dockerfile)!;
    const run = (args: readonly string[]) => spawnSync(process.execPath, args, { cwd: root, encoding: "utf8" });
    expect(run(setup!.split(" ")).status).toBe(0);
    const { status, stdout } = run(["dist/followcar.mjs", "debrief", "--help"]);
    expect(status).toBe(0);
    expect(stdout).toContain("--share");
  }, 120_000);
});
