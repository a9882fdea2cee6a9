import type { Caption, CardItem, Film, FilmItem, Shot } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Lineup } from "../contract/lineup.ts";
import type { Plan } from "../contract/plan.ts";
import type { Moment, Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import type { DebriefPhrases, WhyFacts } from "../../overlay/words/debriefPhrases.ts";
import { type DebriefStory, storyForLesson } from "../../overlay/words/debriefStory.ts";
import type { Language } from "../../overlay/words/phrases.ts";
import { filmTimeline } from "../../overlay/instant/filmAt.ts";
import { cardItem, changeCard, closingCard, heartCard, momentCard, planCard, titleCard } from "./filmCards.ts";
import { type PlacedClip, type WantedSpan, clipFor, placedClips } from "./filmedSpan.ts";
import type { FilmShape } from "./filmShape.ts";
import { wholeFramesS } from "./frameGrid.ts";
import { momentFacts } from "./momentFacts.ts";
import { TEACHING_KINDS } from "./tellStory.ts";

export interface FilmInput {
  readonly ride: Ride;
  readonly plan: Plan;
  readonly reading: Reading;
  /** From `tellStory`. */
  readonly story: DebriefStory;
  readonly clips: readonly Clip[];
  readonly lineup: Lineup;
  /** Wished length, s. */
  readonly lengthS: number;
  readonly shape: FilmShape;
  readonly language: Language;
  /** Lines under the title, for example the date. */
  readonly titleLines: readonly string[];
  /** Moments the coach picked (indices into the reading's list), or null: the story picks. */
  readonly picks: readonly number[] | null;
  /** True: clips whose place is not sure may be shown too. */
  readonly acceptUnsure: boolean;
  /** Whose numbers; null when there is one rider. */
  readonly riderName: string | null;
  /** `lesson`: for others; names, the day and the coach's own words are left out. */
  readonly forWhom: "athlete" | "lesson";
  /** In a lesson: watts as percent of the plan. Charts then show the heart only: their axis is in watts. */
  readonly asPercent: boolean;
}

/** The phrase table of the film: a lesson may say watts as a share of the plan. */
function filmWords(input: FilmInput): DebriefPhrases {
  return debriefWords(input.language, input.forWhom === "lesson" && input.asPercent ? (input.reading.bandW?.target ?? null) : null);
}

/** The same without anything that says who, when or where. */
function anonymous(input: FilmInput): FilmInput {
  const { ride, asPercent } = input;
  return {
    ...input,
    plan: { ...input.plan, title: null, rider: null, eventName: null },
    story: storyForLesson(input.story, asPercent),
    ride: asPercent ? { ...ride, grid: { ...ride.grid, power30sW: null } } : ride,
    titleLines: [],
    riderName: null,
  };
}

const MOST_SHOTS = 6;
const LEAST_SHOT_S = 6;
/** One shot says one thing: longer, and the next is forgotten; common practice, no source. */
const LONGEST_SHOT_S = 24;
const HANDLE_BEFORE_S = 4;
const HANDLE_AFTER_S = 3;
/** Ride before the shot that its thread shows, s. */
const PAGE_BEFORE_S = 60;
const CAPTION_LEAST_S = 3;
const CAPTION_MOST_S = 6;
const CARD_S = { title: 4, plan: 5, heart: 9, moment: 7, change: 6, closing: 8 };
/** How fast a kind may run: a long steady or broken stretch is told better sped up, a single slip is not. */
const MOST_SPEED: Readonly<Record<string, number>> = { steadyStretch: 8, breakRun: 8, lapse: 4, hardUpCoastOver: 4, cadenceBlock: 8 };

interface Chosen {
  readonly index: number;
  readonly moment: Moment;
  readonly role: "held" | "taught" | "onset" | "picked";
}

/** What the picture must show, and from where it starts. */
function wantedSpan(moment: Moment, onsetS: number | null): WantedSpan {
  if (moment.kind === "driftOnset" && onsetS !== null) return { startS: onsetS, endS: onsetS + 1, focusS: onsetS };
  if (moment.kind === "steadyStretch") {
    const middleS = (moment.startS + moment.endS) / 2;
    return { startS: moment.startS, endS: moment.endS, focusS: middleS };
  }
  return { startS: moment.startS - HANDLE_BEFORE_S, endS: moment.endS + HANDLE_AFTER_S, focusS: moment.startS };
}

/** The clip that shows a moment, and the focus moved to where it is filmed for a stretch that is filmed in part. */
function filmed(placed: readonly PlacedClip[], moment: Moment, onsetS: number | null): { clip: PlacedClip; wanted: WantedSpan } | null {
  const wanted = wantedSpan(moment, onsetS);
  // A whole frame more than the least, since a shot is whole frames.
  const long = (clip: PlacedClip): boolean => clip.clip.durationS >= LEAST_SHOT_S + 0.1;
  const usable = placed.filter(long);
  const focused = clipFor(usable, wanted);
  if (focused !== null) return { clip: focused, wanted };
  if (moment.kind !== "steadyStretch") return null;
  const inside = usable
    .map((clip) => ({ clip, fromS: Math.max(clip.startS, wanted.startS), toS: Math.min(clip.endS, wanted.endS) }))
    .filter((part) => part.toS - part.fromS >= LEAST_SHOT_S)
    .sort((a, b) => b.toS - b.fromS - (a.toS - a.fromS))[0];
  if (inside === undefined) return null;
  return { clip: inside.clip, wanted: { startS: inside.fromS, endS: inside.toS, focusS: (inside.fromS + inside.toS) / 2 } };
}

/** The lowest of 1, 2, 4, 8 at which the wanted span fits, within what the kind bears and the clip holds. */
function speedFor(wanted: WantedSpan, filmS: number, clip: PlacedClip, most: number): number {
  const clipS = clip.endS - clip.startS;
  let speed = 1;
  while (speed < most && (wanted.endS - wanted.startS) / speed > filmS && clipS >= filmS * speed * 2) speed *= 2;
  return speed;
}

/** At most two captions, each 3 to 6 s, one after the other. */
function captionsOver(texts: readonly string[], filmS: number): Caption[] {
  const count = Math.min(texts.length, 2, Math.floor(filmS / CAPTION_LEAST_S));
  return texts.slice(0, count).map((text, index) => {
    const startS = (index * filmS) / count;
    return { startS, endS: startS + Math.min(CAPTION_MOST_S, filmS / count), text };
  });
}

function makeShot(input: FilmInput, chosen: Chosen, place: { clip: PlacedClip; wanted: WantedSpan }, wishedS: number, why: string): Shot {
  const { clip, wanted } = place;
  const rate = input.shape.frameRate;
  const most = MOST_SPEED[chosen.moment.kind] ?? 1;
  const clipS = (clip.endS - clip.startS) / clip.clock.rate;
  const perSecond = rate.num / rate.den;
  const leastFrames = Math.ceil(LEAST_SHOT_S * perSecond - 1e-9);
  const filmS = Math.max(leastFrames, Math.floor(Math.min(wishedS, clipS) * perSecond)) / perSecond;
  const speed = speedFor(wanted, filmS, clip, most);
  const spanS = filmS * speed * clip.clock.rate;
  const wantedS = wanted.endS - wanted.startS;
  // Spare time is shared out around what is wanted; where it does not fit, a stretch keeps its middle, a slip its start.
  const spareS = spanS - wantedS;
  const centred = chosen.moment.kind === "steadyStretch" || chosen.moment.kind === "driftOnset";
  let startS = wanted.startS - (spareS > 0 || centred ? spareS / 2 : 0);
  startS = Math.max(clip.startS, Math.min(startS, clip.endS - spanS));
  const mediaStartS = Math.max(0, (startS - clip.clock.offsetS) / clip.clock.rate);
  return {
    type: "shot",
    id: `moment-${chosen.index}`,
    clipId: clip.clip.id,
    mediaStartS,
    mediaEndS: mediaStartS + filmS * speed,
    speed,
    freezes: [],
    captions: captionsOver(filmWords(input).film.caption(momentFacts(input.ride, input.reading, chosen.moment)), filmS),
    drawings: [],
    pageStartS: Math.max(0, startS - PAGE_BEFORE_S),
    pageEndS: startS + spanS,
    clock: clip.clock,
    moment: chosen.index,
    riderName: input.riderName,
    why,
    commentPath: null,
    crossfadeS: 0,
  };
}

/** What held, then up to three of what is taught, then the onset; or the coach's picks in ride order. */
function choose(input: FilmInput, placed: readonly PlacedClip[]): Chosen[] {
  const { reading, story } = input;
  const all = reading.moments.map((moment, index) => ({ moment, index }));
  if (input.picks !== null)
    return input.picks
      .flatMap((index): Chosen[] => (all[index] === undefined ? [] : [{ ...all[index], role: "picked" }]))
      .sort((a, b) => a.moment.startS - b.moment.startS);
  const open = all.filter(({ moment }) => !moment.coachOnly);
  const seen = (moment: Moment): number => (filmed(placed, moment, reading.drift.onsetS) === null ? 1 : 0);
  const byRank = (a: { moment: Moment }, b: { moment: Moment }): number => seen(a.moment) - seen(b.moment) || a.moment.rank - b.moment.rank;
  const held = open.filter(({ moment }) => story.held.kind === "stretch" && moment.kind === "steadyStretch" && moment.startS === story.held.startS);
  const kinds = TEACHING_KINDS[story.teaching];
  const main = (one: { moment: Moment }): number => (one.moment.kind === kinds[0] ? 0 : 1);
  const taught = open.filter(({ moment }) => kinds.includes(moment.kind)).sort((a, b) => main(a) - main(b) || byRank(a, b));
  const onset = story.onsetS === null ? [] : open.filter(({ moment }) => moment.kind === "driftOnset");
  return [
    ...held.slice(0, 1).map((one): Chosen => ({ ...one, role: "held" })),
    ...taught.slice(0, 3).map((one): Chosen => ({ ...one, role: "taught" })),
    ...onset.slice(0, 1).map((one): Chosen => ({ ...one, role: "onset" })),
  ];
}

/** Shares `totalS` among items as evenly as their most allows. */
function share(totalS: number, mosts: readonly number[]): number[] {
  const given = mosts.map(() => 0);
  let leftS = Math.max(0, totalS);
  let open = mosts.map((_, index) => index);
  while (open.length > 0 && leftS > 1e-6) {
    const eachS = leftS / open.length;
    for (const index of open) {
      const more = Math.min(eachS, mosts[index]! - given[index]!);
      given[index]! += more;
      leftS -= more;
    }
    open = open.filter((index) => given[index]! < mosts[index]! - 1e-6);
  }
  return given;
}

/**
 * The automatic film. Order: title, plan, something that held, what broke (the one teaching point), where the heart
 * began to climb, the chart of power and heart, the one thing to change, the next ride. At most six shots, none under
 * 6 s; a moment that no camera saw is a chart card; without clips the film is all cards. Every item says why it is in
 * and `leftOut` what is not and why. Lengths are whole frames.
 */
export function chooseFilm(given: FilmInput): Film {
  const input = given.forWhom === "lesson" ? anonymous(given) : given;
  const { ride, plan, reading, story, shape } = input;
  const words = filmWords(input);
  const leftOut: string[] = [];
  const placed = placedClips(input.clips, input.lineup, input.acceptUnsure);
  for (const clip of input.clips) {
    if (placed.some((one) => one.clip.id === clip.id)) continue;
    const placement = input.lineup.clips.find((one) => one.clipId === clip.id);
    leftOut.push(words.film.leftOut({ kind: "clip", file: clip.fileName, because: placement?.clock == null ? "not placed" : "not sure" }));
  }

  const card = (id: string, wishedS: number, made: CardItem["card"] | null, why: WhyFacts, moment: number | null = null): CardItem[] =>
    made === null ? [] : [cardItem(id, wholeFramesS(wishedS, shape.frameRate), made, words.film.why(why), moment)];
  const title = card("title", CARD_S.title, titleCard(plan, input.titleLines, words), { kind: "title" });
  let planItems = card("plan", CARD_S.plan, planCard(plan, reading, words), { kind: "plan" });
  const heart = card("heart", CARD_S.heart, heartCard(ride, reading, words), { kind: "heart" });
  const change = card("change", CARD_S.change, story.teaching === "nothing" && story.words.change === null ? null : changeCard(story, words), { kind: "change" });
  const closing = card("closing", CARD_S.closing, closingCard(story, words), { kind: "closing" });

  const place = (one: Chosen): ReturnType<typeof filmed> => filmed(placed, one.moment, reading.drift.onsetS);
  const leastS = (one: Chosen): number => (place(one) === null ? CARD_S.moment : LEAST_SHOT_S);
  const because = new Map<number, "shots" | "length">();
  let chosen = choose(input, placed);
  const shots = chosen.filter((one) => place(one) !== null);
  for (const extra of shots.slice(MOST_SHOTS)) because.set(extra.index, "shots");
  chosen = chosen.filter((one) => !because.has(one.index));
  const fixedS = (): number =>
    [...title, ...planItems, ...heart, ...change, ...closing].reduce((sum, item) => sum + item.durationS, 0);
  const needS = (): number => fixedS() + chosen.reduce((sum, one) => sum + leastS(one), 0);
  if (needS() > input.lengthS) planItems = [];
  while (needS() > input.lengthS && chosen.length > 1 && input.picks === null) {
    // The last of what is taught goes first, then the onset (the chart tells it too); one moment always stays.
    const drop = chosen.filter((one) => one.role === "taught").slice(1).at(-1) ?? chosen.findLast((one) => one.role !== "taught") ?? chosen.at(-1)!;
    because.set(drop.index, "length");
    chosen = chosen.filter((one) => one !== drop);
  }

  const cardsS = chosen.filter((one) => place(one) === null).length * CARD_S.moment;
  const toShoot = chosen.filter((one) => place(one) !== null);
  const spareS = Math.max(0, input.lengthS - fixedS() - cardsS - toShoot.length * LEAST_SHOT_S);
  const extraS = share(spareS, toShoot.map(() => LONGEST_SHOT_S - LEAST_SHOT_S));
  const items = chosen.flatMap((one): FilmItem[] => {
    const where = place(one);
    const seen = where !== null;
    const why: WhyFacts =
      one.role === "taught"
        ? { kind: "taught", momentKind: one.moment.kind, rank: one.moment.rank, filmed: seen }
        : one.role === "picked"
          ? { kind: "picked", momentKind: one.moment.kind, filmed: seen }
          : { kind: one.role, filmed: seen };
    if (where === null) {
      const made = momentCard(ride, reading, one.moment, momentFacts(ride, reading, one.moment), words);
      return card(`moment-${one.index}`, CARD_S.moment, made, why, one.index);
    }
    return [makeShot(input, one, where, LEAST_SHOT_S + (extraS[toShoot.indexOf(one)] ?? 0), words.film.why(why))];
  });

  reading.moments.forEach((moment, index) => {
    if (chosen.some((one) => one.index === index)) return;
    const reason = because.get(index) ?? (moment.coachOnly ? "coach only" : "other point");
    leftOut.push(words.film.leftOut({ kind: "moment", momentKind: moment.kind, startS: moment.startS, because: reason }));
  });

  const film: Film = { ...shape, items: [...title, ...planItems, ...items, ...heart, ...change, ...closing], leftOut };
  const last = filmTimeline(film).at(-1)!;
  const lengthS = ((last.startFrame + last.frames) * shape.frameRate.den) / shape.frameRate.num;
  if (lengthS > input.lengthS + 1)
    leftOut.push(words.film.leftOut({ kind: "over length", lengthS, wishedS: input.lengthS }));
  return film;
}
