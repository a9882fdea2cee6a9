import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { JobContext } from "../contract/job.ts";
import type { Tools } from "../contract/tools.ts";
import { filmTimeline } from "../../overlay/instant/filmAt.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import type { DebriefDocument } from "../contract/debrief.ts";
import { writeAtomic } from "../debrief/writeAtomic.edge.ts";
import { planFacts } from "../film/planFacts.ts";
import { momentFacts } from "../film/momentFacts.ts";
import { tellStory } from "../film/tellStory.ts";
import { filmChapters } from "../handover/filmText.ts";
import type { HandoverData, Still } from "../handover/handoverData.ts";
import { writeHandover } from "../handover/writeHandover.edge.ts";
import type { Chapter } from "../render/joinParts.edge.ts";
import type { FilmJob } from "../render/renderFilm.edge.ts";
import { renderStill } from "../render/renderStill.edge.ts";
import { smallPicture } from "../render/smallPicture.edge.ts";
import { rideDateText } from "../../overlay/words/dateText.ts";
import { spokenWords } from "./automaticFilm.ts";
import { pageFonts } from "./pageFonts.ts";
import type { ReadOutcome } from "./readJourney.ts";
import { settled } from "./settled.ts";

export interface HandOverInput {
  readonly folder: string;
  readonly document: DebriefDocument;
  readonly judged: ReadOutcome;
  readonly film: Film;
  readonly clips: readonly Clip[];
  readonly job: FilmJob;
}

/** Width of a still in the page, px: sharp on a phone, small in the file. */
const PAGE_STILL_PX = 960;

/** The film's chapters: one an item. */
export function chaptersOf(judged: ReadOutcome, film: Film, language: DebriefDocument["settings"]["language"]): Chapter[] {
  return filmChapters(film, judged.reading.moments, debriefWords(language)).map(({ startS, endS, text }) => ({ startS, endS, title: text }));
}

/** Writes everything that goes with the film into the debrief's folder. */
export async function handOver(input: HandOverInput, tools: Tools, chromium: string | null, context: JobContext) {
  const { document, judged, film, clips } = input;
  const { ride, plan, reading } = judged;
  const { settings, words } = document;
  const noteOf = (index: number) =>
    document.choices.find((choice) => choice.kind === reading.moments[index].kind && choice.startS === reading.moments[index].startS)?.note ?? null;
  const data: HandoverData = {
    ride,
    plan,
    reading,
    story: tellStory(ride, plan, reading, { words: spokenWords(words) }),
    momentFacts: reading.moments.map((moment) => momentFacts(ride, reading, moment)),
    planFacts: planFacts(plan, reading),
    film,
    clips,
    readJson: judged.json as Readonly<Record<string, unknown>>,
    language: settings.language,
    units: plan.units,
    forWhom: settings.forWhom,
    asPercent: false,
    title: plan.title,
    dateText: ride.startUtcMs === null ? null : rideDateText(ride.startUtcMs, ride.utcOffsetMin, settings.language),
    distanceM: judged.summary.distanceM,
    notes: words.notes,
    momentNotes: new Map(reading.moments.flatMap((_moment, index) => (noteOf(index) === null ? [] : [[index, noteOf(index)!] as const]))),
    questions: words.questions,
    stills: await stillsOf(input, tools, context),
    fonts: await pageFonts(),
  };
  return writeHandover(input.folder, data, { chromiumPath: chromium, writeFile: writeAtomic });
}

/** One still of each filmed moment: the middle of its first shot. */
async function stillsOf({ film, job }: HandOverInput, tools: Tools, context: JobContext): Promise<Still[]> {
  const folder = await mkdtemp(join(tmpdir(), "followcar-stills-"));
  const stills: Still[] = [];
  try {
    for (const [index, span] of filmTimeline(film).entries()) {
      const item = film.items[index];
      if (item.type !== "shot" || item.moment === null || stills.some((still) => still.moment === item.moment)) continue;
      const atS = ((span.startFrame + Math.floor(span.frames / 2)) * film.frameRate.den) / film.frameRate.num;
      const { path } = settled(await renderStill({ ...job, atS, outPath: join(folder, `${index}.png`) }, tools, context));
      const png = await readFile(path);
      stills.push({ moment: item.moment, png, ...(await smallPicture(png, PAGE_STILL_PX)) });
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
  return stills;
}
