import { clockCases, runCase, telemetryCases, type Row } from "../lineup/lineupCases.ts";

/** Seeds from here on were never used while weights and bounds were chosen; those below were. */
const HELD_OUT_SEED = 1_000_000;

function line(cells: readonly (string | number)[]): string {
  return `| ${cells.join(" | ")} |`;
}

function rowLine({ name, n, sure, wrong, beyond, medianErrorS }: Row): string {
  return line([name, n, sure, wrong, beyond, Number.isFinite(medianErrorS) ? medianErrorS.toFixed(2) : "-"]);
}

/**
 * The table of line-up, case by case: pairs, called sure, of these wrong (more than 2 s and the printed error off, or
 * sure where the clip belongs nowhere), and off by more than the printed error. `simulated`; fails nothing.
 *
 * @param n pairs of each case
 * @param firstSeed held-out seeds by default
 */
export function benchLineupCases(n: number, firstSeed = HELD_OUT_SEED): void {
  console.log(line(["case (simulated)", "n", "sure", "wrong", "beyond the printed error", "median error, s"]));
  console.log(line(["---", "---", "---", "---", "---", "---"]));
  const rows: Row[] = [];
  for (const [name, each] of Object.entries({ ...telemetryCases, ...clockCases })) {
    const row = runCase(name, each, firstSeed, n);
    rows.push(row);
    console.log(rowLine(row));
  }
  const sum = (of: (row: Row) => number) => rows.reduce((total, row) => total + of(row), 0);
  console.log(line(["all", sum((r) => r.n), sum((r) => r.sure), sum((r) => r.wrong), sum((r) => r.beyond), ""]));
}
