import { join } from "node:path";

/** Bundles that run as a process of their own. */
const CHILDREN = ["paintChild.mjs", "filmClipChild.mjs"];

/**
 * A packed program can't be told to run as plain Node (that fuse is off), so it starts itself with one of its own child
 * bundles as first argument. Gives that bundle's path, or null for a start by a person; no other file can be named.
 */
export function ownChild(argv: readonly string[], dist: string): string | null {
  return CHILDREN.map((name) => join(dist, name)).find((path) => path === argv[1]) ?? null;
}
