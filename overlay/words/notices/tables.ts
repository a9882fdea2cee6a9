/** Where a notice is read: in the window, or on the command line. */
export type Door = "window" | "command";

/** Words of a room's failures in one language: what is wrong, naming the file or setting, and what to do about it. */
export type FailureWords<F> = {
  readonly [C in keyof F]: (facts: F[C], door: Door) => readonly [sentence: string, remedy: string];
};

/** Words of a room's warnings and notes in one language: one plain sentence, or two. */
export type NoteWords<F> = { readonly [C in keyof F]: (facts: F[C], door: Door) => string };
