import { execFile } from "node:child_process";

/** One job against another: what it took of the processor beside the other's. */
export interface Compared {
  readonly ratio: number;
  /** Processor time of the first beyond the second's, s. */
  readonly extraS: number;
}

/**
 * Two jobs at the same time, each pinned to a core, then swapped: what drifts on a busy machine meets both. Geometric
 * mean of the two rounds' ratios, mean of their differences. Processor time is that of a job and all that it started.
 */
export async function sideBySide(first: readonly string[], second: readonly string[]): Promise<Compared> {
  let product = 1;
  let extraS = 0;
  for (const [coreA, coreB] of [
    [0, 1],
    [1, 0],
  ] as const) {
    const [a, b] = await Promise.all([processorS(first, coreA), processorS(second, coreB)]);
    product *= a / b;
    extraS += (a - b) / 2;
  }
  return { ratio: Math.sqrt(product), extraS };
}

/** Median of some pairs, with the range of the ratios. */
export async function pairs(
  count: number,
  first: readonly string[],
  second: readonly string[],
): Promise<{ readonly ratios: readonly number[]; readonly ratio: number; readonly extraS: number }> {
  const rounds: Compared[] = [];
  for (let pair = 0; pair < count; pair += 1) rounds.push(await sideBySide(first, second));
  const ratios = rounds.map(({ ratio }) => ratio).sort((a, b) => a - b);
  return { ratios, ratio: middle(ratios), extraS: middle(rounds.map(({ extraS }) => extraS).sort((a, b) => a - b)) };
}

function processorS(job: readonly string[], core: number): Promise<number> {
  const script = 'TIMEFORMAT="%U %S"; time taskset -c "$0" "$@"';
  return new Promise((done, fail) => {
    execFile("bash", ["-c", script, String(core), process.execPath, ...job], (error, _stdout, stderr) => {
      const [user, system] = (stderr.trim().split("\n").at(-1) ?? "").split(" ").map(Number);
      if (error || user === undefined || system === undefined) fail(error ?? new Error(stderr));
      else done(user + system);
    });
  });
}

function middle(sorted: readonly number[]): number {
  return ((sorted[Math.floor((sorted.length - 1) / 2)] ?? 0) + (sorted[Math.ceil((sorted.length - 1) / 2)] ?? 0)) / 2;
}
