import { PRESETS, type ForWhom } from "../contract/presets.ts";
import { readdir, readFile, rm } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Film } from "../contract/film.ts";
import { toldKind } from "../../overlay/words/debriefStory.ts";
import type { SaidWords } from "../contract/saidWords.ts";
import { Cancelled, type JobContext, partOfJob, settled } from "../contract/job.ts";
import type { Tools } from "../contract/tools.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { missingCharacters } from "../../overlay/drawText.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { rideDateText } from "../../overlay/words/dateText.ts";
import type { CoachWords, DebriefDocument } from "../contract/debrief.ts";
import { type Athlete, requireLessonConsent } from "../debrief/athlete.ts";
import { choicesOn } from "../debrief/choicesOn.ts";
import { temporaryFolder } from "../host/leftovers.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";
import { cardWords } from "../film/cardWords.ts";
import { holdForComments } from "../film/holdForComments.ts";
import { planFacts } from "../film/planFacts.ts";
import { momentFacts } from "../film/momentFacts.ts";
import { filmChapters } from "../handover/filmText.ts";
import { type HandoverData, type Still, toldMoments } from "../handover/handoverData.ts";
import { pageHtml } from "../handover/pageHtml.tsx";
import { saidWords } from "../handover/saidWords.ts";
import { plannedBlocks } from "../reading/band.ts";
import { writeHandover } from "../handover/writeHandover.edge.ts";
import type { Chapter } from "../render/joinParts.edge.ts";
import { renderFilm, type FilmJob } from "../render/renderFilm.edge.ts";
import { renderStill } from "../render/renderStill.edge.ts";
import { smallPicture } from "../render/smallPicture.edge.ts";
import { shownReading, storyOf } from "./automaticFilm.ts";
import type { DebriefStanding } from "./debrief.ts";
import type { Host } from "./host.ts";
import { readJson, readLines, type ReadOutcome } from "./judge.ts";
import { withCommentLengths } from "./openDebrief.ts";
import { filmJob } from "./filmJob.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";
import { pageFonts } from "../host/pageFonts.edge.ts";
import { outputFor, PLAIN_OUTPUT, type OutputWish } from "./outputChoice.ts";
import { note, type Note } from "../contract/notice.ts";

/** Width of a still in the page, px: sharp on a phone, small in the file. */
const PAGE_STILL_PX = 960;
/** Share of the work that rendering the film is, for the progress. */
const FILM_SHARE = 0.85;

export interface HandedOver {
  readonly written: readonly string[];
  readonly warnings: readonly Note[];
}

/**
 * The folder of a debrief in a place that a person chose: named as the debrief's own; where something is in a folder of
 * that name, with a number behind it, so that nothing is written over.
 *
 * @param mine folders that were written for this debrief, which are written anew
 */
export async function chosenFolder(folder: string, place: string, mine: ReadonlySet<string>): Promise<string> {
  const plain = join(place, basename(folder));
  for (let n = 1; ; n++) {
    const found = n === 1 ? plain : `${plain}-${n}`;
    const own = resolve(found) === resolve(folder) || mine.has(resolve(found));
    if (own || (await readdir(found).catch(() => [])).length === 0) return found;
  }
}

/** Where what is handed over goes: a lesson has a folder of its own, so that all of it may be given away. */
export function handOverFolder(folder: string, forWhom: ForWhom): string {
  return forWhom === "lesson" ? join(folder, "lesson") : folder;
}

/**
 * What stands against handing a debrief over, as a Failure with the remedy; null when nothing does. A lesson needs the
 * athlete's consent, a debrief of a batch a person who has looked at it.
 */
export function mayHandOver(document: DebriefDocument, athlete: Athlete | null): Failure | null {
  if (document.prepared) return new Failure("hand-over-batch-unseen", {});
  if (document.settings.forWhom === "athlete") return null;
  try {
    requireLessonConsent(athlete);
    return null;
  } catch (error) {
    if (error instanceof Failure) return error;
    throw error;
  }
}

/**
 * The whole hand-over: film, page, message and the files for other tools, into the debrief's folder (a lesson: into
 * `lesson` in it), or into another. Throws what `mayHandOver` gives. Everything written is whole.
 */
export async function handOver(
  asked: DebriefStanding,
  folder: string,
  athlete: Athlete | null,
  host: Host,
  context: JobContext,
  output: OutputWish = PLAIN_OUTPUT,
  into = folder,
): Promise<HandedOver> {
  const against = mayHandOver(asked.document, athlete);
  if (against !== null) throw against;
  const standing = await withComments(asked, folder, host);
  const outDir = handOverFolder(into, standing.document.settings.forWhom);
  await makeFolder(outDir);
  const film = await renderStanding(
    standing,
    folder,
    join(outDir, "film.mp4"),
    host,
    partOfJob(context, 0, FILM_SHARE),
    output,
  );
  if (context.signal.aborted) throw new Cancelled();
  context.report({ done: FILM_SHARE, leftS: null, step: { what: "pages" } });
  const data = await handoverData(standing, await stillsOf(standing.film, film.job, host.tools, context));
  const written = await writeHandover(outDir, data, {
    printPage: host.printPage,
    writeFile: writeAtomic,
    ...(standing.document.settings.playingPage === true ? { playingFilm: film.path } : {}),
  });
  context.report({ done: 1, leftS: 0, step: { what: "handed over" } });
  return {
    written: [film.path, ...written.written],
    warnings: [...standing.warnings, ...film.warnings, ...lessonWarnings(standing), ...written.warnings],
  };
}

/** Renders the film in force. `folder` is the debrief's: comments lie below it. */
export async function renderStanding(
  standing: DebriefStanding,
  folder: string,
  outPath: string,
  host: Host,
  context: JobContext,
  output: OutputWish = PLAIN_OUTPUT,
): Promise<{ readonly path: string; readonly job: FilmJob; readonly warnings: readonly Note[] }> {
  const plain = jobOfStanding(standing, folder, outPath, host);
  const { preset, encoder, warnings } = await outputFor(
    plain.preset.name,
    output,
    filmClock(plain.film).lengthS,
    host.tools,
  );
  const slowSound = output.slowSound ?? standing.document.settings.slowSound ?? "stretched";
  const job = { ...plain, preset, encoder, slowSound, anew: output.anew };
  const { path, notes } = settled(await renderFilm(job, host.tools, context));
  return { path, job, warnings: [...warnings, ...notes, ...askedNotes(standing), ...unreadable(standing.film)] };
}

/** Its film lasting until every comment has ended, as their files now are. */
async function withComments(standing: DebriefStanding, folder: string, host: Host): Promise<DebriefStanding> {
  return { ...standing, film: holdForComments(await withCommentLengths(standing.film, folder, true, host)) };
}

/** What rendering needs of a debrief. */
export function jobOfStanding(standing: DebriefStanding, folder: string, outPath: string, host: Host): FilmJob {
  const { document, judged, film, clips } = standing;
  const { settings } = document;
  const job = filmJob(
    { ...judged, clips, film: withCommentFiles(film, folder) },
    PRESETS[settings.preset],
    settings,
    outPath,
    host.cacheDir,
  );
  return { ...job, chapters: chaptersOf(standing) };
}

/** Comments lie below the debrief's folder; a renderer is given where they are. */
function withCommentFiles(film: Film, folder: string): Film {
  return {
    ...film,
    items: film.items.map((item) =>
      item.commentPath === null ? item : { ...item, commentPath: join(folder, item.commentPath) },
    ),
  };
}

/** The film's chapters: one an item. */
function chaptersOf(standing: DebriefStanding): Chapter[] {
  const { document, film } = standing;
  const { judged } = standing;
  const { forWhom } = document.settings;
  const moments = toldMoments({
    story: storyOf(judged, document.choices, document.words, forWhom),
    reading: shownReading(judged.reading, document.choices, forWhom),
  });
  return filmChapters(film, moments, debriefWords(document.settings.language, null, forWhom), namesOf(standing)).map(
    ({ startS, endS, text }) => ({ startS, endS, title: text }),
  );
}

/** The coach's own names of moments by index; a lesson has none. */
function namesOf({ document, judged }: DebriefStanding): ReadonlyMap<number, string> {
  if (document.settings.forWhom === "lesson") return new Map();
  return new Map(
    choicesOn(judged.reading.moments, document.choices).of.flatMap((choice, index) =>
      choice === null || choice.name === null ? [] : [[index, choice.name] as const],
    ),
  );
}

/** What is rendered without the coach's word on it: a note for each thing that is asked about. */
function askedNotes({ asked, judged }: DebriefStanding): Note[] {
  const { moments, breaks } = judged.reading;
  return asked.map((one) =>
    note("asked-open", {
      asked: one,
      timesS: one.among.map((index) => (one.what === "break" ? breaks : moments)[index]!.startS),
    }),
  );
}

/** Letters that the film's face does not have are drawn by the system's: said, so that somebody looks. */
function unreadable(film: Film): Note[] {
  const texts = film.items.flatMap((item) =>
    item.type === "shot" ? item.captions.map(({ text }) => text) : [cardWords(item.card)],
  );
  const missing = [...new Set(texts.flatMap((text) => missingCharacters(text.replaceAll("\n", " "))))];
  return missing.length === 0 ? [] : [note("film-letters-missing", { letters: missing.slice(0, 8) })];
}

function lessonWarnings({ document, film }: DebriefStanding): Note[] {
  if (document.settings.forWhom !== "lesson") return [];
  const spoken = film.items.some(
    (item) => item.commentPath !== null || (item.type === "shot" && item.keepRideSound === true),
  );
  const percent =
    document.settings.asPercent && document.plan.targetW === null ? [note("lesson-without-target", {})] : [];
  return [...percent, ...(spoken ? [note("lesson-carries-speech", {})] : []), note("lesson-shows-surroundings", {})];
}

/** All that a debrief says to the athlete in words, each line with what the program would say in its place. */
export async function wordsOfStanding(standing: DebriefStanding): Promise<SaidWords> {
  return saidWords(await handoverData(standing, []), standing.document.words);
}

/** Faster than this on the whole no bicycle goes, m/s: such a distance counts from before the recording. Own choice. */
const FASTEST_MPS = 40;

/** The distance of a ride as an athlete may read it; null: not known, or not ridden in this recording. */
export function riddenM({ distanceM, elapsedS }: ReadOutcome["summary"]): number | null {
  return distanceM !== null && distanceM <= FASTEST_MPS * elapsedS ? distanceM : null;
}

/** The pictures of a written page. */
export type PageStills = readonly Still[];

/** The pictures of the written page as a hand-over would make them. */
export async function pageStillsOf(standing: DebriefStanding, folder: string, host: Host): Promise<PageStills> {
  const job = jobOfStanding(standing, folder, join(folder, "film.mp4"), host);
  const context: JobContext = { signal: new AbortController().signal, report: () => undefined };
  return stillsOf(standing.film, job, host.tools, context);
}

/** The written page as a hand-over would write it, with these pictures: HTML without scripts. */
export async function pageOfStanding(standing: DebriefStanding, stills: PageStills): Promise<string> {
  return pageHtml(await handoverData(standing, stills));
}

/** None of the coach's words: all is made. */
const UNSAID: CoachWords = { held: null, change: null, next: null, nextS: null, notes: null, questions: null };

/** Everything that pages and files say of a debrief. */
export async function handoverData(standing: DebriefStanding, stills: readonly Still[]): Promise<HandoverData> {
  const { document, judged, film, clips } = standing;
  const { ride, plan } = judged;
  const { settings, words, choices } = document;
  const reading = shownReading(judged.reading, choices, settings.forWhom);
  const said = choicesOn(judged.reading.moments, choices).of;
  const notes = said.map((choice) => choice?.note ?? null);
  const story = storyOf(judged, choices, words, settings.forWhom);
  return {
    ride,
    plan,
    reading,
    story,
    withoutNote:
      judged.facts.hold === null
        ? null
        : storyOf({ ...judged, facts: { ...judged.facts, hold: null } }, choices, UNSAID, settings.forWhom),
    momentFacts: reading.moments.map((moment) => ({
      ...momentFacts(ride, reading, judged.facts, moment),
      kind: toldKind(story, moment.kind),
    })),
    planFacts: planFacts(plan, reading, judged.facts),
    blocks: plannedBlocks(plan),
    film,
    clips,
    readJson: readJson(judged, settings.language),
    readLines: readLines(judged, settings.language),
    language: settings.language,
    units: plan.units,
    forWhom: settings.forWhom,
    asPercent: settings.asPercent,
    title: plan.title,
    dateText: ride.startUtcMs === null ? null : rideDateText(ride.startUtcMs, ride.utcOffsetMin, settings.language),
    distanceM: riddenM(judged.summary),
    notes: words.notes,
    momentNotes: new Map(notes.flatMap((note, index) => (note === null ? [] : [[index, note] as const]))),
    momentNames: namesOf(standing),
    dropped: new Set(said.flatMap((choice, index) => (choice?.keep === false ? [index] : []))),
    questions: words.questions,
    stills,
    fonts: await pageFonts(),
  };
}

/** One still of each filmed moment, or of one of them: the middle of its first shot. */
export async function stillsOf(
  film: Film,
  job: FilmJob,
  tools: Tools,
  context: JobContext,
  only: number | null = null,
): Promise<Still[]> {
  const folder = await temporaryFolder("stills");
  const stills: Still[] = [];
  try {
    const clock = filmClock(film);
    for (const [index, span] of clock.spans.entries()) {
      const item = film.items[index]!;
      if (item.type !== "shot" || item.moment === null || (only !== null && item.moment !== only)) continue;
      if (stills.some((still) => still.moment === item.moment)) continue;
      const atS = clock.timeOf(span.startFrame + Math.floor(span.frames / 2));
      const { path } = settled(
        await renderStill({ ...job, atS, outPath: join(folder, `${index}.png`) }, tools, context),
      );
      const png = await readFile(path);
      stills.push({ moment: item.moment, png, ...(await smallPicture(png, PAGE_STILL_PX)) });
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
  return stills;
}
