import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { isAbsolute, join, relative, sep } from "node:path";
import { pathToFileURL } from "node:url";
import type { PrintPage } from "../contract/printPage.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";
import { removeFile } from "../host/writeAtomic.edge.ts";
import { chaptersTxt } from "./chaptersTxt.ts";
import { coachHtml } from "./coachHtml.tsx";
import { ffmetadata } from "./ffmetadata.ts";
import { filmCaptions, filmChapters } from "./filmText.ts";
import { type HandoverData, handoverTitle, shownMoments, toldMoments } from "./handoverData.ts";
import { message } from "./message.ts";
import { momentsCsv } from "./momentsCsv.ts";
import { momentsJson, openMoments } from "./momentsJson.ts";
import { handoverWords } from "./handoverLines.ts";
import { pageHtml } from "./pageHtml.tsx";
import { pagePdf } from "./pdf.edge.ts";
import { playingHtml, withFilm } from "./playingHtml.tsx";
import { PLAYING_SCRIPT } from "./playingScript.ts";
import { timelineOtio } from "./timelineOtio.ts";
import { webVtt } from "./webVtt.ts";
import { note, type Note } from "../contract/notice.ts";

export interface HandoverTools {
  /** Prints the page, or null: then there is no PDF, and a warning says so. */
  readonly printPage: PrintPage | null;
  /** The film, where the page in which it plays is wished too; missing: it is not. */
  readonly playingFilm?: string;
  /** Writes a file whole or not at all; throws a Failure that names it. */
  readonly writeFile: (path: string, content: string | Uint8Array) => Promise<void>;
}

export interface WrittenHandover {
  /** Paths written, in the order of the list in the documentation. */
  readonly written: readonly string[];
  /** One sentence each: what could not be made, and why. */
  readonly warnings: readonly Note[];
}

/** A film of more bytes is too much for a page on a phone: it is held in memory whole, twice while it opens. */
const MOST_PLAYING_BYTES = 150e6;

/** The page in which the film plays, where it is wished; one of an earlier run would play another film, and goes. */
async function writePlaying(
  path: string,
  data: HandoverData,
  tools: HandoverTools,
): Promise<{ readonly path: string | null; readonly warnings: readonly Note[] }> {
  const film = tools.playingFilm === undefined ? null : await readFile(tools.playingFilm);
  if (film === null || film.length > MOST_PLAYING_BYTES) {
    await removeFile(path);
    const sizes = { bytes: film?.length ?? 0, limitBytes: MOST_PLAYING_BYTES };
    return { path: null, warnings: film === null ? [] : [note("playing-page-too-large", sizes)] };
  }
  const hash = createHash("sha256").update(PLAYING_SCRIPT).digest("base64");
  await tools.writeFile(path, withFilm(playingHtml(data, hash), film));
  return { path, warnings: [] };
}

/** A clip as an editor finds it from the timeline's folder; in a lesson its file name is kept back. */
function clipUrl(outDir: string, path: string): string {
  const away = relative(outDir, path);
  if (away === "" || isAbsolute(away)) return pathToFileURL(path).href;
  return away.split(sep).map(encodeURIComponent).join("/");
}

/** A name for a still that says which moment it is: `01-lapse-0h50m00s.png`. */
function stillName(index: number, kind: string, startS: number): string {
  const two = (value: number): string => String(value).padStart(2, "0");
  const whole = Math.floor(startS);
  const at = `${Math.floor(whole / 3600)}h${two(Math.floor(whole / 60) % 60)}m${two(whole % 60)}s`;
  return `${two(index + 1)}-${kind.replaceAll(/[^A-Za-z0-9]+/g, "-").toLowerCase() || "moment"}-${at}.png`;
}

/**
 * Writes the debrief for people and for other tools into `outDir`: page (HTML, and PDF where a Chromium is given),
 * coach's page, message, moments, captions, chapters, timeline, stills. Each file is whole or not there. A lesson gets
 * no coach's page, no moments files and no timeline: those name files, reasons and notes.
 * Failures: `output-not-writable`, `disk-full`.
 */
export async function writeHandover(
  outDir: string,
  data: HandoverData,
  tools: HandoverTools,
): Promise<WrittenHandover> {
  const words = handoverWords(data);
  const lesson = data.forWhom === "lesson";
  const { moments } = data.reading;
  const told = toldMoments(data);
  const chapters = filmChapters(data.film, told, words, lesson ? undefined : data.momentNames);
  const shown = shownMoments(data);
  const open = openMoments(moments, shown, data.dropped);
  const title = handoverTitle(data, words);
  const urls = new Map(data.clips.map((clip) => [clip.id, { url: clipUrl(outDir, clip.path), name: clip.fileName }]));
  const files: (readonly [string, string | Uint8Array])[] = [
    ["debrief.html", pageHtml(data)],
    ["message.txt", message(data)],
    ["captions.vtt", webVtt(filmCaptions(data.film))],
    ["chapters.vtt", webVtt(chapters)],
    ["chapters.txt", chaptersTxt(chapters)],
    ["chapters.ffmetadata", ffmetadata(title, chapters)],
    ...(lesson
      ? []
      : ([
          ["coach.html", coachHtml(data)],
          ["moments.csv", momentsCsv(open)],
          ["moments.json", momentsJson(open)],
          ["timeline.otio", timelineOtio(data.film, data.clips, told, words, title, urls, data.momentNames)],
        ] as const)),
    ...data.stills.flatMap((still): [string, Uint8Array][] => {
      const moment = told[still.moment];
      return moment === undefined
        ? []
        : [[join("stills", stillName(shown.indexOf(still.moment), moment.kind, moment.startS)), still.png]];
    }),
  ];
  await makeFolder(data.stills.length > 0 ? join(outDir, "stills") : outDir);
  const written: string[] = [];
  for (const [name, content] of files) {
    const path = join(outDir, name);
    await tools.writeFile(path, content);
    written.push(path);
  }
  const playing = await writePlaying(join(outDir, "playing.html"), data, tools);
  if (playing.path !== null) written.splice(1, 0, playing.path);
  const warnings: Note[] = [...playing.warnings];
  const pdfPath = join(outDir, "debrief.pdf");
  const printed = await pagePdf(join(outDir, "debrief.html"), pdfPath, tools.printPage);
  if (printed.written) written.splice(1, 0, pdfPath);
  else {
    // A PDF of an earlier run would say other numbers than the page beside it.
    await removeFile(pdfPath);
    warnings.push(note("pdf-not-made", { why: printed.why }));
  }
  return { written, warnings };
}
