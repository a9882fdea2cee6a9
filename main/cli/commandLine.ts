import { parseArgs } from "node:util";
import { Failure } from "../contract/failure.ts";
import { LANGUAGES, type Language } from "../contract/languageAndUnits.ts";
import type { OptionValues, Verb } from "./verb.ts";
import { meant } from "./meant.ts";

/** What every verb takes. */
const EVERYWHERE = {
  json: { type: "boolean" },
  help: { type: "boolean", short: "h" },
  language: { type: "string" },
} as const;

/** A command line taken apart; what is wrong with it is not said yet, so that it can be said in the language it asks for. */
function partsOf(options: Verb["options"], args: readonly string[]) {
  return parseArgs({
    args: [...args],
    allowPositionals: true,
    strict: false,
    tokens: true,
    options: { ...options, ...EVERYWHERE },
  });
}

/** The language that a command line asks for; English where it asks for none that is known. */
export function languageOf(options: Verb["options"], args: readonly string[]): Language {
  const { language } = partsOf(options, args).values;
  return LANGUAGES.find((known) => known === language) ?? "en";
}

/** The files and options of a command line. Failure `usage` that names the first option that does not fit the verb. */
export function parseCommandLine(
  verb: Verb,
  args: readonly string[],
): { readonly positionals: readonly string[]; readonly values: OptionValues } {
  const options: Verb["options"] = { ...verb.options, ...EVERYWHERE };
  const { positionals, values, tokens } = partsOf(verb.options, args);
  for (const token of tokens) {
    if (token.kind !== "option") continue;
    const { rawName: option, name, value, inlineValue } = token;
    const refuse = (fault: "no value" | "value with a dash" | "takes no value") =>
      new Failure("option-unclear", { verb: verb.name, option, fault });
    if (!Object.hasOwn(options, name))
      throw new Failure("option-unknown", { verb: verb.name, option, meant: meant(name, Object.keys(options)) });
    if (options[name]?.type === "boolean") {
      if (value !== undefined) throw refuse("takes no value");
    } else if (value === undefined) throw refuse("no value");
    else if (!inlineValue && value.length > 1 && value.startsWith("-")) throw refuse("value with a dash");
  }
  const { language } = values;
  if (typeof language === "string" && !LANGUAGES.some((known) => known === language))
    throw new Failure("option-not-one-of", { option: "language", text: language, choices: LANGUAGES });
  return { positionals, values };
}
