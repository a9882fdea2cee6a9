import { mutationRun } from "../ride/mutate.ts";

/** 20,000 damaged ride files, in process: prints and returns the number of faults. */
export function tortureRide(count = 20_000): number {
  let faults = 0;
  for (let seed = 1; seed <= 10; seed++) {
    const found = mutationRun(count / 10, seed);
    faults += found.length;
    for (const fault of found) console.error(fault);
  }
  console.log(`ride: ${count} damaged files, ${faults} faults`);
  return faults;
}
