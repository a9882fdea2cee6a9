import type { CardItem, FilmItem, MomentKey } from "../contract/film.ts";
import type { Moment } from "../contract/reading.ts";
import { cardItem, momentCard } from "./filmCards.ts";
import { type PlacedClip, placedClips } from "./filmedSpan.ts";
import { wholeFramesS } from "./frameGrid.ts";
import { captionsSaying, type FilmedMoment, filmed, makeShot, mostShotS, onsetSpan, rideSpan } from "./makeShot.ts";
import { momentFacts, withPause } from "./momentFacts.ts";
import { toldKind } from "../../overlay/words/debriefStory.ts";
import { type FilmInput, anonymous, chartSource, filmWords } from "./filmInput.ts";

/** How long a moment's chart is shown, s. */
export const MOMENT_CARD_S = 7;
/** A shot that a coach adds, s, where its clip allows; common practice, no source. */
const USUAL_SHOT_S = 12;
/** Id of the shot of pressure that held, where it is no moment of the reading. */
export const HOLD_ID = "held";

/** Where a moment is filmed, with what must be seen with it; null where no camera saw it. */
export function placeOf({ reading }: FilmInput, placed: readonly PlacedClip[], moment: Moment): FilmedMoment | null {
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
  const kind = toldKind(input.story, moment.kind);
  const told = (of?: { startS: number; endS: number }) => ({
    ...momentFacts(ride, reading, input.story.facts, moment, of),
    kind,
  });
  const span = shown === undefined ? undefined : { startS: shown[0], endS: shown[1] };
  return {
    captions: words.film.caption(told(span)),
    card: momentCard(chartSource(input), moment, told(), wish?.name ?? words.momentName(kind), words),
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
  const { meanW } = momentFacts(ride, reading, input.story.facts, span);
  // Some seconds of a stretch that was at the plan may have another mean than the plan's: that is no figure for praise.
  const { bandW } = reading;
  const atPlan =
    meanW === null ||
    bandW === null ||
    input.blocks.length > 0 ||
    (Math.round(meanW) >= Math.round(bandW.low) && Math.round(meanW) <= Math.round(bandW.high));
  return filmWords(input).film.holdCaption(input.story, atPlan ? meanW : null);
}

/** The shot of pressure that held over a span which is no moment of the reading. */
export function holdShot(input: FilmInput, hold: FilmedMoment, wishedS: number, why: string): FilmItem {
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
export function momentItem(
  input: FilmInput,
  index: number,
  where: FilmedMoment | null,
  wishedS: number,
  why: string,
): FilmItem {
  const { captions, card, key } = momentWords(input, index);
  const { frameRate } = input.shape;
  const { kind, comment } = input.reading.moments[index]!;
  const spoken = comment === undefined ? {} : { commentPath: comment.path, commentS: comment.lengthS };
  if (where === null) {
    const chart = cardItem(`moment-${index}`, wholeFramesS(MOMENT_CARD_S, frameRate), card, why, { index, key });
    return { ...chart, ...spoken };
  }
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
  return { ...shot, ...captionsSaying(shot.captions, momentWords(input, index, rideSpan(shot)).captions), ...spoken };
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
