/** A package of the lock file; `shipped`: it goes with the program. */
export interface LockedPackage {
  readonly name: string;
  readonly version: string;
  /** As the SPDX list names it; empty where none is named. */
  readonly licence: string;
  readonly path: string;
  readonly shipped: boolean;
}
/** Each package of a package-lock.json once, by name. */
export function packagesOf(lock: unknown): readonly LockedPackage[];
/** One sentence for each package whose licence is not allowed. */
export function licenceFaults(packages: readonly LockedPackage[]): readonly string[];
/** The notice of all packages that go with the program. */
export function packageNotices(root: string): string;
/** Writes it to `dist/packages.txt`. */
export function writePackageNotices(root: string): void;
