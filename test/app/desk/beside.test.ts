// A shot of two rides from the window: put in, made anew, taken back; and what the desk refuses.
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { BesideAsk } from "../../../main/contract/debriefApi.ts";
import { PANEL_NAMES } from "../../../main/contract/filmLook.ts";
import type { CardItem, Shot } from "../../../main/contract/film.ts";
import type { PairCard } from "../../../main/contract/pair.ts";
import { demoRideFile } from "../../../main/demo/demoRideFile.ts";
import { demoRide } from "../../../main/demo/rideModel.ts";
import { type OpenDesk, openDesk, putClip, putRide } from "./openDesk.ts";

describe("rides that passed where a moment is", () => {
  let open: OpenDesk;
  beforeEach(async () => {
    open = await openDesk();
    const rides = open.path("rides");
    const own = await putRide(rides);
    const other = join(rides, "mara.fit");
    await writeFile(other, demoRideFile(demoRide(2)));
    const clip = await putClip(rides, "bar-1.mp4", 1800, 500);
    await open.api.addFiles([open.id(own), open.id(other), open.id(clip)]);
  }, 60_000);
  afterEach(() => open.close());

  const pairs = () =>
    open
      .view()
      .film!.items.flatMap((item) => (item.type === "card" && item.card.kind === "pair" ? [item] : [])) as (CardItem & {
      readonly card: PairCard;
    })[];
  const show = (change: Partial<BesideAsk>) => {
    const { roads, edit } = open.view();
    const at = roads.findIndex(({ startS, endS }) => startS <= 1700 && endS >= 1760);
    const ask = {
      road: at,
      startS: 1700,
      endS: 1712,
      how: "halves",
      follow: "place",
      ownSecond: false,
      itemId: null,
    } as const;
    return open.api.showBeside({ ...ask, ...change }, edit);
  };

  it("are listed with their pressure; a shot beside one is put in, made anew, taken back", async () => {
    const { roads } = open.view();
    expect(roads.map(({ name }) => name)).toContain("mara");
    for (const { startS, pressure } of roads) expect(pressure[0]!.fromS).toBe(startS);
    await show({});
    expect(open.view().document.filmSetBy).toBe("coach");
    const [first] = pairs();
    expect(first!.card).toMatchObject({ title: "you / mara", follow: "place", oneRider: false });
    expect(first!.card.of).toMatchObject({ startS: 1700, endS: 1712, riderName: "mara", ownSecond: false });
    expect(first!.card.pace.firstS[0]).toBeCloseTo(1700, 3);

    await show({ itemId: first!.id, follow: "time", ownSecond: true, endS: 1720 });
    const made = pairs();
    expect(made).toHaveLength(1);
    expect(made[0]!.card).toMatchObject({ title: "mara / you", follow: "time" });
    expect(made[0]!.card.pace.secondS.at(-1)).toBeCloseTo(1720, 3);
    await open.api.undo();
    expect(pairs()[0]!.card).toMatchObject({ follow: "place" });
    await open.api.undo();
    expect(pairs()).toEqual([]);
  }, 60_000);

  it("refuses a road that is not there, a span off it, and a part that is none of two rides", async () => {
    const { film } = open.view();
    for (const change of [
      { road: 999 },
      { startS: -100, endS: -50 },
      { itemId: "nowhere" },
      { itemId: film!.items[0]!.id },
    ])
      await expect(show(change)).rejects.toMatchObject({ code: "usage" });
    await expect(show({ how: "thread", itemId: null })).rejects.toMatchObject({ code: "usage" });
    expect(open.view().film).toEqual(film);
  }, 60_000);

  it("stands on a shot's own picture, with its road over the shot's page", async () => {
    const { film, clips } = open.view();
    const shot: Shot = {
      type: "shot",
      id: "own",
      clipId: clips[0]!.id,
      mediaStartS: 0,
      mediaEndS: 10,
      speed: 1,
      freezes: [],
      captions: [],
      drawings: [],
      pageStartS: 1740,
      pageEndS: 1810,
      clock: { offsetS: 1800, rate: 1 },
      moment: null,
      riderName: null,
      why: "",
      commentPath: null,
      crossfadeS: 0,
    };
    const label = "own film";
    await open.api.edit({ part: "film", value: { ...film!, items: [shot] }, label }, open.view().edit);
    await open.api.edit({ part: "filmSetBy", value: "coach", label }, open.view().edit);
    await show({ how: "thread", itemId: shot.id });
    const now = open.view().film!.items.find(({ id }) => id === shot.id);
    if (now?.type !== "shot" || now.beside === undefined) throw new Error("no ride beside");
    expect(now.beside).toMatchObject({ name: "mara", panels: ["power"], oneRider: false });
    expect(now.beside.spots.firstS[0]).toBeLessThanOrEqual(now.pageStartS);
    expect(now.beside.spots.firstS.at(-1)).toBeGreaterThanOrEqual(now.pageEndS);
    const beside = { ...now.beside, panels: [...PANEL_NAMES], byTimeFromS: 1800 };
    const items = [{ ...now, beside }];
    await open.api.edit({ part: "film", value: { ...open.view().film!, items }, label }, open.view().edit);
    expect(open.view().film!.items).toMatchObject([{ beside: { panels: PANEL_NAMES, byTimeFromS: 1800 } }]);
    expect(now.beside.series.powerW.length).toBeLessThan(400);
  }, 60_000);
});
