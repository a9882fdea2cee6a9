import type { Moment } from "../contract/reading.ts";
import { type PlacedClip } from "./filmedSpan.ts";
import { TEACHING_KINDS, surgesByCost, teaches } from "./tellStory.ts";
import { type FilmInput } from "./filmInput.ts";
import { placeOf } from "./filmedMoments.ts";

/** A moment that the film tells, and as what. */
export interface Chosen {
  readonly index: number;
  readonly moment: Moment;
  readonly role: "held" | "taught" | "onset" | "picked" | "marked";
}

/** What held, up to three of what is taught, the coach's picks in ride order, the onset, and the rider's own mark. */
export function chooseMoments(input: FilmInput, placed: readonly PlacedClip[]): Chosen[] {
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
