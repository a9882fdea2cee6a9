import { describe, expect, test } from "vitest";
import type { CardItem, Film, Shot } from "../../main/contract/film.ts";
import type { Reading } from "../../main/contract/reading.ts";
import { chooseFilm } from "../../main/film/chooseFilm.ts";
import { itemForMoment } from "../../main/film/filmedMoments.ts";
import type { FilmInput } from "../../main/film/filmInput.ts";
import { cardWords } from "../../main/film/cardWords.ts";
import { filmShape } from "../../main/film/filmShape.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { refreshFilm } from "../../main/film/refreshFilm.ts";
import { madeClip, madeLineup, madePlan, madeReading, madeRide, madeStory } from "./madeReading.ts";
import { earlierRide } from "../overlay/support/rideBeside.ts";

const clips = [madeClip("a", 240), madeClip("b", 120)];

function input(more: Partial<FilmInput> = {}): FilmInput {
  const ride = more.ride ?? madeRide();
  const plan = more.plan ?? madePlan();
  const reading = more.reading ?? madeReading(ride);
  return {
    ride,
    plan,
    reading,
    blocks: [],
    story: madeStory(ride, plan, reading),
    clips,
    lineup: madeLineup({ a: 1740, b: 2960 }),
    lengthS: 120,
    shape: filmShape(clips, "share"),
    language: "en",
    titleLines: [],
    // The coach keeps the lapse: it is no evidence of what the story teaches.
    wishes: reading.moments.map(({ kind }) => ({ keep: kind === "lapse" ? true : null, name: null })),
    acceptUnsure: false,
    riderName: null,
    forWhom: "athlete",
    asPercent: false,
    ...more,
  };
}

/** The made reading as if its long steady stretch were none. */
const withoutStretch = (): Reading => {
  const base = madeReading(madeRide());
  return { ...base, moments: base.moments.filter(({ kind }) => kind !== "steadyStretch") };
};

const shotOf = (film: Film, id: string): Shot =>
  film.items.find((item): item is Shot => item.type === "shot" && item.id === id)!;
const cardOf = (film: Film, id: string): CardItem =>
  film.items.find((item): item is CardItem => item.type === "card" && item.id === id)!;
const saying = (film: Film): string =>
  film.items
    .map((item) => (item.type === "shot" ? item.captions.map(({ text }) => text).join("\n") : cardWords(item.card)))
    .join("\n");

describe("a film that a coach has set", () => {
  test("stays as it is while nothing has changed", () => {
    for (const given of [input(), input({ reading: withoutStretch() })]) {
      const film = chooseFilm(given);
      expect(refreshFilm(film, given)).toEqual({ film, warnings: [], asked: [] });
    }
  });

  test("shots of another rider's camera keep how far it was ahead, and lose it where that is not so any more", () => {
    const own = madeLineup({ a: 1740, b: 2960 });
    const ahead = { ...own, clips: own.clips.map((one) => (one.clipId === "a" ? { ...one, leadS: 8 } : one)) };
    const leads = (film: Film) =>
      film.items.flatMap((item) => (item.type === "shot" ? [[item.clipId, item.leadS ?? null]] : []));
    const film = chooseFilm(input({ lineup: ahead }));
    expect(leads(film).length).toBeGreaterThan(1);
    for (const [clipId, leadS] of leads(film)) expect(leadS).toBe(clipId === "a" ? 8 : null);
    expect(leads(film).some(([clipId]) => clipId === "a")).toBe(true);
    expect(leads(refreshFilm(film, input({ lineup: own })).film).every(([, leadS]) => leadS === null)).toBe(true);
    expect(leads(refreshFilm(film, input({ lineup: ahead })).film)).toEqual(leads(film));
  });

  test("other figures reach every caption and card that is the program's own; a coach's words stay", () => {
    const film = chooseFilm(input());
    const edited: Film = {
      ...film,
      items: film.items.map((item) =>
        item.id === "moment-3" && item.type === "shot"
          ? {
              ...item,
              captions: item.captions.map((caption, at) =>
                at === 0 ? { ...caption, text: "Here you looked at the dog" } : caption,
              ),
            }
          : item.id === "change" && item.type === "card" && item.card.kind === "note"
            ? { ...item, card: { ...item.card, lines: ["Ask for a gap"] } }
            : item,
      ),
    };
    const ride = madeRide(180, 12);
    const plan = madePlan(180);
    const base = madeReading(ride, {}, 180);
    const reading = {
      ...base,
      drift: { ...base.drift, firstBpm: 150.2, lastBpm: 158.1, onsetS: 5400, onsetLowS: 4900, onsetHighS: 5900 },
    };
    const { film: now } = refreshFilm(edited, input({ ride, plan, reading, story: madeStory(ride, plan, reading) }));
    expect(cardWords(cardOf(now, "heart").card)).toContain("150 early on, 158 at the end");
    expect(cardWords(cardOf(now, "plan").card)).toContain("180 W");
    expect(shotOf(now, "moment-0").captions[0]!.text).toBe("Up the rise: 275 W, planned 180 W");
    expect(shotOf(now, "moment-3").captions[0]!.text).toBe("Here you looked at the dog");
    expect(cardWords(cardOf(now, "change").card)).toContain("Ask for a gap");
    expect(saying(now)).not.toContain("325 W");
    const { card } = cardOf(now, "heart");
    expect(card.kind === "chart" && card.series.heartRateBpm![3]).toBe(
      ride.grid.heartRate!.value.slice(24, 32).reduce((sum, value) => sum + value, 0) / 8,
    );
  });

  test("a moment is found again when the list has moved, and goes when it is gone", () => {
    const film = chooseFilm(input());
    const base = madeReading(madeRide());
    const reading = {
      ...base,
      moments: [base.moments[7]!, ...base.moments.slice(1, 7).map((one) => ({ ...one, startS: one.startS + 1.5 }))],
    };
    const { film: now } = refreshFilm(film, input({ reading }));
    expect(reading.moments[shotOf(now, "moment-3").moment!]!.kind).toBe("lapse");
    expect(shotOf(now, "moment-0").moment).toBeNull();
    // Its card or shot is asked about, and says nothing of what it no longer surely shows.
    const { asked } = refreshFilm(film, input({ reading }));
    expect(asked.find(({ itemId }) => itemId === "moment-0")).toMatchObject({ what: "part", key: { startS: 1800 } });
    expect(shotOf(now, "moment-0").captions).toEqual([]);
  });

  test("an anchor moves the clock of its shots, and the thread's page with it", () => {
    const film = chooseFilm(input());
    const { film: now } = refreshFilm(film, input({ lineup: madeLineup({ a: 1742.25, b: 2960 }) }));
    const [before, after] = [shotOf(film, "moment-0"), shotOf(now, "moment-0")];
    expect(after.clock.offsetS).toBe(1742.25);
    expect([after.mediaStartS, after.mediaEndS]).toEqual([before.mediaStartS, before.mediaEndS]);
    expect(after.pageStartS - before.pageStartS).toBeCloseTo(2.25);
    // A clip that nothing places any more keeps the clock its shot was made with.
    expect(shotOf(refreshFilm(film, input({ lineup: madeLineup({ b: 2960 }) })).film, "moment-0").clock.offsetS).toBe(
      1740,
    );
  });

  test("a lesson says no name, no event, no watts, whoever wrote it", () => {
    const film = chooseFilm(input());
    const edited: Film = {
      ...film,
      items: [
        ...film.items.map((item) =>
          item.id === "moment-3" && item.type === "shot"
            ? {
                ...item,
                riderName: "Ines Falk",
                beside: earlierRide(),
                captions: [
                  { startS: 0, endS: 3, text: "INES, press on" },
                  { startS: 3, endS: 6, text: "Elbows in" },
                ],
              }
            : item,
        ),
        {
          type: "card",
          id: "own",
          durationS: 4,
          card: { kind: "note", title: "For Three Valleys", lines: ["More of this"] },
          moment: null,
          why: "",
          commentPath: null,
          crossfadeS: 0,
        },
        {
          type: "card",
          id: "own-2",
          durationS: 4,
          card: { kind: "note", title: "Hold 230 W", lines: [] },
          moment: null,
          why: "",
          commentPath: null,
          crossfadeS: 0,
        },
      ],
    };
    const { film: now, warnings } = refreshFilm(edited, input({ forWhom: "lesson", asPercent: true }), [
      "Ines",
      "Three Valleys",
    ]);
    expect(saying(now)).not.toMatch(/Ines|Falk|Three Valleys|Base ride|\d W\b/i);
    expect(saying(now)).toContain("141 %");
    expect(shotOf(now, "moment-3").captions.map(({ text }) => text)).toEqual(["Elbows in"]);
    expect(shotOf(now, "moment-3").riderName).toBeNull();
    expect(shotOf(now, "moment-3").beside).toBeUndefined();
    expect(warnings).toHaveLength(3);
    const { card } = cardOf(now, "heart");
    if (card.kind !== "chart") throw new Error("no chart");
    expect(card.series.powerUnit).toBe("%");
    expect(card.marks.bandW!.low).toBeCloseTo((100 * 215) / 230);
  });
});

test("a lesson has no drawing that says a name, on a shot whose captions are the program's own as well", () => {
  const film = chooseFilm(input());
  const drawn = (text: string) => ({ shape: "text", points: [{ x: 0.5, y: 0.5 }], text, startS: 0, endS: 2 }) as const;
  const edited: Film = {
    ...film,
    items: film.items.map((item) =>
      item.type === "shot" ? { ...item, drawings: [drawn("Ines looks up"), drawn("Elbows in")] } : item,
    ),
  };
  const { film: now, warnings } = refreshFilm(edited, input({ forWhom: "lesson" }), ["Ines"]);
  const shots = now.items.flatMap((item) => (item.type === "shot" ? [item] : []));
  expect(shots.length).toBeGreaterThan(0);
  for (const shot of shots) expect(shot.drawings.map(({ text }) => text)).toEqual(["Elbows in"]);
  expect(warnings.map(({ code }) => code)).toContain("lesson-without-drawing");
});

test("a moment a coach adds is a shot where a camera saw it, else a chart; it is the program's own words", () => {
  const shot = itemForMoment(input(), 3);
  expect(shot).toMatchObject({ type: "shot", clipId: "b", moment: 3, momentKey: { kind: "lapse", startS: 3000 } });
  expect(itemForMoment(input(), 7)).toMatchObject({ type: "card", moment: 7 });
  expect(itemForMoment(input(), 99)).toBeNull();
});

describe("the chart of the whole ride", () => {
  const chartOf = (film: Film) => {
    const { card } = cardOf(film, "heart");
    if (card.kind !== "chart") throw new Error("no chart");
    return card;
  };

  test("marks what the film shows, and numbers the moments in its order", () => {
    const given = input();
    const film = chooseFilm(given);
    const { marks } = chartOf(film);
    const filmed = film.items.filter((item): item is Shot => item.type === "shot");
    expect(filmed.length).toBeGreaterThan(1);
    for (const shot of filmed) {
      const from = rideTimeAt(shot.clock, shot.mediaStartS);
      const seen = marks.shots?.some(({ startS, endS }) => startS - 0.01 <= from && from < endS);
      expect(seen, `${shot.id} at ${from}`).toBe(true);
    }
    const told = film.items.flatMap(({ moment }) => (moment === null ? [] : [moment]));
    expect(marks.told).toEqual([...new Set(told)].map((index) => given.reading.moments[index]?.startS));
    // A film cut down to fewer shots marks only those.
    const fewer = { ...film, items: film.items.filter((item) => item !== filmed[0]) };
    const now = chartOf(refreshFilm(fewer, given).film).marks;
    expect(now.shots?.length).toBe((marks.shots?.length ?? 0) - 1);
  });

  test("has the road's height under it, as recorded, in feet where the plan says so; none on a trainer", () => {
    const ride = madeRide();
    const { series } = chartOf(chooseFilm(input({ ride })));
    const recorded = ride.grid.altitude?.value.slice(0, series.stepS) ?? new Float64Array();
    expect(series.altitude?.[0]).toBeCloseTo(recorded.reduce((sum, value) => sum + value, 0) / recorded.length, 6);
    const feet = chartOf(chooseFilm(input({ ride, plan: { ...madePlan(), units: "imperial" } }))).series;
    expect(feet.altitudeUnit).toBe("ft");
    expect(feet.altitude?.[0]).toBeCloseTo((series.altitude?.[0] ?? Number.NaN) / 0.3048, 6);
    const indoors = chartOf(chooseFilm(input({ ride, plan: { ...madePlan(), setting: "trainer" } })));
    expect(indoors.series.altitude).toBeUndefined();
  });

  test("has the heart band and the blocks that were asked for, in a lesson as shares of the plan", () => {
    const asked = {
      plan: { ...madePlan(), heartLowBpm: 132, heartHighBpm: 145 },
      blocks: [
        { startS: 600, endS: 1200, kind: "effort", lowW: 276, highW: 299 },
        { startS: 1200, endS: 1500, kind: "rest", lowW: null, highW: null },
      ],
    } as const;
    const { marks } = chartOf(chooseFilm(input(asked)));
    expect(marks.heartBand).toEqual({ low: 132, high: 145 });
    expect(marks.blocks).toEqual([
      { startS: 600, endS: 1200, low: 276, high: 299 },
      { startS: 1200, endS: 1500, low: null, high: null },
    ]);
    const lesson = chartOf(chooseFilm(input({ ...asked, forWhom: "lesson", asPercent: true }))).marks;
    expect(lesson.blocks?.[0]).toMatchObject({ low: (100 * 276) / 230, high: (100 * 299) / 230 });
  });

  test("has no heights in a lesson, by which a road may be known, whoever wrote its words", () => {
    const film = chooseFilm(input());
    expect(chartOf(film).series.altitude).toBeDefined();
    const worded = {
      ...film,
      items: film.items.map((item) =>
        item.type === "card" && item.card.kind === "chart"
          ? { ...item, card: { ...item.card, lines: ["Steady"] } }
          : item,
      ),
    };
    for (const one of [film, worded]) {
      const { film: lesson } = refreshFilm(one, input({ forWhom: "lesson", asPercent: true }));
      const charts = lesson.items.filter((item) => item.type === "card" && item.card.kind === "chart");
      expect(charts.length).toBeGreaterThan(0);
      expect(JSON.stringify(charts)).not.toContain("altitude");
    }
  });
});
