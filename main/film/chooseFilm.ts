import type { CardItem, Film, FilmItem } from "../contract/film.ts";
import type { WhyFacts } from "../../overlay/words/debriefPhrases.ts";
import { againLine } from "../../overlay/words/againWords.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import {
  cardItem,
  changeCard,
  closingCard,
  compareCard,
  heartCard,
  planCard,
  titleCard,
  withShownOnChart,
} from "./filmCards.ts";
import { placedClips } from "./filmedSpan.ts";
import { wholeFramesS } from "./frameGrid.ts";
import { type FilmedMoment, LEAST_SHOT_S, filmedHold, mostShotS } from "./makeShot.ts";
import { teaches } from "./tellStory.ts";
import { type FilmInput, anonymous, chartSource, filmWords } from "./filmInput.ts";
import { MOMENT_CARD_S, holdShot, momentItem, placeOf } from "./filmedMoments.ts";
import { type Chosen, chooseMoments } from "./chooseMoments.ts";

const MOST_SHOTS = 6;
/** Long enough to be seen as one, short enough to hide nothing, s; common practice, no source. */
const CROSSFADE_S = 0.4;
/** Enough to see that it held, s. */
const HOLD_SHOT_S = 9;
/** What went well was the plan, so that pressure, or a heart, in its band shows it. */
const AT_THE_PLAN = new Set(["hour", "share", "better"]);
const CARD_S = { title: 4, plan: 5, heart: 9, compare: 6, change: 7, closing: 9 };

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
    compare: compareCard(story, words, againLine(story.facts, input.language, plan.units)),
    change:
      ["nothing", "rest"].includes(story.teaching) && story.words.change === null ? null : changeCard(story, words),
    closing: closingCard(story, words),
  };
}

function isPair(item: FilmItem): boolean {
  return item.type === "card" && item.card.kind === "pair";
}

/** From page to picture and back the film fades, not into two pictures at once; between shots it cuts, since each is another place and time. */
function withCrossfades(items: readonly FilmItem[]): FilmItem[] {
  return items.map((item, at) =>
    at > 0 && items[at - 1]!.type !== item.type && !isPair(item) && !isPair(items[at - 1]!)
      ? { ...item, crossfadeS: CROSSFADE_S }
      : item,
  );
}

/**
 * The automatic film. Order: title, plan, something that held, what broke (the one teaching point), where the heart
 * began to climb, the chart of power and heart, the one thing to change, the next ride. At most six shots, none under
 * 6 s; a moment that no camera saw is a chart card; without clips the film is all cards. Where the rider's note comes
 * first, it shows the ride, teaches nothing and ends with rest. Every item says why it is in and `leftOut` what is not
 * and why. Lengths are whole frames.
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
  // A ride ridden unwell is shown beside no other.
  let beside = story.teaching === "rest" ? [] : (input.beside ?? []);
  const compare = card("compare", CARD_S.compare, cards.compare, { kind: "compare" });
  const change = card("change", CARD_S.change, cards.change, { kind: "change" });
  const closing = card("closing", CARD_S.closing, cards.closing, { kind: "closing" });

  const place = (one: Chosen): FilmedMoment | null => placeOf(input, placed, one.moment);
  const leastS = (one: Chosen): number => (place(one) === null ? MOMENT_CARD_S : LEAST_SHOT_S);
  const because = new Map<number, "shots" | "length">();
  let chosen = chooseMoments(input, placed);
  const kept = (one: Chosen): boolean => input.wishes[one.index]?.keep === true;
  // The coach's own picks come before the story's where six are too few.
  const shots = [...chosen.filter(kept), ...chosen.filter((one) => !kept(one))].filter((one) => place(one) !== null);
  for (const extra of shots.slice(MOST_SHOTS)) because.set(extra.index, "shots");
  chosen = chosen.filter((one) => !because.has(one.index));
  // Where the reading has no long steady stretch, a filmed piece of pressure that held comes first all the same.
  const shownSpans = chosen.flatMap((one) => place(one)?.wanted ?? []);
  const hold =
    chosen.some(({ role }) => role === "held") || (story.teaching === "nothing" && !AT_THE_PLAN.has(story.held.kind))
      ? null
      : filmedHold(placed, reading.columns.pressureState, shownSpans);
  let holdS = hold === null ? 0 : Math.min(HOLD_SHOT_S, mostShotS(hold, "steadyStretch"));
  const fixedS = (): number =>
    [...title, ...planItems, ...beside, ...heart, ...compare, ...change, ...closing].reduce(
      (sum, item) => sum + item.durationS,
      0,
    ) + holdS;
  const needS = (): number => fixedS() + chosen.reduce((sum, one) => sum + leastS(one), 0);
  if (needS() > input.lengthS) planItems = [];
  if (needS() > input.lengthS) beside = [];
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

  const cardsS = chosen.filter((one) => place(one) === null).length * MOMENT_CARD_S;
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
          : story.teaching === "rest"
            ? "note"
            : teaches(story.teaching, moment, story.facts)
              ? "same point"
              : "other point");
    leftOut.push(
      words.film.leftOut({ kind: "moment", momentKind: moment.kind, startS: moment.startS, because: reason }),
    );
  });

  const held: FilmItem[] =
    hold === null || holdS === 0 ? [] : [holdShot(input, hold, holdS, words.film.why({ kind: "held", filmed: true }))];
  const all = withCrossfades([
    ...title,
    ...planItems,
    ...held,
    ...items,
    ...compare,
    ...beside,
    ...heart,
    ...change,
    ...closing,
  ]);
  const film: Film = { ...shape, items: withShownOnChart(all, { ...shape, leftOut }, reading), leftOut };
  const { lengthS } = filmClock(film);
  if (lengthS > input.lengthS + 1)
    leftOut.push(words.film.leftOut({ kind: "over length", lengthS, wishedS: input.lengthS }));
  return film;
}
