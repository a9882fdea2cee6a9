/** Bundles the sources into dist/; false when they were up to date. `watched`: its page loads anew when it changes. */
export function bundle(root: string, options?: { readonly watched?: boolean }): Promise<boolean>;
