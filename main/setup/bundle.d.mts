/** Bundles the sources into dist/; false when they were up to date. */
export function bundle(root: string): Promise<boolean>;
