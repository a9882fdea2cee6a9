/** Letters that Unicode's decomposition leaves as they are, as names are written without them. */
const PLAIN: Readonly<Record<string, string>> = {
  ß: "ss",
  æ: "ae",
  œ: "oe",
  ø: "o",
  đ: "d",
  ð: "d",
  ł: "l",
  þ: "th",
  ı: "i",
};
/** From so many letters on, a name is looked for inside words too; shorter ones stand in too many. */
const INSIDE_FROM = 5;

/** Small letters and digits without accents, one space between words. Umlauts as one letter, or as the two they are typed as. */
function plain(text: string, umlauts: "one" | "two"): string {
  const small = text.normalize("NFKC").toLowerCase();
  const spelled = umlauts === "two" ? small.replaceAll(/[äöü]/g, (letter) => `${letter.normalize("NFD")[0]!}e`) : small;
  return spelled
    .normalize("NFKD")
    .replaceAll(/\p{M}/gu, "")
    .replaceAll(/[ßæœøđðłþı]/g, (letter) => PLAIN[letter]!)
    .replaceAll(/[^\p{L}\p{N}]+/gu, " ")
    .trim();
}

const MONTHS =
  "jan(uary?|uar)?|feb(ruary?|ruar)?|mar(ch)?|märz?|apr(il)?|ma[yi]|june?|juni|july?|juli|aug(ust)?|sept?(ember)?|o[ck]t(ober)?|" +
  "nov(ember)?|de[cz](ember)?";
/** A day as people write it: 2026-05-16, 16.5.26, 5/16/2026, 16 May, 16. Mai, May 16th. */
const DAY = new RegExp(
  [
    String.raw`\b\d{4}-\d{1,2}-\d{1,2}\b`,
    String.raw`\b\d{1,2}[./]\s?\d{1,2}[./]\s?(\d{2}|\d{4})?(?!\d)`,
    String.raw`\b\d{1,2}(\.|st|nd|rd|th)?\s?(of\s)?(${MONTHS})(?!\p{L})`,
    String.raw`\b(${MONTHS})\.?\s\d{1,2}(\.|st|nd|rd|th)?\b`,
  ].join("|"),
  "iu",
);

/** True where one of the names stands in the words: alone, at the start of a word (`Ines'`, `inesfalk`), or, of 5 letters and more, anywhere in one. */
function names(words: string, keptBack: readonly string[]): boolean {
  return (["one", "two"] as const).some((umlauts) => {
    const said = plain(words, umlauts);
    // `#RuthMarten` and letters set apart are looked for without the spaces between them.
    const close = said.replaceAll(" ", "");
    return keptBack.some((name) => {
      const one = plain(name, umlauts);
      if (one === "") return false;
      const joined = one.replaceAll(" ", "");
      if (joined.length >= INSIDE_FROM) return close.includes(joined);
      return joined.length > 2 ? ` ${said}`.includes(` ${one}`) : ` ${said} `.includes(` ${one} `);
    });
  });
}

/** True for words that a lesson can't carry: somebody's name, a day, or watts that are to be said as shares. */
export function saysTooMuch(words: string, keptBack: readonly string[], asPercent: boolean): boolean {
  if (asPercent && /\d\s*(W|watts?)\b/i.test(words)) return true;
  return DAY.test(words) || names(words, keptBack);
}
