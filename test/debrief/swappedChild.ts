// Swaps a folder for a link to another as fast as it can, for the test that writes into it meanwhile. Arguments: folder, the
// other, and where it is kept meanwhile.
import { renameSync, rmSync, symlinkSync } from "node:fs";

const [folder = "", outside = "", kept = ""] = process.argv.slice(2);
/** Each way of being holds for a while of its own, so that every instant of a write meets the change. */
const wait = new Int32Array(new SharedArrayBuffer(4));
process.stdout.write("swapping\n");
for (let n = 0; ; n++) {
  renameSync(folder, kept);
  symlinkSync(outside, folder);
  Atomics.wait(wait, 0, 0, n % 3);
  // Whoever deletes may have deleted the link.
  rmSync(folder, { force: true });
  renameSync(kept, folder);
  Atomics.wait(wait, 0, 0, (n % 7) + 1);
}
