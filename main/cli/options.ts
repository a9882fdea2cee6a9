import { basename, extname } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { OptionValues } from "./verb.ts";
import type { OptionUnit, OutFile } from "../contract/notices/cli.ts";

/** A text option, or null when it was not given. */
export function textOption(values: OptionValues, name: string): string | null {
  const value = values[name];
  return typeof value === "string" ? value : null;
}

const ENDINGS = { picture: ".png", film: ".mp4", track: ".mov" } as const;

/** The file of --out, or null when it was not given. Failure `usage` when its name does not end as what is written into it. */
export function outFileOption(values: OptionValues, file: OutFile): string | null {
  const ending = ENDINGS[file];
  const path = textOption(values, "out");
  if (path === null || extname(path).toLowerCase() === ending) return path;
  const fileName = basename(path);
  throw new Failure("out-wrong-ending", {
    fileName,
    file,
    ending,
    better: `${basename(fileName, extname(fileName)) || "film"}${ending}`,
  });
}

/** A text option that may be given several times. */
export function textOptions(values: OptionValues, name: string): readonly string[] {
  const value = values[name];
  return Array.isArray(value) ? value.filter((entry) => typeof entry === "string") : [];
}

/** A number option within [least, most], or null when it was not given. Failure `usage` when it is none. */
export function numberOption(
  values: OptionValues,
  name: string,
  unit: OptionUnit,
  least: number,
  most: number,
): number | null {
  const text = textOption(values, name);
  if (text === null) return null;
  const number = Number(text);
  if (text.trim() === "" || !Number.isFinite(number) || number < least || number > most) {
    throw new Failure("option-no-number", { option: name, text, unit, least, most });
  }
  return number;
}

/** One of a closed list, or null when it was not given. */
export function choiceOption<T extends string>(values: OptionValues, name: string, choices: readonly T[]): T | null {
  const text = textOption(values, name);
  if (text === null) return null;
  const choice = choices.find((entry) => entry === text);
  if (choice === undefined) throw new Failure("option-not-one-of", { option: name, text, choices });
  return choice;
}
