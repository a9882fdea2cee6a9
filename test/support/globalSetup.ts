import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { bundle } from "../../main/setup/bundle.mjs";

/** Tests that start the program or a child of it run what the sources say now; what they leave in the temporary folder goes at the end. */
export default async function setup(): Promise<() => void> {
  await bundle(process.cwd());
  const folder = mkdtempSync(join(tmpdir(), "followcar-tests-"));
  // Passable: some tests go on without root's rights (withoutRootsRights).
  chmodSync(folder, 0o711);
  process.env.TMPDIR = folder;
  return () => rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
}
