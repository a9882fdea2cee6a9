/** Facts of a notice that has none. */
export type NoFacts = Readonly<Record<string, never>>;
