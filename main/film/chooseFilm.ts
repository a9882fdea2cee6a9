import type { Language } from "../contract/languageAndUnits.ts";
import type { ForWhom } from "../contract/presets.ts";
import type { CardItem, Film, FilmItem, MomentKey } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Lineup } from "../contract/lineup.ts";
import type { Plan, PlannedBlock } from "../contract/plan.ts";
import type { Moment, Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import type { DebriefPhrases, WhyFacts } from "../../overlay/words/debriefPhrases.ts";
import { type DebriefStory, storyForLesson } from "../../overlay/words/debriefStory.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import {
  cardItem,
  changeCard,
  closingCard,
  compareCard,
  heartCard,
  momentCard,
  planCard,
  titleCard,
  withShownOnChart,
  type ChartSource,
} from "./filmCards.ts";
import { type PlacedClip, placedClips } from "./filmedSpan.ts";
import type { FilmShape } from "./filmShape.ts";
import { wholeFramesS } from "./frameGrid.ts";
import {
  captionsSaying,
  type FilmedMoment,
  LEAST_SHOT_S,
  filmed,
  filmedHold,
  makeShot,
  mostShotS,
  onsetSpan,
  rideSpan,
} from "./makeShot.ts";
import { momentFacts, withPause } from "./momentFacts.ts";
import { TEACHING_KINDS, surgesByCost, teaches } from "./tellStory.ts";

export interface FilmInput {
  readonly ride: Ride;
  readonly plan: Plan;
  readonly reading: Reading;
  /** What the plan's blocks ask for. */
  readonly blocks: readonly PlannedBlock[];
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
  /** What the coach said about each moment of the reading, in its order; none: the story picks alone. */
  readonly wishes: readonly MomentWish[];
  /** True: clips whose place is not sure may be shown too. */
  readonly acceptUnsure: boolean;
  /** Whose numbers; null when there is one rider. */
  readonly riderName: string | null;
  /** `lesson`: for others; names, the day and the coach's own words are left out. */
  readonly forWhom: ForWhom;
  /** In a lesson: watts as percent of the plan, where the plan has a target. */
  readonly asPercent: boolean;
}

/** What a coach said about one moment. */
export interface MomentWish {
  /** By which the moment is known again; missing: by its kind and start as they stand. */
  readonly key?: MomentKey;
  /** True: in the film. False: not. Null: the story decides. */
  readonly keep: boolean | null;
  /** The coach's own name for it, or null. */
  readonly name: string | null;
}

/** The phrase table of the film: a lesson may say watts as a share of the plan. */
function filmWords(input: FilmInput): DebriefPhrases {
  return debriefWords(input.language, percentOfW(input), input.forWhom);
}

/** The watts that are 100 % where a lesson says power as a share; null: watts are said. */
function percentOfW(input: FilmInput): number | null {
  return input.forWhom === "lesson" && input.asPercent ? (input.reading.bandW?.target ?? null) : null;
}

/** What the charts of a film are drawn from. */
function chartSource(input: FilmInput): ChartSource {
  const { ride, plan, reading, blocks, forWhom } = input;
  return { ride, plan, reading, blocks, percentOfW: percentOfW(input), ground: forWhom === "athlete" };
}

/** The same without anything that says who, when or where. */
export function anonymous(input: FilmInput): FilmInput {
  return {
    ...input,
    plan: { ...input.plan, title: filmWords(input).film.lessonTitle, rider: null, eventName: null },
    story: storyForLesson(input.story, input.asPercent),
    wishes: input.wishes.map((wish) => ({ ...wish, name: null })),
    titleLines: [],
    riderName: null,
  };
}

const MOST_SHOTS = 6;
/** A shot that a coach adds, s, where its clip allows; common practice, no source. */
const USUAL_SHOT_S = 12;
/** Long enough to be seen as one, short enough to hide nothing, s; common practice, no source. */
const CROSSFADE_S = 0.4;
/** Enough to see that it held, s. */
const HOLD_SHOT_S = 9;
/** Id of the shot of pressure that held, where it is no moment of the reading. */
export const HOLD_ID = "held";
const CARD_S = { title: 4, plan: 5, heart: 9, moment: 7, compare: 6, change: 7, closing: 9 };

interface Chosen {
  readonly index: number;
  readonly moment: Moment;
  readonly role: "held" | "taught" | "onset" | "picked" | "marked";
}

/** What held, up to three of what is taught, the coach's picks in ride order, the onset, and the rider's own mark. */
function choose(input: FilmInput, placed: readonly PlacedClip[]): Chosen[] {
  const { reading, story } = input;
  const all = reading.moments.map((moment, index) => ({ moment, index }));
  const keepOf = (index: number): boolean | null => input.wishes[index]?.keep ?? null;
  const open = all.filter(
    ({ moment, index }) => keepOf(index) !== false && (!moment.coachOnly || keepOf(index) === true),
  );
  const seen = (moment: Moment): number => (placeOf(input, placed, moment) === null ? 1 : 0);
  const byRank = (a: { moment: Moment }, b: { moment: Moment }): number =>
    seen(a.moment) - seen(b.moment) || a.moment.rank - b.moment.rank;
  // The hour and the share at the plan are seen in the stretch that was steadiest.
  const held = open.filter(
    ({ moment }) =>
      moment.kind === "steadyStretch" &&
      (story.held.kind === "hour" ||
        story.held.kind === "share" ||
        (story.held.kind === "stretch" && moment.startS === story.held.startS)),
  );
  const kinds = TEACHING_KINDS[story.teaching];
  // What the sentence gives as its example is the evidence that fits it best.
  const dearest = surgesByCost(input.ride, reading, story.facts, reading.moments).map(({ moment }) => moment);
  const main = ({ moment }: { moment: Moment }): number => (moment.kind === kinds[0] ? 0 : 1);
  const cost = ({ moment }: { moment: Moment }): number =>
    story.example?.startS === moment.startS ? -1 : dearest.indexOf(moment);
  const taught = open
    .filter(({ moment }) => teaches(story.teaching, moment, story.facts))
    .sort((a, b) => main(a) - main(b) || seen(a.moment) - seen(b.moment) || cost(a) - cost(b) || byRank(a, b))
    // A chart of a second example teaches less than the time it takes, where the first can be seen.
    .filter(
      (one, index, all) => index === 0 || seen(one.moment) === 0 || all.every((other) => seen(other.moment) === 1),
    );
  // The rider's own mark is seen where a camera saw it; a chart of it would say nothing.
  const marked = open.filter(({ moment }) => moment.kind === "marked" && seen(moment) === 0);
  const onset = story.onsetS === null ? [] : open.filter(({ moment }) => moment.kind === "driftOnset");
  const told: Chosen[] = [
    ...held.slice(0, 1).map((one): Chosen => ({ ...one, role: "held" })),
    ...taught.slice(0, 3).map((one): Chosen => ({ ...one, role: "taught" })),
    ...onset.slice(0, 1).map((one): Chosen => ({ ...one, role: "onset" })),
    ...marked.slice(0, 1).map((one): Chosen => ({ ...one, role: "marked" })),
  ];
  const picked = open
    .filter(({ index }) => keepOf(index) === true && told.every((one) => one.index !== index))
    .sort((a, b) => a.moment.startS - b.moment.startS)
    .map((one): Chosen => ({ ...one, role: "picked" }));
  const before = told.filter(({ role }) => role === "held" || role === "taught");
  // Where the heart began to climb and what the rider felt then: in the order of the ride.
  const after = told.filter((one) => !before.includes(one)).sort((a, b) => a.moment.startS - b.moment.startS);
  return [...before, ...picked, ...after];
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

/** The cards that tell the story; null where there is nothing to say. */
export function storyCards(
  input: FilmInput,
): Readonly<Record<"title" | "plan" | "heart" | "compare" | "change" | "closing", CardItem["card"] | null>> {
  const { plan, reading, story } = input;
  const words = filmWords(input);
  return {
    title: titleCard(plan, input.titleLines, words),
    plan: planCard(plan, reading, story, words),
    heart: heartCard(chartSource(input), story, words),
    compare: compareCard(story, words),
    change: story.teaching === "nothing" && story.words.change === null ? null : changeCard(story, words),
    closing: closingCard(story, words),
  };
}

/** Where a moment is filmed, with what must be seen with it; null where no camera saw it. */
function placeOf({ reading }: FilmInput, placed: readonly PlacedClip[], moment: Moment): FilmedMoment | null {
  return filmed(placed, withPause(reading, moment), onsetSpan(reading.drift));
}

/**
 * What the film says of a moment, and its chart for where no camera saw it.
 * @param shown ride that its shot shows, s: every figure said is of that
 */
export function momentWords(
  input: FilmInput,
  index: number,
  shown?: readonly [number, number],
): { readonly captions: readonly string[]; readonly card: CardItem["card"]; readonly key: MomentKey } {
  const { ride, reading } = input;
  const words = filmWords(input);
  const moment = reading.moments[index]!;
  const wish = input.wishes[index];
  const facts = momentFacts(ride, reading, input.story.facts, moment);
  const span = shown === undefined ? undefined : { startS: shown[0], endS: shown[1] };
  return {
    captions: words.film.caption(momentFacts(ride, reading, input.story.facts, moment, span)),
    card: momentCard(chartSource(input), moment, facts, wish?.name ?? words.momentName(moment.kind), words),
    key: wish?.key ?? { kind: moment.kind, startS: moment.startS },
  };
}

/**
 * What the film says of pressure that held over a span of the ride which is no moment of the reading: its captions
 * speak of the story, its power is that of the span.
 */
export function holdWords(input: FilmInput, startS: number, endS: number): readonly string[] {
  const { ride, reading } = input;
  const span: Moment = {
    kind: "steadyStretch",
    startS,
    endS,
    reason: "pressure held",
    excused: null,
    rank: 0,
    numbers: {},
    setBy: "computed",
    coachOnly: false,
  };
  return filmWords(input).film.holdCaption(input.story, momentFacts(ride, reading, input.story.facts, span).meanW);
}

function holdShot(input: FilmInput, hold: FilmedMoment, wishedS: number, why: string): FilmItem {
  const { frameRate } = input.shape;
  const { startS, endS } = hold.wanted;
  const shot = makeShot({
    id: HOLD_ID,
    kind: "steadyStretch",
    about: null,
    place: hold,
    wishedS,
    frameRate,
    captions: holdWords(input, startS, endS),
    riderName: input.riderName,
    why,
  });
  // What is said is of what is shown.
  return { ...shot, ...captionsSaying(shot.captions, holdWords(input, ...rideSpan(shot))) };
}

/** A moment as a shot where it was filmed, else as a chart. */
function momentItem(
  input: FilmInput,
  index: number,
  where: FilmedMoment | null,
  wishedS: number,
  why: string,
): FilmItem {
  const { captions, card, key } = momentWords(input, index);
  const { frameRate } = input.shape;
  if (where === null)
    return cardItem(`moment-${index}`, wholeFramesS(CARD_S.moment, frameRate), card, why, { index, key });
  const { kind } = input.reading.moments[index]!;
  const shot = makeShot({
    id: `moment-${index}`,
    kind,
    about: { index, key },
    place: where,
    wishedS,
    frameRate,
    captions,
    riderName: input.riderName,
    why,
  });
  // What is said is of what is shown.
  return { ...shot, ...captionsSaying(shot.captions, momentWords(input, index, rideSpan(shot)).captions) };
}

/** One shot or card for a moment the coach adds to a film. Null for an index the reading does not have. */
export function itemForMoment(given: FilmInput, index: number): FilmItem | null {
  const input = given.forWhom === "lesson" ? anonymous(given) : given;
  const moment = input.reading.moments[index];
  if (moment === undefined) return null;
  const where = placeOf(input, placedClips(input.clips, input.lineup, input.acceptUnsure), moment);
  const why = filmWords(input).film.why({ kind: "picked", momentKind: moment.kind, filmed: where !== null });
  const wishedS = where === null ? 0 : Math.min(mostShotS(where, moment.kind), USUAL_SHOT_S);
  return momentItem(input, index, where, wishedS, why);
}

/** From page to picture and back the film fades; between shots it cuts, since each is another place and time. */
function withCrossfades(items: readonly FilmItem[]): FilmItem[] {
  return items.map((item, at) =>
    at > 0 && items[at - 1]!.type !== item.type ? { ...item, crossfadeS: CROSSFADE_S } : item,
  );
}

/**
 * The automatic film. Order: title, plan, something that held, what broke (the one teaching point), where the heart
 * began to climb, the chart of power and heart, the one thing to change, the next ride. At most six shots, none under
 * 6 s; a moment that no camera saw is a chart card; without clips the film is all cards. Every item says why it is in
 * and `leftOut` what is not and why. Lengths are whole frames.
 */
export function chooseFilm(given: FilmInput): Film {
  const input = given.forWhom === "lesson" ? anonymous(given) : given;
  const { reading, story, shape } = input;
  const words = filmWords(input);
  const leftOut: string[] = [];
  const placed = placedClips(input.clips, input.lineup, input.acceptUnsure);
  for (const clip of input.clips) {
    if (placed.some((one) => one.clip.id === clip.id)) continue;
    const placement = input.lineup.clips.find((one) => one.clipId === clip.id);
    leftOut.push(
      words.film.leftOut({
        kind: "clip",
        file: clip.fileName,
        because: (placement?.found ?? null) === null ? "not placed" : "not sure",
      }),
    );
  }

  const card = (id: string, wishedS: number, made: CardItem["card"] | null, why: WhyFacts): CardItem[] =>
    made === null ? [] : [cardItem(id, wholeFramesS(wishedS, shape.frameRate), made, words.film.why(why))];
  const cards = storyCards(input);
  const title = card("title", CARD_S.title, cards.title, { kind: "title" });
  let planItems = card("plan", CARD_S.plan, cards.plan, { kind: "plan" });
  const heart = card("heart", CARD_S.heart, cards.heart, { kind: "heart" });
  const compare = card("compare", CARD_S.compare, cards.compare, { kind: "compare" });
  const change = card("change", CARD_S.change, cards.change, { kind: "change" });
  const closing = card("closing", CARD_S.closing, cards.closing, { kind: "closing" });

  const place = (one: Chosen): FilmedMoment | null => placeOf(input, placed, one.moment);
  const leastS = (one: Chosen): number => (place(one) === null ? CARD_S.moment : LEAST_SHOT_S);
  const because = new Map<number, "shots" | "length">();
  let chosen = choose(input, placed);
  const kept = (one: Chosen): boolean => input.wishes[one.index]?.keep === true;
  // The coach's own picks come before the story's where six are too few.
  const shots = [...chosen.filter(kept), ...chosen.filter((one) => !kept(one))].filter((one) => place(one) !== null);
  for (const extra of shots.slice(MOST_SHOTS)) because.set(extra.index, "shots");
  chosen = chosen.filter((one) => !because.has(one.index));
  // Where the reading has no long steady stretch, a filmed piece of pressure that held comes first all the same.
  const shownSpans = chosen.flatMap((one) => place(one)?.wanted ?? []);
  const hold =
    chosen.some(({ role }) => role === "held") || story.teaching === "nothing"
      ? null
      : filmedHold(placed, reading.columns.pressureState, shownSpans);
  let holdS = hold === null ? 0 : Math.min(HOLD_SHOT_S, mostShotS(hold, "steadyStretch"));
  const fixedS = (): number =>
    [...title, ...planItems, ...heart, ...compare, ...change, ...closing].reduce(
      (sum, item) => sum + item.durationS,
      0,
    ) + holdS;
  const needS = (): number => fixedS() + chosen.reduce((sum, one) => sum + leastS(one), 0);
  if (needS() > input.lengthS) planItems = [];
  if (needS() > input.lengthS || chosen.filter((one) => place(one) !== null).length >= MOST_SHOTS) holdS = 0;
  while (needS() > input.lengthS && chosen.length > 1) {
    // The rider's mark goes first, then the last of what is taught, then the onset (the chart tells it too); one moment always stays, and the coach's picks.
    const free = chosen.filter((one) => !kept(one));
    const drop =
      free.find((one) => one.role === "marked") ??
      free
        .filter((one) => one.role === "taught")
        .slice(1)
        .at(-1) ??
      free.findLast((one) => one.role !== "taught") ??
      free.at(-1);
    if (drop === undefined) break;
    because.set(drop.index, "length");
    chosen = chosen.filter((one) => one !== drop);
  }

  const cardsS = chosen.filter((one) => place(one) === null).length * CARD_S.moment;
  const toShoot = chosen.filter((one) => place(one) !== null);
  const spareS = Math.max(0, input.lengthS - fixedS() - cardsS - toShoot.length * LEAST_SHOT_S);
  const extraS = share(
    spareS,
    toShoot.map((one) => mostShotS(place(one)!, one.moment.kind) - LEAST_SHOT_S),
  );
  const items = chosen.flatMap((one): FilmItem[] => {
    const where = place(one);
    const seen = where !== null;
    const why: WhyFacts =
      one.role === "taught"
        ? { kind: "taught", momentKind: one.moment.kind, rank: one.moment.rank, filmed: seen }
        : one.role === "picked"
          ? { kind: "picked", momentKind: one.moment.kind, filmed: seen }
          : { kind: one.role, filmed: seen };
    return [
      momentItem(input, one.index, where, LEAST_SHOT_S + (extraS[toShoot.indexOf(one)] ?? 0), words.film.why(why)),
    ];
  });

  reading.moments.forEach((moment, index) => {
    if (chosen.some((one) => one.index === index)) return;
    const reason =
      because.get(index) ??
      (input.wishes[index]?.keep === false
        ? "dropped"
        : moment.coachOnly
          ? "coach only"
          : teaches(story.teaching, moment, story.facts)
            ? "same point"
            : "other point");
    leftOut.push(
      words.film.leftOut({ kind: "moment", momentKind: moment.kind, startS: moment.startS, because: reason }),
    );
  });

  const held: FilmItem[] =
    hold === null || holdS === 0 ? [] : [holdShot(input, hold, holdS, words.film.why({ kind: "held", filmed: true }))];
  const all = withCrossfades([...title, ...planItems, ...held, ...items, ...heart, ...compare, ...change, ...closing]);
  const film: Film = { ...shape, items: withShownOnChart(all, { ...shape, leftOut }, reading), leftOut };
  const { lengthS } = filmClock(film);
  if (lengthS > input.lengthS + 1)
    leftOut.push(words.film.leftOut({ kind: "over length", lengthS, wishedS: input.lengthS }));
  return film;
}
