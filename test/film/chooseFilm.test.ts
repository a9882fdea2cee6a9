import { describe, expect, test } from "vitest";
import type { Film, Shot } from "../../main/contract/film.ts";
import { chooseFilm } from "../../main/film/chooseFilm.ts";
import type { FilmInput } from "../../main/film/filmInput.ts";
import { filmShape } from "../../main/film/filmShape.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { madeClip, madeLineup, madePlan, madeReading, madeRide, madeStory } from "./madeReading.ts";

const clips = [madeClip("a", 240), madeClip("b", 120), madeClip("c", 90)];
// a: the first rise; b: the lapse; c: a part of the steady stretch. Neither the onset nor the later rises are filmed.
const lineup = madeLineup({ a: 1740, b: 2960, c: 3500 });

/** Only these moments, as a coach who keeps some and drops all others. */
const only = (...indexes: number[]): FilmInput["wishes"] =>
  Array.from({ length: 9 }, (_, index) => ({ keep: indexes.includes(index), name: null }));

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
    lineup,
    lengthS: 120,
    shape: filmShape(more.clips ?? clips, "share"),
    language: "en",
    titleLines: ["An evening in May"],
    wishes: [],
    acceptUnsure: false,
    riderName: null,
    forWhom: "athlete",
    asPercent: false,
    ...more,
  };
}

const shots = (film: Film): Shot[] => film.items.filter((item) => item.type === "shot");
const lengthS = (film: Film): number => filmClock(film).lengthS;
const filmS = (shot: Shot): number => (shot.mediaEndS - shot.mediaStartS) / shot.speed;

describe("chooseFilm", () => {
  // The rules of the automatic film as the project states them: six shots, 6 s, one teaching point.
  test.each([30, 45, 60, 90, 120, 180, 300])("keeps its rules at a wished length of %i s", (wishedS) => {
    const film = chooseFilm(input({ lengthS: wishedS }));
    expect(shots(film).length).toBeLessThanOrEqual(6);
    for (const shot of shots(film)) {
      expect(filmS(shot)).toBeGreaterThanOrEqual(6 - 1e-9);
      const clip = clips.find((one) => one.id === shot.clipId)!;
      expect(shot.mediaStartS).toBeGreaterThanOrEqual(0);
      expect(shot.mediaEndS).toBeLessThanOrEqual(clip.durationS + 1e-9);
      const frames = (filmS(shot) * film.frameRate.num) / film.frameRate.den;
      expect(frames).toBeCloseTo(Math.round(frames), 6);
      for (const caption of shot.captions) {
        expect(caption.text.split(/\s+/).length).toBeLessThanOrEqual(10);
        expect(caption.endS - caption.startS).toBeGreaterThanOrEqual(3 - 1e-9);
        expect(caption.endS).toBeLessThanOrEqual(filmS(shot) + 1e-9);
      }
    }
    expect(film.items.every((item) => item.why.length > 0)).toBe(true);
    expect(new Set(film.items.map((item) => item.id)).size).toBe(film.items.length);
    const said = film.leftOut.some((line) => line.startsWith("the film is"));
    expect(lengthS(film) > wishedS + 1).toBe(said);
  });

  test("tells one story in order: what held, what broke, the heart, the change, the next ride", () => {
    const film = chooseFilm(input());
    const moments = madeReading(madeRide()).moments;
    const kinds = film.items.map((item) => (item.moment === null ? item.id : moments[item.moment]!.kind));
    expect(kinds).toEqual([
      "title",
      "plan",
      "steadyStretch",
      "riseThenOff",
      "driftOnset",
      "heart",
      "change",
      "closing",
    ]);
    expect(lengthS(film)).toBeLessThanOrEqual(121);
    // The other rises are real, but nobody filmed them and the first shows the point; the turn is another point.
    expect(film.leftOut.join("\n")).toContain(
      "Above the plan uphill, then no pressure, 1:10:00: another one shows the same point",
    );
    expect(film.leftOut.join("\n")).toContain("Tight turn, 0:41:40: it is not the one teaching point");
    expect(film.leftOut.join("\n")).toContain(
      "Heart rate to look at, 1:23:20: odd heart readings are for the coach until picked",
    );
    // A name of the code in a person's sentence would be run together.
    for (const line of [...film.items.map((item) => item.why), ...film.leftOut]) expect(line).not.toMatch(/[a-z][A-Z]/);
  });

  test("a moment no camera saw is a chart of it; a filmed one shows the effort and the letting go", () => {
    const film = chooseFilm(input({ wishes: only(0, 1) }));
    const rises = film.items.filter((item) => item.id === "moment-0" || item.id === "moment-1");
    expect(rises.map((item) => item.type)).toEqual(["shot", "card"]);
    const shot = rises[0] as Shot;
    const from = shot.clock.offsetS + shot.mediaStartS;
    const to = shot.clock.offsetS + shot.mediaEndS;
    expect(from).toBeLessThanOrEqual(1860 - 20);
    expect(to).toBeGreaterThanOrEqual(1872);
    // "Then no pressure" is said when the pressure goes, not before.
    expect(Math.abs(from + shot.captions[1]!.startS * shot.speed - 1860)).toBeLessThan(1);
    expect(shot.pageStartS).toBeCloseTo(from - 60);
    const card = rises[1]!;
    if (card.type !== "card" || card.card.kind !== "chart") throw new Error("no chart");
    expect(card.card.marks.moment).toMatchObject({ startS: 4200, endS: 4272 });
    expect(card.card.lines).toEqual(["Up the rise: 325 W, planned 230 W", "Then no pressure for 12 s"]);
    // The series is the ride's own 30 s mean, step by step.
    expect(card.card.series.power30sW![150]).toBe(madeRide().grid.power30sW![card.card.series.startS + 150]);
  });

  test("a moment whose happening is not filmed is a chart, though its beginning is", () => {
    // This clip ends on the rise, 10 s before the pressure goes.
    const film = chooseFilm(input({ clips: [madeClip("a", 110)], lineup: madeLineup({ a: 1740 }) }));
    expect(film.items.find((item) => item.id === "moment-0")!.type).toBe("card");
  });

  test("a shot of a steady stretch shows nothing else; a lapse is named when it begins", () => {
    const film = chooseFilm(input({ clips: [madeClip("late", 40)], lineup: madeLineup({ late: 4190 }) }));
    const steady = film.items.find((item) => item.id === "moment-5") as Shot;
    expect(steady.clock.offsetS + steady.mediaEndS).toBeLessThanOrEqual(4200 + 1e-6);
    const lapse = chooseFilm(input({ wishes: only(3) })).items.find((item) => item.id === "moment-3") as Shot;
    const saidAtS = lapse.clock.offsetS + lapse.mediaStartS + lapse.captions[0]!.startS * lapse.speed;
    expect(Math.abs(saidAtS - 3000)).toBeLessThan(1);
  });

  test("without a long steady stretch, a filmed piece of pressure that held comes first, and says what it shows", () => {
    const base = madeReading(madeRide());
    const reading = { ...base, moments: base.moments.filter(({ kind }) => kind !== "steadyStretch") };
    const film = chooseFilm(input({ reading }));
    const held = film.items.find((item) => item.type === "shot") as Shot;
    expect(held).toMatchObject({ id: "held", moment: null });
    const [from, to] = [held.clock.offsetS + held.mediaStartS, held.clock.offsetS + held.mediaEndS];
    const power = madeRide().grid.power!.value.subarray(Math.ceil(from), Math.floor(to));
    expect(power.every((watts) => watts > 215 && watts < 245)).toBe(true);
    // The power said is that of the seconds shown, nothing of the whole ride.
    const shown = madeRide().grid.power!.value.subarray(Math.floor(from), Math.ceil(to));
    const meanW = Math.round(shown.reduce((sum, watts) => sum + watts, 0) / shown.length);
    expect(held.captions.map(({ text }) => text)).toEqual(["Here the pressure was steady", `${meanW} W on average`]);
  });

  test("an onset that was not filmed is shown within what the ride can tell, never outside", () => {
    const at = (startS: number): string | undefined =>
      chooseFilm(input({ clips: [madeClip("a", 60)], lineup: madeLineup({ a: startS }) })).items.find(
        (item) => item.moment === 4,
      )?.type;
    // The made ride's onset is 4830, between 4380 and 5220.
    expect([at(4400), at(4800), at(5150), at(5300), at(4200)]).toEqual(["shot", "shot", "shot", "card", "card"]);
  });

  test("the rider's own mark is seen where it was filmed, and is no chart", () => {
    const base = madeReading(madeRide());
    const marked = { ...base.moments[3]!, kind: "marked", startS: 1700, endS: 1750 };
    const has = (startS: number): boolean =>
      chooseFilm(
        input({ reading: { ...base, moments: [...base.moments, { ...marked, startS, endS: startS + 30 }] } }),
      ).items.some((item) => item.moment === 8);
    expect([has(1950), has(6200)]).toEqual([true, false]);
  });

  test("without clips it is a film of cards", () => {
    const film = chooseFilm(input({ clips: [], lineup: madeLineup({}) }));
    expect(film.items.every((item) => item.type === "card")).toBe(true);
    expect(film).toMatchObject({ widthPx: 1280, heightPx: 720, frameRate: { num: 30, den: 1 } });
    expect(film.items.map((item) => item.id)).toContain("heart");
  });

  test("a clip that is not sure is shown only when accepted", () => {
    const unsure = madeLineup({ a: 1740, b: 2960, c: 3500 }, ["a"]);
    const kept = chooseFilm(input({ lineup: unsure }));
    expect(shots(kept).some((shot) => shot.clipId === "a")).toBe(false);
    expect(kept.leftOut).toContain("a.mp4: where it lies on the ride is not sure");
    expect(shots(chooseFilm(input({ lineup: unsure, acceptUnsure: true }))).some((shot) => shot.clipId === "a")).toBe(
      true,
    );
  });

  test("a clip whose camera's clock an anchor has set is shown, one that shows nothing of the ride never", () => {
    const placed = (verdict: "not sure" | "no match") => {
      const lineup = madeLineup({ a: 1740, b: 2960, c: 3500 });
      return {
        ...lineup,
        clips: lineup.clips.map((one) =>
          one.clipId === "a" ? { ...one, verdict, sure: false, inheritedFrom: "b" } : one,
        ),
      };
    };
    const usesA = (film: Film) => shots(film).some((shot) => shot.clipId === "a");
    expect(usesA(chooseFilm(input({ lineup: placed("not sure") })))).toBe(true);
    expect(usesA(chooseFilm(input({ lineup: placed("no match"), acceptUnsure: true })))).toBe(false);
  });

  test("the coach's picks win, odd heart and more than six of them included", () => {
    const film = chooseFilm(input({ wishes: only(6, 3) }));
    expect(film.items.flatMap((item) => (item.moment === null ? [] : [item.moment]))).toEqual([3, 6]);
    const many = madeReading(madeRide());
    const moments = Array.from({ length: 9 }, (_, index) => ({
      ...many.moments[3]!,
      startS: 2965 + index * 8,
      endS: 2970 + index * 8,
    }));
    const crowded = chooseFilm(
      input({ reading: { ...many, moments }, wishes: moments.map(() => ({ keep: true, name: null })) }),
    );
    expect(shots(crowded)).toHaveLength(6);
    expect(crowded.leftOut.filter((line) => line.includes("at most six shots"))).toHaveLength(3);
  });

  test("the recorder's delay moves what a shot says is ridden", () => {
    const film = chooseFilm(input({ lineup: { ...lineup, deviceDelayS: 1.5 } }));
    expect(shots(film).find((shot) => shot.clipId === "a")!.clock.offsetS).toBe(1741.5);
  });

  test("every number in captions and cards comes from the reading and the ride", () => {
    const figures = (film: Film): string[] =>
      film.items
        .flatMap((item) =>
          item.type === "shot"
            ? item.captions.map((caption) => caption.text)
            : "lines" in item.card && item.id !== "title"
              ? [...item.card.lines]
              : "rows" in item.card
                ? item.card.rows.map((row) => ("value" in row ? row.value : row.left))
                : [],
        )
        .filter((text) => /\d/.test(text));
    const first = figures(chooseFilm(input()));
    const ride = madeRide(180, 12);
    const shifted = { ...madeReading(ride, {}, 180) };
    const later: typeof shifted = {
      ...shifted,
      drift: {
        ...shifted.drift,
        firstBpm: 150.2,
        lastBpm: 158.1,
        onsetS: 5400,
        onsetLowS: 4900,
        onsetHighS: 5900,
        driftBeats: 9,
      },
      target: { ...shifted.target, minimumS: 12_000, eventS: 10_000, aimS: 12_500 },
      counted: { ...shifted.counted, endS: 6000, stretches: [{ startS: 600, endS: 6000 }] },
      moments: shifted.moments.slice(1).map((one) => ({
        ...one,
        endS: one.endS + (one.kind === "steadyStretch" ? 200 : one.kind === "lapse" ? 5 : 0),
      })),
    };
    // Off seconds of a rise are the ride's own and stay as they are: all else must move.
    const second = figures(chooseFilm(input({ ride, reading: later, plan: madePlan(180) })));
    const same = first.filter((text) => second.includes(text) && !text.startsWith("Then no pressure for"));
    expect(same).toEqual([]);
  });

  test("German says the same film", () => {
    const film = chooseFilm(input({ language: "de" }));
    const english = chooseFilm(input());
    expect(film.items.map((item) => item.id)).toEqual(english.items.map((item) => item.id));
    for (const shot of shots(film))
      for (const caption of shot.captions) expect(caption.text.split(/\s+/).length).toBeLessThanOrEqual(10);
  });
});

describe("tellStory", () => {
  test("excused breaks never teach", () => {
    const ride = madeRide();
    const base = madeReading(ride);
    const reading = {
      ...base,
      breaks: base.breaks.map((one) => ({ ...one, excused: true, lapse: false, reason: "corner" as const })),
      moments: base.moments.filter((one) => one.kind !== "riseThenOff" && one.kind !== "lapse"),
      surges: [],
    };
    expect(madeStory(ride, madePlan(), reading).teaching).toBe("drift");
  });

  test("a ride that held all through has nothing to change", () => {
    const ride = madeRide();
    const base = madeReading(ride);
    const reading = {
      ...base,
      breaks: [],
      surges: [],
      moments: [],
      drift: { ...base.drift, verdict: "no drift shown" as const, onsetS: null },
    };
    const story = madeStory(ride, madePlan(), reading);
    expect(story.teaching).toBe("nothing");
    // 97 % of the first hour of the main part was in the band, and an hour says more than a share.
    expect(story.held).toMatchObject({ kind: "hour", startS: 600, endS: 4200 });
    expect(chooseFilm(input({ reading, story })).items.map((item) => item.id)).not.toContain("change");
  });
});

describe("filmShape", () => {
  test.each([
    ["share", 3840, 2160, 1920, 1080],
    ["share", 1280, 720, 1280, 720],
    ["share", 2160, 3840, 1080, 1920],
    ["share", 853, 481, 1276, 720],
    ["draft", 1920, 1080, 960, 540],
    ["archive", 3840, 2160, 3840, 2160],
    ["phone", 3840, 2160, 1080, 1920],
  ] as const)("%s of %ix%i is %ix%i", (preset, widthPx, heightPx, wide, high) => {
    expect(filmShape([madeClip("a", 10, { widthPx, heightPx })], preset)).toMatchObject({
      widthPx: wide,
      heightPx: high,
    });
  });

  test("the rate is that of most seconds; a variable one is rounded; 120 is halved", () => {
    const slow = madeClip("a", 10, { frameRate: { num: 24, den: 1 } });
    expect(filmShape([slow, madeClip("b", 30)], "share").frameRate).toEqual({ num: 30_000, den: 1001 });
    expect(
      filmShape([madeClip("b", 30, { frameRate: { num: 29_830, den: 1000 }, variableRate: true })], "share").frameRate,
    ).toEqual({ num: 30, den: 1 });
    expect(filmShape([madeClip("b", 30, { frameRate: { num: 120_000, den: 1001 } })], "share").frameRate).toEqual({
      num: 60_000,
      den: 1001,
    });
  });
});
