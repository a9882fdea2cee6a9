import { existsSync } from "node:fs";
import { mkdir, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { CHOICES, documentIn, lent, made, unpacked } from "./deskParts.ts";
import { probeClip } from "../../../main/footage/probeClip.edge.ts";
import { shotOf } from "../../render/filmFixtures.ts";
import { soundOf } from "../../support/sound.ts";
import { testTools } from "../../support/tools.ts";
import { type OpenDesk, openDesk, openDeskWithRide, putClip, putRide } from "./openDesk.ts";

describe("a hand-over from the desk", () => {
  let open: OpenDesk;
  let rides: string;
  beforeEach(async () => {
    ({ open, rides } = await openDeskWithRide());
  });
  afterEach(() => open.close());

  it("says what a hand-over would write and asks for consent before a lesson", async () => {
    const plan = await open.api.planHandOver(CHOICES);
    expect(plan).toMatchObject({ folder: join(rides, "sunday-debrief"), asks: [] });
    expect(plan.files.map(({ name }) => name)).toEqual(
      expect.arrayContaining(["film.mp4", "debrief.html", "message.txt", "coach.html"]),
    );
    expect(plan.estimateBytes).toBeGreaterThan(1e5);
    expect(plan.estimateS).toBeGreaterThan(1);
    const lesson = await open.api.planHandOver({ ...CHOICES, forWhom: "lesson" });
    expect(lesson.asks.map(({ key }) => key)).toEqual(["consent"]);
    expect(lesson.files.map(({ name }) => name)).not.toContain("coach.html");
    await expect(open.api.handOver({ ...CHOICES, forWhom: "lesson" })).rejects.toMatchObject({ code: "usage" });
    expect(existsSync(join(rides, "sunday-debrief", "film.mp4"))).toBe(false);
  });
});

describe("a folder that was chosen", () => {
  it("gets a folder of the debrief's name, and nothing that lies there is written over", async () => {
    const { open } = await openDeskWithRide();
    try {
      const place = open.path("sticks");
      await mkdir(join(place, "sunday-debrief"), { recursive: true });
      const into = open.id(place);
      expect((await open.api.planHandOver({ ...CHOICES, into })).folder).toBe(join(place, "sunday-debrief"));
      await writeFile(join(place, "sunday-debrief", "film.mp4"), "another's");
      expect((await open.api.planHandOver({ ...CHOICES, into })).folder).toBe(join(place, "sunday-debrief-2"));
      // A film of seconds, so that it is made soon.
      await open.api.pickFilm(10);
      await open.api.handOver({ ...CHOICES, into });
      const job = (await open.idle()).find(({ what }) => what === "hand over");
      expect(job).toMatchObject({ state: "done" });
      const written = await readdir(join(place, "sunday-debrief-2"));
      expect(written).toEqual(expect.arrayContaining(["film.mp4", "debrief.html", "message.txt"]));
      expect(await readFile(join(place, "sunday-debrief", "film.mp4"), "utf8")).toBe("another's");
      expect(existsSync(join(open.view().folder, "film.mp4"))).toBe(false);
      // Once more it is the debrief's own there.
      expect((await open.api.planHandOver({ ...CHOICES, into })).folder).toBe(join(place, "sunday-debrief-2"));
      const { folder } = await open.api.planHandOver({ ...CHOICES, into, forWhom: "lesson" });
      expect(folder).toBe(join(place, "sunday-debrief-2", "lesson"));
      // The list of recent ones knows it, as long as it is there; so does a program that is started anew.
      expect(await open.api.recent()).toMatchObject([{ handedOver: true }]);
      const again = await openDesk(open.folder);
      await again.api.openDebrief(again.id(open.view().folder), false);
      expect(await again.api.recent()).toMatchObject([{ handedOver: true }]);
      const there = { ...CHOICES, into: again.id(place) };
      expect((await again.api.planHandOver(there)).folder).toBe(join(place, "sunday-debrief-2"));
      await rm(join(place, "sunday-debrief-2"), { recursive: true });
      expect(await again.api.recent()).toMatchObject([{ handedOver: false }]);
      await again.close();
    } finally {
      await open.close();
    }
  }, 300_000);
});

describe("the page before it is handed over", () => {
  it("is the one that would be written, for whom it is meant; one from long before is no more to be had", async () => {
    const { open } = await openDeskWithRide();
    try {
      const { address } = await open.api.handOverPage(CHOICES, true);
      const pageAt = (at: string) => {
        const found = open.shelf.find(at);
        // On the page a figure is kept with its unit.
        return found?.kind === "page" ? found.html.replaceAll(/\u00a0|&nbsp;/g, " ") : null;
      };
      const html = pageAt(address);
      const { words } = await open.api.planHandOver(CHOICES);
      const held = words.lines.find(({ what }) => what === "held")!;
      expect(html).toContain(held.text.split(":")[0]);
      const german = await open.api.handOverPage({ ...CHOICES, language: "de" }, false);
      expect(german.address).not.toBe(address);
      expect(pageAt(german.address)).toContain('lang="de"');
      // A frame may still be loading the one before.
      expect(pageAt(address)).not.toBeNull();
      for (let more = 0; more < 3; more++) await open.api.handOverPage(CHOICES, false);
      expect(pageAt(address)).toBeNull();
      expect(pageAt(german.address)).not.toBeNull();
    } finally {
      await open.close();
    }
  });
});

describe("clips on the desk", () => {
  it("of two debriefs have addresses of their own, though both are called clip1", async () => {
    const open = await openDesk();
    try {
      const framesOf = async (folder: string, frames: number) => {
        const ride = await putRide(open.path(folder));
        const clip = await putClip(open.path(folder), "bar.mp4", 600, frames);
        await open.api.addFiles([ride, clip].map((path) => open.id(path)));
        return `${open.view().addresses.frames}/clip1`;
      };
      const first = await framesOf("first", 60);
      await open.api.closeDebrief();
      const second = await framesOf("second", 90);
      // The window keeps what it fetched by its address: the same one would show this clip by the other's frames.
      expect(second).not.toBe(first);
      expect(unpacked(await lent(open, second)).columns.get("startS")).toHaveLength(91);
      await expect(lent(open, first)).rejects.toThrow("nothing lent");
    } finally {
      await open.close();
    }
  });

  it("are placed, get proxies and small pictures, follow an anchor, and are handed over with a film", async () => {
    const open = await openDesk();
    try {
      const rides = open.path("rides");
      const ride = await putRide(rides);
      const clip = await putClip(rides, "bar.mp4", 600, 200);
      // In any order: the clip first.
      await open.api.addFiles([open.id(clip)]);
      expect(open.view()).toMatchObject({ reading: null, lineup: null, files: [{ id: "clip1", kind: "clip" }] });
      await open.api.addFiles([open.id(ride)]);
      expect(open.view().lineup?.clips).toMatchObject([{ clipId: "clip1" }]);
      expect(open.view().document.media.map(({ path }) => path)).toEqual(["../bar.mp4", "../sunday.fit"]);
      const frames = unpacked(await lent(open, `${open.view().addresses.frames}/clip1`)).columns.get("startS")!;
      expect([...frames].slice(0, 3).map((s) => Math.round(s * 1000))).toEqual([0, 40, 80]);
      expect(frames.length).toBe(201);

      await open.api.lineUp(true);
      expect(open.view().clips[0]!.hasSignals).toBe(true);
      const heard = unpacked(await lent(open, `${open.view().addresses.signals}/clip1`));
      expect(heard.values.stepS).toBe(0.25);
      expect(heard.columns.get("motion")?.length).toBe(heard.values.count);

      await made(
        { part: "anchors", value: [{ clipId: "clip1", mediaS: 2, rideS: 602, sigmaS: 0.1 }], label: "anchor" },
        open,
      );
      expect(open.view().lineup?.clips[0]).toMatchObject({ method: "anchor", found: { offsetS: 600 } });
      await open.idle();
      const view = open.view().clips[0]!;
      expect(view).toMatchObject({ picture: "proxy", frames: 200, hasSound: true, filmstrip: { everyS: 1, count: 8 } });
      expect(view.proxySpans).toHaveLength(1);
      expect(open.shelf.find(view.proxySpans[0]!.address)?.kind).toBe("file");
      expect(open.shelf.find(`${view.filmstrip!.address}/0.jpg`)?.kind).toBe("file");
      const times = new Map<string, number[]>();
      for (const { jobId, atMs } of open.progress) times.set(jobId, [...(times.get(jobId) ?? []), atMs]);
      for (const [, at] of times) for (let k = 2; k < at.length; k++) expect(at[k]! - at[k - 2]!).toBeGreaterThan(150);

      await open.api.pickFilm(30);
      const foreseen = await open.api.planHandOver(CHOICES);
      const { jobId } = await open.api.handOver(CHOICES);
      const job = (await open.idle()).find(({ id }) => id === jobId);
      expect(job).toMatchObject({ state: "done", what: "hand over", failure: null });
      const there = new Set(await readdir(open.view().folder));
      for (const { name } of foreseen.files) expect(there, name).toContain(name);
      await open.api.openFolder(job!.folderId!);
      expect(open.opened).toEqual([open.view().folder]);
      expect((await open.api.recent())[0]).toMatchObject({ handedOver: true });
    } finally {
      await open.close();
    }
  }, 240_000);

  it("are silent where they are slowed and the window says so, and the debrief keeps that", async () => {
    const open = await openDesk();
    try {
      const rides = open.path("rides");
      const files = [await putRide(rides), await putClip(rides, "bar.mp4", 600, 200)];
      await open.api.addFiles(files.map((path) => open.id(path)));
      const anchors = [{ clipId: "clip1", mediaS: 2, rideS: 602, sigmaS: 0.1 }];
      await made({ part: "anchors", value: anchors, label: "anchor" }, open);
      await open.api.pickFilm(30);
      const { film } = open.view();
      const clip = await probeClip(files[1]!, "clip1", testTools());
      const slowed = shotOf(clip, 1, 1.75, { speed: 0.125, clock: { offsetS: 600, rate: 1 } });
      await made({ part: "film", value: { ...film!, items: [slowed] }, label: "film" }, open);
      const heard: number[] = [];
      for (const slowSound of ["stretched", "none"] as const) {
        const choices = { ...CHOICES, slowSound };
        const { asks } = await open.api.planHandOver(choices);
        const agreed = asks.map(({ key }) => key);
        const { jobId } = await open.api.handOver({ ...choices, agreed });
        expect((await open.idle()).find(({ id }) => id === jobId)).toMatchObject({ state: "done", failure: null });
        const sound = await soundOf(join(open.view().folder, "film.mp4"));
        expect(sound.length / 48_000).toBeCloseTo(6, 1);
        heard.push(sound.reduce((loudest, one) => Math.max(loudest, Math.abs(one)), 0));
      }
      expect(heard[0]).toBeGreaterThan(0.05);
      expect(heard[1]).toBeLessThan(0.001);
      await open.api.saveNow();
      expect((await documentIn(open.view().folder)).settings.slowSound).toBe("none");
    } finally {
      await open.close();
    }
  }, 240_000);
});
