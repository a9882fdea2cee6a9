/** Bundles the sources into dist/; false when they were up to date. `watched`: its page loads anew when it changes. */
export function bundle(root: string, options?: { readonly watched?: boolean }): Promise<boolean>;
/** Names what a film's picture and sound are made by, from the bytes of its sources, fonts and packages. */
export function filmRecipe(root: string): string;
