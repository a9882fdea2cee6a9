import type { CardItem, Film, FilmItem } from "../contract/film.ts";
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
import { type PlacedClip, placedClips } from "./filmedSpan.ts";
import type { FilmShape } from "./filmShape.ts";
import { wholeFramesS } from "./frameGrid.ts";
import { LEAST_SHOT_S, filmed, makeShot, mostShotS } from "./makeShot.ts";
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
const CARD_S = { title: 4, plan: 5, heart: 9, moment: 7, change: 6, closing: 8 };

interface Chosen {
  readonly index: number;
  readonly moment: Moment;
  readonly role: "held" | "taught" | "onset" | "picked" | "marked";
}

/** What held, up to three of what is taught, the onset, and the rider's own mark; or the coach's picks in ride order. */
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
  const taught = open.filter(({ moment }) => kinds.includes(moment.kind)).sort((a, b) => main(a) - main(b) || byRank(a, b))
    // A chart of a second example teaches less than the time it takes, where the first can be seen.
    .filter((one, index, all) => index === 0 || seen(one.moment) === 0 || all.every((other) => seen(other.moment) === 1));
  // The rider's own mark is seen where a camera saw it; a chart of it would say nothing.
  const marked = open.filter(({ moment }) => moment.kind === "marked" && seen(moment) === 0);
  const onset = story.onsetS === null ? [] : open.filter(({ moment }) => moment.kind === "driftOnset");
  return [
    ...held.slice(0, 1).map((one): Chosen => ({ ...one, role: "held" })),
    ...taught.slice(0, 3).map((one): Chosen => ({ ...one, role: "taught" })),
    ...onset.slice(0, 1).map((one): Chosen => ({ ...one, role: "onset" })),
    ...marked.slice(0, 1).map((one): Chosen => ({ ...one, role: "marked" })),
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
      const more = Math.min(eachS, mosts[index] - given[index]);
      given[index] += more;
      leftS -= more;
    }
    open = open.filter((index) => given[index] < mosts[index] - 1e-6);
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
    leftOut.push(words.film.leftOut({ kind: "clip", file: clip.fileName, because: (placement?.clock ?? null) === null ? "not placed" : "not sure" }));
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
    // The rider's mark goes first, then the last of what is taught, then the onset (the chart tells it too); one moment always stays.
    const drop = chosen.find((one) => one.role === "marked") ?? chosen.filter((one) => one.role === "taught").slice(1).at(-1) ?? chosen.findLast((one) => one.role !== "taught") ?? chosen.at(-1)!;
    because.set(drop.index, "length");
    chosen = chosen.filter((one) => one !== drop);
  }

  const cardsS = chosen.filter((one) => place(one) === null).length * CARD_S.moment;
  const toShoot = chosen.filter((one) => place(one) !== null);
  const spareS = Math.max(0, input.lengthS - fixedS() - cardsS - toShoot.length * LEAST_SHOT_S);
  const extraS = share(spareS, toShoot.map((one) => mostShotS(place(one)!) - LEAST_SHOT_S));
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
    const captions = words.film.caption(momentFacts(ride, reading, one.moment));
    const wishedS = LEAST_SHOT_S + (extraS[toShoot.indexOf(one)] ?? 0);
    return [makeShot({ ...one, place: where, wishedS, frameRate: shape.frameRate, captions, riderName: input.riderName, why: words.film.why(why) })];
  });

  reading.moments.forEach((moment, index) => {
    if (chosen.some((one) => one.index === index)) return;
    const reason = because.get(index) ?? (moment.coachOnly ? "coach only" : TEACHING_KINDS[story.teaching].includes(moment.kind) ? "same point" : "other point");
    leftOut.push(words.film.leftOut({ kind: "moment", momentKind: moment.kind, startS: moment.startS, because: reason }));
  });

  const film: Film = { ...shape, items: [...title, ...planItems, ...items, ...heart, ...change, ...closing], leftOut };
  const last = filmTimeline(film).at(-1)!;
  const lengthS = ((last.startFrame + last.frames) * shape.frameRate.den) / shape.frameRate.num;
  if (lengthS > input.lengthS + 1)
    leftOut.push(words.film.leftOut({ kind: "over length", lengthS, wishedS: input.lengthS }));
  return film;
}
