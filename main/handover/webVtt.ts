import type { FilmText } from "./filmText.ts";

/** `hh:mm:ss.ttt` as WebVTT writes it (W3C WebVTT: The Web Video Text Tracks Format, section 4.1). */
function vttTime(seconds: number): string {
  const ms = Math.round(seconds * 1000);
  const pad = (value: number, digits: number): string => String(value).padStart(digits, "0");
  return `${pad(Math.floor(ms / 3_600_000), 2)}:${pad(Math.floor(ms / 60_000) % 60, 2)}:${pad(Math.floor(ms / 1000) % 60, 2)}.${pad(ms % 1000, 3)}`;
}

/** Cue text: no blank line, no arrow, `&` and `<` escaped; these three would end or break a cue. */
function cueText(text: string): string {
  return text
    .split(/\r\n|\r|\n/)
    .filter((line) => line.trim() !== "")
    .join("\n")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;");
}

/** A WebVTT file of these texts, in order; captions and chapters have the same form. Texts without words are left out. */
export function webVtt(texts: readonly FilmText[]): string {
  const cues = texts
    .map((one) => ({ ...one, text: cueText(one.text) }))
    .filter((one) => one.text !== "" && Math.round(one.endS * 1000) > Math.round(one.startS * 1000))
    .map((one, index) => `${index + 1}\n${vttTime(one.startS)} --> ${vttTime(one.endS)}\n${one.text}\n`);
  return `WEBVTT\n\n${cues.join("\n")}`;
}
