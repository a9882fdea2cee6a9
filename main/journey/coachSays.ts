import { readdir } from "node:fs/promises";
import { join } from "node:path";
import type { CoachWords, DebriefDocument } from "../contract/debrief.ts";
import { Failure } from "../contract/failure.ts";
import type { Break, GivenReason, Override } from "../contract/reading.ts";
import { type Plan, type PlanSkill, type Skill, withTick } from "../contract/plan.ts";
import type { SaidWords } from "../contract/saidWords.ts";
import { saveDebrief } from "../debrief/debriefStore.edge.ts";
import { parseEdit } from "../debrief/parseEdit.ts";
import { rideFigures } from "../debrief/rideFigures.ts";
import { readText } from "../host/readText.edge.ts";
import { askedNextS } from "./automaticFilm.ts";
import type { DebriefStanding } from "./debrief.ts";
import { handOverFolder, wordsOfStanding } from "./handOver.ts";
import type { Host } from "./host.ts";
import { type OpenDebrief, loadFolder, openDebrief } from "./openDebrief.ts";

/** What a coach says of a debrief: only what is named changes; null: made by the program again. */
export interface SayRequest {
  readonly debriefPath: string;
  readonly words: Partial<CoachWords>;
  readonly trustPaths: boolean;
}

/** A reason for the break that a ride time falls into; null: the computed one holds again. */
export interface BreakWord {
  readonly atS: number;
  readonly set: GivenReason | null;
}

/** How often the coach saw a skill done. */
export interface SkillTick {
  readonly skill: Skill;
  readonly done: number;
}

/** So far from a break a time still means it, s: a coach reads times off a film or a page, to the second. */
const NEAR_S = 5;

/**
 * The debrief as it now stands, saved under its lock with the copy before it kept. Failures as `openDebrief` and
 * `saveDebrief`: nothing is written where the window has it open, or where somebody saved in between.
 */
async function savedAs(
  { folder, standing }: OpenDebrief,
  loaded: DebriefDocument,
  changed: Partial<DebriefDocument>,
): Promise<void> {
  const { ride, plan, reading, facts } = standing.judged;
  const computed = loaded.filmSetBy === "computed" ? { film: standing.film } : {};
  const document = { ...loaded, ...changed, ...computed };
  const figures = rideFigures(ride, plan, reading, facts, askedNextS(standing.judged, document));
  await saveDebrief(folder, { ...document, figures });
}

/** Loads a debrief that may be changed. Failure `debrief-read-only`. */
async function loadToChange(path: string, trustPaths: boolean): Promise<DebriefDocument> {
  const { document, readOnly } = await loadFolder(path, trustPaths, false);
  if (readOnly !== null) throw new Failure("debrief-read-only", { reason: readOnly });
  return document;
}

/** What a person looks at or sends on of all that a hand-over writes. */
const HANDED_OVER = ["message.txt", "debrief.html", "film.mp4"] as const;

/** Files of an earlier hand-over that still say what the debrief said before. */
export interface Outdated {
  /** Their paths; empty where nothing was handed over, or where all is as before. */
  readonly outdated: readonly string[];
}

/** Whether a part of the document is another one than it was: both have the order of keys that the form gives. */
function isOther(loaded: DebriefDocument, changed: Partial<DebriefDocument>): boolean {
  const parts = Object.keys(changed) as (keyof DebriefDocument)[];
  return parts.some((part) => JSON.stringify(changed[part]) !== JSON.stringify(loaded[part]));
}

/** Those files after a change; where nothing changed this time, a message that says other things than the debrief. */
async function outdatedFiles(
  { folder, standing }: OpenDebrief,
  isChanged: boolean,
  { message }: Pick<SaidWords, "message">,
): Promise<string[]> {
  const outDir = handOverFolder(folder, standing.document.settings.forWhom);
  const there = new Set(await readdir(outDir).catch(() => []));
  const old = HANDED_OVER.filter((name) => there.has(name)).map((name) => join(outDir, name));
  if (isChanged) return old;
  const messagePath = join(outDir, HANDED_OVER[0]);
  const sent = await readText(messagePath).catch(() => message);
  return sent === message ? [] : [messagePath];
}

/**
 * Puts a coach's own words in place of the made ones, or takes them back. Gives all that is said now, and the files that
 * don't say it yet.
 */
export async function sayJourney(
  { debriefPath, words, trustPaths }: SayRequest,
  host: Host,
): Promise<SaidWords & Outdated> {
  const loaded = await loadToChange(debriefPath, trustPaths);
  if (Object.keys(words).length === 0) {
    const opened = await openDebrief(debriefPath, host, trustPaths);
    const said = await wordsOfStanding(opened.standing);
    return { ...said, outdated: await outdatedFiles(opened, false, said) };
  }
  // The form of the document holds at this door, too.
  const { value } = parseEdit({ part: "words", value: { ...loaded.words, ...words }, label: "own words" }, loaded);
  const changed = { words: value as CoachWords };
  const opened = await openDebrief(debriefPath, host, trustPaths, {}, undefined, changed);
  await savedAs(opened, loaded, changed);
  const said = await wordsOfStanding(opened.standing);
  return { ...said, outdated: await outdatedFiles(opened, isOther(loaded, changed), said) };
}

/** The break that a ride time means: the one it falls into, else the nearest within a few seconds. */
function breakAt(breaks: readonly Break[], atS: number): Break {
  const away = (one: Break): number => Math.max(0, one.startS - atS, atS - one.endS);
  const nearest = breaks.reduce<Break | null>(
    (best, one) => (best === null || away(one) < away(best) ? one : best),
    null,
  );
  if (nearest === null || away(nearest) > NEAR_S)
    throw new Failure("no-break-there", {
      atS,
      nearest: nearest === null ? null : { startS: nearest.startS, endS: nearest.endS },
    });
  return nearest;
}

function isAbout(override: Override, { startS, endS }: Break): boolean {
  if (override.what !== "break") return false;
  const untilS = override.endS ?? override.startS + 1;
  return override.startS < endS && untilS > startS;
}

/** The plan with a skill ticked. */
function ticked(plan: Plan, { skill, done }: SkillTick): Plan {
  return { ...plan, skills: withTick(plan.skills ?? [], skill, done) };
}

/**
 * Gives breaks the coach's reasons, or the computed ones back, and ticks skills. Gives each break as it is judged now,
 * all skills of the plan, and the files that don't say it yet.
 */
export async function judgeJourney(
  request: {
    readonly debriefPath: string;
    readonly breaks: readonly BreakWord[];
    readonly skills: readonly SkillTick[];
    readonly trustPaths: boolean;
  },
  host: Host,
): Promise<{ readonly breaks: readonly Break[]; readonly skills: readonly PlanSkill[] } & Outdated> {
  const { debriefPath, breaks, skills, trustPaths } = request;
  const loaded = await loadToChange(debriefPath, trustPaths);
  const before: DebriefStanding = (await openDebrief(debriefPath, host, trustPaths)).standing;
  const found = breaks.map(({ atS, set }) => ({ one: breakAt(before.judged.reading.breaks, atS), set }));
  const overrides = found.reduce<readonly Override[]>((all, { one, set }) => {
    const rest = all.filter((override) => !isAbout(override, one));
    const { startS, endS } = one;
    return set === null ? rest : [...rest, { what: "break", startS, endS, set, reason: null }];
  }, loaded.overrides);
  const changed = { overrides, ...(skills.length === 0 ? {} : { plan: skills.reduce(ticked, loaded.plan) }) };
  const opened = await openDebrief(debriefPath, host, trustPaths, {}, undefined, changed);
  await savedAs(opened, loaded, changed);
  const now = opened.standing.judged.reading.breaks;
  const isChanged = isOther(loaded, changed);
  return {
    breaks: found.map(({ one }) => breakAt(now, one.startS)),
    skills: opened.standing.document.plan.skills ?? [],
    outdated: await outdatedFiles(opened, isChanged, await wordsOfStanding(opened.standing)),
  };
}
