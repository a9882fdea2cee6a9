/** "nobody" of Debian and most other systems. */
const NOBODY = 65534;

/**
 * Runs `work` with the rights of someone who is not root, since root may read and write everything: what a test says of
 * rights would hold for nothing. Each test file has a process of its own; one test of it at a time may ask for this.
 */
export async function withoutRootsRights(work: () => Promise<void>): Promise<void> {
  const root = process.getuid?.() === 0;
  if (root) process.seteuid!(NOBODY);
  try {
    await work();
  } finally {
    if (root) process.seteuid!(0);
  }
}
