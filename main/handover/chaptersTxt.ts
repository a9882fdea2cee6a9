import type { FilmText } from "./filmText.ts";

/** `m:ss` (`h:mm:ss` from an hour on), rounded down, so that no chapter is named ahead of its first frame. */
function filmClock(seconds: number): string {
  const whole = Math.floor(seconds + 1e-6);
  const two = (value: number): string => String(value).padStart(2, "0");
  const minutes = Math.floor(whole / 60) % 60;
  return whole >= 3600
    ? `${Math.floor(whole / 3600)}:${two(minutes)}:${two(whole % 60)}`
    : `${minutes}:${two(whole % 60)}`;
}

/** Chapters as a plain list for the description under a video: a line each, the first at 0:00. */
export function chaptersTxt(chapters: readonly FilmText[]): string {
  return chapters.map((chapter) => `${filmClock(chapter.startS)} ${chapter.text.replaceAll(/\s+/g, " ")}\n`).join("");
}
