import type { Language } from "../../../main/contract/languageAndUnits.ts";
import type { FailureNotice, Notice } from "../../../main/contract/notice.ts";
import { failuresDe, notesDe } from "./de/all.ts";
import { failuresEn, notesEn } from "./en/all.ts";
import type { Door } from "./tables.ts";

/** What is wrong, and what the person can do about it; one sentence or two each. */
export interface FailureText {
  readonly sentence: string;
  readonly remedy: string;
}

type Words = Readonly<Record<string, (facts: unknown, door: Door) => unknown>>;

/** A failure in words. `door`: where it is read, which decides what a remedy calls the thing to do. */
export function failureText(notice: FailureNotice, language: Language, door: Door): FailureText {
  const table = (language === "de" ? failuresDe : failuresEn) as Words;
  const [sentence, remedy] = table[notice.code]!(notice.facts, door) as readonly [string, string];
  return { sentence, remedy };
}

/**
 * A failure that was kept in a file, which another version of the program may have written: where its code or facts are
 * not of this one, what is said is that `name` could not be read.
 */
export function keptFailureText(notice: FailureNotice, name: string, language: Language, door: Door): FailureText {
  try {
    return failureText(notice, language, door);
  } catch {
    return failureText({ code: "ride-failed-inside", facts: { ridePath: name } }, language, door);
  }
}

/** A warning or note in words, one plain sentence or two; of a failure that was passed over, what is wrong. */
export function noticeText(notice: Notice, language: Language, door: Door): string {
  if (notice.code === "of-ride") return `${notice.facts.ridePath}: ${noticeText(notice.facts.of, language, door)}`;
  const notes = (language === "de" ? notesDe : notesEn) as Words;
  return Object.hasOwn(notes, notice.code)
    ? (notes[notice.code]!(notice.facts, door) as string)
    : failureText(notice as FailureNotice, language, door).sentence;
}

/** A list of notices in words, each sentence once. */
export function noticeTexts(notices: readonly Notice[], language: Language, door: Door): string[] {
  return [...new Set(notices.map((notice) => noticeText(notice, language, door)))];
}
