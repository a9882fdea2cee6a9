import { Failure } from "../contract/failure.ts";

/** `31.5`, `0:31.5` or `1:02:03.5` as seconds. Failure `usage` that names the option. */
export function parseClockS(text: string, option: string): number {
  const match = /^(?:(?:(\d+):)?(\d{1,2}):)?(\d+(?:\.\d+)?)$/.exec(text.trim());
  if (!match) throw new Failure("option-no-time", { option, text });
  const [, hours = "0", minutes = "0", seconds = "0"] = match;
  return Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds);
}
