import { HOLD_TOPICS, type HoldTopic } from "../../contract/debriefFacts.ts";
import type { RiderNote } from "../../contract/plan.ts";
import { HOLD_SIGNS, HOLD_WORDS, ILLNESS_ASKED, NEGATIONS, NOTHING_TO_SAY } from "./noteWords.ts";

/** So many words before another that a negation still turns it round: `no sign of a fever`. */
const NEGATION_REACH = 4;
/** A night shorter than this is too little sleep, h. Common practice, no source. */
const LEAST_SLEEP_H = 6;
/** Longer than this no note is read: what lies beyond is in doubt, so it holds. Letters. */
const MOST_LETTERS = 10_000;

/** Parts of a clause end here: what follows is not turned round by a negation before it. */
const CLAUSE_ENDS = /[.,;:!?()\n\r]+|\s(?:but|however|though|although|yet|and|then|aber|doch|jedoch|dann|und)\s/u;

const plain = (text: string): string =>
  text
    .normalize("NFKC")
    .toLowerCase()
    .replaceAll(/[\u2018\u2019\u02bc\u00b4`]/g, "'");

/** Words of a clause; a hyphen joins, so that `pain-free` is one. */
const wordsOf = (clause: string): string[] => clause.match(/\*?[\p{L}\p{N}'-]+/gu) ?? [];

/** A word in letters that none of the lists has: what it says is in doubt. */
const FOREIGN = /(?!\p{Script=Latin})\p{L}/u;

/** Where a phrase begins among words, or -1; its last word may go on (`injur` finds `injured`), a short one may not. */
function phraseAt(words: readonly string[], phrase: readonly string[], from: number): number {
  for (let at = from; at + phrase.length <= words.length; at++) {
    const fits = phrase.every((one, index) => {
      const word = words[at + index];
      if (one.startsWith("*")) return word.includes(one.slice(1));
      const last = index === phrase.length - 1;
      return last && one.length >= 5 ? word.startsWith(one) : word === one || (last && word === `${one}s`);
    });
    if (fits) return at;
  }
  return -1;
}

/** `pain-free`, `fieberfrei`: the word says itself that it is not so. */
const saysFree = (words: readonly string[], end: number): boolean =>
  /(?:-free|frei)$/u.test(words[end]) || words[end + 1] === "free" || words[end + 1] === "frei";

/** A phrase that has its own negation (`not eaten`, `no sleep`) is turned round by none. */
const ownNegation = (phrase: readonly string[]): boolean => NEGATIONS.includes(phrase[0]) || /n't$/u.test(phrase[0]);

/** True where a clause says the phrase and does not deny it; two denials are in doubt, so they count as saying it. */
function says(words: readonly string[], phrase: readonly string[]): boolean {
  for (let at = phraseAt(words, phrase, 0); at >= 0; at = phraseAt(words, phrase, at + 1)) {
    if (saysFree(words, at + phrase.length - 1)) continue;
    const before = words.slice(Math.max(0, at - NEGATION_REACH), at);
    const denials = ownNegation(phrase) ? 0 : before.filter((word) => NEGATIONS.includes(word)).length;
    if (denials !== 1) return true;
  }
  return false;
}

const PHRASES = Object.entries(HOLD_WORDS).flatMap(([topic, phrases]) =>
  phrases.map((phrase) => ({ topic: topic as HoldTopic, words: wordsOf(plain(phrase)) })),
);

const ILLNESS_PHRASES = ILLNESS_ASKED.map((phrase) => ({ topic: "illness" as const, words: wordsOf(plain(phrase)) }));

/** `slept 4 h`, `5 hours of sleep`, `4,5 Stunden geschlafen`: hours under six. */
function sleptTooLittle(text: string): boolean {
  if (!/sle[ep]|schl[aä]f/u.test(text)) return false;
  return [...text.matchAll(/(\d{1,2}(?:[.,]\d)?)\s*(?:h\b|hours?|hrs?|std|stunden)/gu)].some(
    ([, hours]) => Number(hours.replace(",", ".")) < LEAST_SLEEP_H,
  );
}

/**
 * What of a rider's note comes before training; null: nothing does. Negations are understood (`no fever`), and what can't
 * be understood where illness and medicine are asked for is `unclear`: the coach decides.
 */
export function noteHold(note: RiderNote): readonly HoldTopic[] | null {
  const found = new Set<HoldTopic>();
  const asked = new Set<string>(["illness", "medicine"]);
  for (const [field, raw] of Object.entries(note) as [keyof RiderNote, string | null][]) {
    if (raw === null || raw.trim() === "") continue;
    if (raw.length > MOST_LETTERS) found.add("unclear");
    const text = plain(raw.slice(0, MOST_LETTERS));
    const before = found.size;
    const clauses = text.split(CLAUSE_ENDS).map(wordsOf);
    let spokenOf = false;
    for (const { topic, words } of field === "illness" ? [...PHRASES, ...ILLNESS_PHRASES] : PHRASES) {
      if (clauses.some((clause) => says(clause, words))) found.add(topic);
      if (clauses.some((clause) => phraseAt(clause, words, 0) >= 0)) spokenOf = true;
    }
    if (field === "sleep" ? sleptTooLittle(`sleep ${text}`) : sleptTooLittle(text)) found.add("sleep");
    // Somebody wrote something under illness or medicine, and no word of it is known: a person decides.
    const nothing =
      NOTHING_TO_SAY.includes(text.trim().replace(/[.!]+$/u, "")) ||
      (wordsOf(text).length <= 3 && wordsOf(text).some((word) => NEGATIONS.includes(word)));
    for (const [sign, topic] of HOLD_SIGNS) if (sign.test(text)) found.add(topic);
    if (FOREIGN.test(text)) found.add("unclear");
    if (asked.has(field) && found.size === before && !nothing && !spokenOf) found.add("unclear");
  }
  return found.size === 0 ? null : HOLD_TOPICS.filter((topic) => found.has(topic));
}
