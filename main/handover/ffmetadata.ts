import type { FilmText } from "./filmText.ts";

/**
 * `=`, `;`, `#`, `\` and line breaks are escaped by a backslash (FFmpeg formats documentation, Metadata). A backslash at
 * the end goes: ffmpeg 5.1 takes even an escaped one for a line that goes on, and loses the chapter after it.
 */
function escaped(text: string): string {
  return text.replace(/\\+$/, "").replaceAll(/[=;#\\\n]/g, (character) => `\\${character}`);
}

/** Title and chapters in FFmpeg's metadata file form, in milliseconds; muxed into the film as MP4 chapters. */
export function ffmetadata(title: string, chapters: readonly FilmText[]): string {
  const parts = chapters.map(
    (chapter) =>
      `[CHAPTER]\nTIMEBASE=1/1000\nSTART=${Math.round(chapter.startS * 1000)}\nEND=${Math.round(chapter.endS * 1000)}\ntitle=${escaped(chapter.text)}\n`,
  );
  return `;FFMETADATA1\ntitle=${escaped(title)}\n${parts.join("")}`;
}
