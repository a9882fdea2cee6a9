// `npm run torture`: long seeded runs, bounded in time, with a table at the end. Fails when one fault is found.
import { spawnSync } from "node:child_process";
import { cpus, totalmem } from "node:os";
import { setFlagsFromString } from "node:v8";
import { mutationRun } from "../ride/mutate.ts";
import { DOCUMENT_KINDS, documentRun } from "./documents.ts";
import { killedRenders } from "./renders.ts";
import { killedSaves } from "./saves.ts";

/** Most memory of the whole run, MB: what is above is a fault. */
const MOST_MB = 1024;
/** No longer than this in all, min; FOLLOWCAR_TORTURE_MIN names another. */
const LONGEST_MIN = Number(process.env.FOLLOWCAR_TORTURE_MIN ?? 90);
/** Of it, for what is damaged; what is left goes to kills while saving, then while rendering. */
const SHARES = { damaged: 0.7, saves: 0.1, renders: 0.2 };

/** Requests to the window's server that must not be let in. */
const HOSTILE = 10_000;

interface Row {
  readonly what: string;
  readonly tried: number;
  readonly faults: readonly string[];
}

setFlagsFromString(`--max-old-space-size=${MOST_MB}`);
const lasting = (share: number): number => Date.now() + share * LONGEST_MIN * 60_000;
const untilMs = lasting(SHARES.damaged);

/** Rounds of 1,000, each of a seed of its own, until so many were tried or the time is up. */
function rounds(what: string, count: number, run: (count: number, seed: number) => string[]): Row {
  const faults: string[] = [];
  let tried = 0;
  for (let seed = 1; tried < count && Date.now() < untilMs && faults.length < 10; seed++, tried += 1000)
    faults.push(...run(1000, seed));
  return { what, tried, faults };
}

const rows: Row[] = [
  ...DOCUMENT_KINDS.map((kind) =>
    rounds(`damaged ${kind.name}`, 6000, (count, seed) => documentRun(kind, count, seed)),
  ),
  rounds("damaged FIT, GPX, TCX, CSV, gz", 70_000, mutationRun),
];
const saves = await killedSaves(1000, lasting(SHARES.saves));
rows.push({ what: "kill -9 while saving", ...saves });
const renders = await killedRenders(100, lasting(SHARES.renders));
rows.push({ what: "kill -9 while rendering", ...renders });
// The window's doors: the tests' own requests, ten times as many, and another user of the machine.
const doors = spawnSync(
  process.execPath,
  [
    "node_modules/vitest/vitest.mjs",
    "run",
    "--maxWorkers=1",
    "test/app/windowServer.test.ts",
    "test/app/secondUser.test.ts",
  ],
  { env: { ...process.env, FOLLOWCAR_HOSTILE: String(HOSTILE) }, encoding: "utf8" },
);
rows.push({
  what: "hostile requests to the window's server",
  tried: HOSTILE,
  faults: doors.status === 0 ? [] : [`${doors.stdout}${doors.stderr}`],
});
const peakMb = Math.round(process.resourceUsage().maxRSS / 1024);
rows.push({ what: `memory at most ${peakMb} MB`, tried: 1, faults: peakMb > MOST_MB ? [`${peakMb} MB`] : [] });

for (const { faults } of rows) for (const fault of faults) console.error(fault);
console.log("| what was done | tried | faults or losses |\n| --- | --- | --- |");
for (const { what, tried, faults } of rows)
  console.log(`| ${what} | ${tried.toLocaleString("en")} | ${faults.length} |`);
console.log(
  `${new Date().toISOString().slice(0, 10)}, ${cpus().length} cores, ${Math.round(totalmem() / 2 ** 30)} GB, Node ${process.version}`,
);
if (rows.some(({ faults }) => faults.length > 0)) process.exitCode = 1;
