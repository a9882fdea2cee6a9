// `npm run torture`, all of it or the parts named: long seeded runs with a table at the end. Each part runs in a process of
// its own, is ended where it hangs, and goes on where it was stopped as long as the program is the same.
import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { cpus, totalmem } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { type Part, PARTS } from "./parts.ts";

/** Most memory of a process, MB: what is above is a fault. */
const MOST_MB = 1024;
/** A round that takes longer hangs, min: the longest, 10,000 requests or ten renders, takes two on a quiet machine. */
const HANGS_MIN = 15;
/** So many faults of a part are enough. */
const MOST_FAULTS = 10;

const STATE = join("dist", "torture.json");
/** All that a result follows from. */
const SOURCES = ["main", "overlay", "test/torture", "test/ride/mutate.ts", "test/support", "package-lock.json"];

/** How far a part got, as kept between two runs. */
interface Done {
  rounds: number;
  tried: number;
  faults: string[];
  tookS: number;
  /** 0: not looked at, since it starts programs of its own. */
  peakMb: number;
  /** Day it ended. */
  day: string;
}

/** What a part's process prints after each round. */
interface Line {
  readonly round: number;
  readonly tried: number;
  readonly faults: readonly string[];
  readonly peakMb: number;
}

function filesBelow(path: string): string[] {
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path)
    .sort()
    .flatMap((name) => filesBelow(join(path, name)));
}

/** Hash of the sources. */
function versionNow(): string {
  const hash = createHash("sha256");
  for (const path of SOURCES.flatMap(filesBelow)) hash.update(`${path}\0`).update(readFileSync(path));
  return hash.digest("hex").slice(0, 12);
}

/** The commit, where there is one and nothing was changed since. */
function commitNow(): string {
  const git = (...args: string[]): string | null => {
    const { status, stdout } = spawnSync("git", args, { encoding: "utf8" });
    return status === 0 ? stdout.trim() : null;
  };
  const commit = git("rev-parse", "--short", "HEAD");
  return commit !== null && git("status", "--porcelain", "--", ...SOURCES) === "" ? `, commit ${commit}` : "";
}

function kept(version: string): Record<string, Done> {
  try {
    const state = JSON.parse(readFileSync(STATE, "utf8")) as { version: string; parts: Record<string, Done> };
    return state.version === version ? state.parts : {};
  } catch {
    return {};
  }
}

const today = (): string => new Date().toISOString().slice(0, 10);

/** In a process of its own: rounds from one on, each told by a line. */
async function runHere(part: Part, from: number): Promise<void> {
  for (let round = from; round * part.aRound < part.count; round++) {
    const { tried, faults } = await part.run(round + 1);
    const peakMb = Math.round(process.resourceUsage().maxRSS / 1024);
    const line: Line = { round, tried, faults, peakMb };
    process.stdout.write(`${JSON.stringify(line)}\n`);
    if (faults.length >= MOST_FAULTS) break;
  }
}

/** Runs what is left of a part; `save` is called after each round. */
function runPart(part: Part, done: Done, save: () => void): Promise<void> {
  return new Promise((resolve) => {
    const args = ["--enable-source-maps", "--expose-gc", `--max-old-space-size=${MOST_MB}`, process.argv[1]!];
    const child = spawn(process.execPath, [...args, "--from", part.name, String(done.rounds)], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    let beganMs = Date.now();
    const stop = (): NodeJS.Timeout =>
      setTimeout(() => {
        done.faults.push(`round ${done.rounds + 1} hangs`);
        child.kill("SIGKILL");
      }, HANGS_MIN * 60_000);
    let timer = stop();
    createInterface({ input: child.stdout }).on("line", (text) => {
      const { round, tried, faults, peakMb } = JSON.parse(text) as Line;
      clearTimeout(timer);
      timer = stop();
      done.rounds = round + 1;
      done.tried += tried;
      done.faults.push(...faults);
      done.peakMb = Math.max(done.peakMb, peakMb);
      if (peakMb > MOST_MB) done.faults.push(`${peakMb} MB in round ${round + 1}`);
      done.tookS += (Date.now() - beganMs) / 1000;
      done.day = today();
      beganMs = Date.now();
      save();
    });
    child.on("close", (code) => {
      clearTimeout(timer);
      if (code !== 0) done.faults.push(`its process ended with ${code} in round ${done.rounds + 1}`);
      save();
      resolve();
    });
  });
}

function printTable(state: Record<string, Done>): void {
  console.log("| part | what was done | tried | faults or losses | minutes | memory at most |");
  console.log("| --- | --- | --- | --- | --- | --- |");
  for (const { name, what, count } of PARTS) {
    const { tried, faults, tookS, peakMb } = state[name] ?? { tried: 0, faults: [], tookS: 0, peakMb: 0 };
    const of = tried < count ? ` of ${count.toLocaleString("en")}` : "";
    const cells = [tried.toLocaleString("en") + of, faults.length, (tookS / 60).toFixed(1), `${peakMb} MB`];
    console.log(`| ${[name, what, ...cells].join(" | ")} |`);
  }
}

async function main(names: readonly string[]): Promise<boolean> {
  const unknown = names.filter((name) => !PARTS.some((part) => part.name === name) && name !== "again");
  if (unknown.length > 0) {
    console.error(
      `no part named ${unknown.join(", ")}. There are: ${PARTS.map(({ name }) => name).join(", ")}; "again" forgets what was done`,
    );
    return false;
  }
  mkdirSync("dist", { recursive: true });
  if (names.includes("again")) rmSync(STATE, { force: true });
  const wanted = names.filter((name) => name !== "again");
  const version = versionNow();
  const parts = kept(version);
  const save = (): void => writeFileSync(STATE, JSON.stringify({ version, parts }, null, 1));
  for (const part of PARTS.filter(({ name }) => wanted.length === 0 || wanted.includes(name))) {
    const done = (parts[part.name] ??= { rounds: 0, tried: 0, faults: [], tookS: 0, peakMb: 0, day: today() });
    // What failed is tried again.
    if (done.faults.length > 0) Object.assign(done, { rounds: 0, tried: 0, faults: [], tookS: 0 });
    if (done.rounds * part.aRound >= part.count) continue;
    await runPart(part, done, save);
    for (const fault of done.faults) console.error(`${part.name}: ${fault}`);
    console.error(`${part.name}: ${done.tried} tried, ${done.faults.length} faults, ${Math.round(done.tookS)} s`);
  }
  printTable(parts);
  const days = [...new Set(Object.values(parts).map(({ day }) => day))].sort();
  const machine = `${cpus().length} cores, ${Math.round(totalmem() / 2 ** 30)} GB, Node ${process.version}`;
  console.log(`${days.join(", ")}, ${machine}, sources ${version}${commitNow()}`);
  return Object.values(parts).every(({ faults }) => faults.length === 0);
}

const [first, name, from] = process.argv.slice(2);
if (first === "--from")
  await runHere(
    PARTS.find((part) => part.name === name)!,
    Number(from),
  );
else process.exitCode = (await main(process.argv.slice(2))) ? 0 : 1;
