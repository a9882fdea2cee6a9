import { useState } from "react";

const PREFIX = "followcar-kept-";

/** What was kept under a name as long as the window is open, through other steps and a reload; null: nothing. */
export function kept(name: string): string | null {
  return sessionStorage.getItem(PREFIX + name);
}

/** Keeps a text under a name; null lets it go. */
export function keep(name: string, text: string | null): void {
  if (text === null) sessionStorage.removeItem(PREFIX + name);
  else sessionStorage.setItem(PREFIX + name, text);
}

/**
 * A state that comes back as it was after other steps and a reload, for one debrief.
 * @param folder of the debrief: another one begins anew
 */
export function useKept(name: string, folder: string): [string | null, (text: string | null) => void] {
  const of = `${name} ${folder}`;
  const [text, setText] = useState<string | null>(() => kept(of));
  const set = (next: string | null) => {
    keep(of, next);
    setText(next);
  };
  return [text, set];
}
