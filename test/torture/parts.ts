// What `npm run torture` is made of. Each part is so many rounds; a round is told by its number alone, so that a run that
// was stopped goes on with the next one.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { mutationRun } from "../ride/mutate.ts";
import { DOCUMENT_KINDS, documentRun } from "./documents.ts";
import { killedRenders } from "./renders.ts";
import { killedSaves } from "./saves.ts";

/** What one round did, and what was wrong. */
export interface Tried {
  readonly tried: number;
  readonly faults: readonly string[];
}

export interface Part {
  readonly name: string;
  /** As the table says it. */
  readonly what: string;
  /** So many are tried in all. */
  readonly count: number;
  /** Of them in one round. */
  readonly aRound: number;
  run(round: number): Promise<Tried>;
}

/** Requests to the window's server that must not be let in. */
const HOSTILE = 10_000;

/** Tests of the project in a run of their own; a test is one that was tried, one that failed a fault. */
function tests(files: readonly string[], env: Readonly<Record<string, string>> = {}): Tried {
  const folder = mkdtempSync(join(tmpdir(), "followcar-torture-"));
  const report = join(folder, "report.json");
  try {
    const args = ["run", "--maxWorkers=1", "--reporter=json", `--outputFile=${report}`, ...files];
    const { status, stdout, stderr } = spawnSync(process.execPath, ["node_modules/vitest/vitest.mjs", ...args], {
      env: { ...process.env, ...env },
      encoding: "utf8",
      maxBuffer: 1 << 28,
    });
    if (status !== 0) return { tried: 0, faults: [`${stdout}${stderr}`] };
    const { numPassedTests } = JSON.parse(readFileSync(report, "utf8")) as { numPassedTests: number };
    return { tried: numPassedTests, faults: numPassedTests > 0 ? [] : ["no test ran"] };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export const PARTS: readonly Part[] = [
  {
    name: "rides",
    what: "damaged FIT, GPX, TCX, CSV and gz, read and judged",
    count: 70_000,
    aRound: 1000,
    run: (round) => Promise.resolve({ tried: 1000, faults: mutationRun(1000, round) }),
  },
  ...DOCUMENT_KINDS.map((kind): Part => ({
    name: kind.name.toLowerCase().replace(" ", "-"),
    what: `damaged ${kind.name}`,
    count: 6000,
    aRound: 1000,
    run: (round) => Promise.resolve({ tried: 1000, faults: documentRun(kind, 1000, round) }),
  })),
  {
    name: "saves",
    what: "kill -9 while saving",
    count: 1000,
    aRound: 50,
    run: (round) => killedSaves(50, round),
  },
  {
    name: "renders",
    what: "kill -9 while rendering",
    count: 100,
    aRound: 10,
    run: (round) => killedRenders(10, round),
  },
  {
    name: "made",
    what: "tests with files and disks made to stop it (bombs, claims, pipes, full, read-only, removed, swapped)",
    count: 1,
    aRound: 1,
    run: () =>
      Promise.resolve(
        tests([
          "test/ride/hostileFiles.test.ts",
          "test/debrief/noRoom.test.ts",
          "test/debrief/strangersFolder.test.ts",
        ]),
      ),
  },
  {
    name: "doors",
    what: "hostile requests to the window's server",
    count: HOSTILE,
    aRound: HOSTILE,
    run: () => {
      const { faults } = tests(["test/app/windowServer.test.ts", "test/app/secondUser.test.ts"], {
        FOLLOWCAR_HOSTILE: String(HOSTILE),
      });
      return Promise.resolve({ tried: faults.length === 0 ? HOSTILE : 0, faults });
    },
  },
];
