// Covered means covered: a white plate moves over a grey picture, comes and goes, and no frame of the film, still or
// part at any speed shows a pixel of it; a close-up shows the part that its keys say.
import { join } from "node:path";
import { loadImage } from "@napi-rs/canvas";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { CardItem, Shot } from "../../main/contract/film.ts";
import type { Clip } from "../../main/contract/footage.ts";
import { PANEL_NAMES } from "../../main/contract/filmLook.ts";
import type { Cover } from "../../main/contract/framing.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { filmSchema } from "../../main/debrief/filmSchema.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { renderStill } from "../../main/render/renderStill.edge.ts";
import { closeUpAt, filledBy } from "../../overlay/instant/closeUpAt.ts";
import { testCanvas } from "../support/canvas.ts";
import { testTools } from "../support/tools.ts";
import { lumaFrames, runProgram, scratchFolder } from "../support/video.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext, shotOf } from "./filmFixtures.ts";

const [WIDTH, HEIGHT, FRAMES] = [320, 180, 120];
/** Seen from its first frame to its last; its corner at a frame, px, and its size. */
const [FIRST, LAST] = [30, 89];
const plateAt = (frame: number) => ({ x: 20 + 3 * (frame - FIRST), y: 40 + (frame - FIRST), width: 36, height: 14 });
const GREY = 90;

/** With letters the plate has dark bars, 3 px wide. */
function* frames(letters: boolean): Generator<Uint8Array> {
  for (let frame = 0; frame < FRAMES; frame++) {
    const picture = new Uint8Array((WIDTH * HEIGHT * 3) / 2).fill(128);
    picture.fill(GREY, 0, WIDTH * HEIGHT);
    if (frame >= FIRST && frame <= LAST) {
      const { x, y, width, height } = plateAt(frame);
      for (let row = y; row < y + height; row++)
        for (let k = 0; k < width; k++) picture[row * WIDTH + x + k] = letters && k % 6 >= 3 ? 20 : 235;
    }
    yield picture;
  }
}

const RATE = 30000 / 1001;
/** Keys on the plate's first and last frame, exactly about it. */
const keys = [FIRST, LAST].map((frame) => {
  const { x, y, width, height } = plateAt(frame);
  return { atMediaS: frame / RATE, x: x / WIDTH, y: y / HEIGHT, width: width / WIDTH, height: height / HEIGHT };
});
const cover = (kind: Cover["kind"]): Cover => ({ kind, keys });

let scratch: Awaited<ReturnType<typeof scratchFolder>>;
let clip: Clip;
let lettered: Clip;
beforeAll(async () => {
  scratch = await scratchFolder();
  clip = await madeClip("plate", false);
  lettered = await madeClip("letters", true);
}, 60_000);

async function madeClip(name: string, letters: boolean): Promise<Clip> {
  const path = join(scratch.path, `${name}.mp4`);
  const { ffmpeg } = testTools();
  const raw = ["-f", "rawvideo", "-pixel_format", "yuv420p", "-video_size", `${WIDTH}x${HEIGHT}`];
  const made = ["-framerate", "30000/1001", "-i", "pipe:0", "-c:v", "libx264", "-crf", "10", "-bf", "2", path];
  await runProgram(ffmpeg, ["-v", "error", "-y", ...raw, ...made], frames(letters));
  return probeClip(path, name, testTools());
}
afterAll(() => scratch.remove());

const layoutOptions = { ...layoutOptionsFor(WIDTH, HEIGHT), panels: [], showThread: false, headLine: false };
type FilmOf = readonly (Shot | CardItem)[];
const job = (items: FilmOf, size: readonly [number, number] = [WIDTH, HEIGHT]) => ({
  film: filmOf(clip, items, { widthPx: size[0], heightPx: size[1] }),
  clips: [clip],
  columns: countingRide(400),
  preset: { ...PRESETS.share, crf: 12 },
  layoutOptions: { ...layoutOptions, widthPx: size[0], heightPx: size[1] },
});

/** The brightest pixel of each frame of a film, in its upper rows. */
async function brightest(
  items: FilmOf,
  size: readonly [number, number] = [WIDTH, HEIGHT],
  rows = size[1],
): Promise<number[]> {
  const outPath = join(scratch.path, "out.mp4");
  const cacheDir = join(scratch.path, "cache");
  const result = await renderFilm({ ...job(items, size), outPath, cacheDir, fit: "crop" }, testTools(), quietContext());
  if (result.kind !== "done") throw new Error(JSON.stringify(result));
  const lumas = await lumaFrames(outPath, size[0], size[1], testTools());
  return lumas.map((luma) => luma.subarray(0, rows * size[0]).reduce((most, one) => Math.max(most, one), 0));
}

/** What may be brighter than the ground by encoding alone. */
const SEEN = GREY + 45;
const whole = (more: Partial<Shot>): Shot => shotOf(clip, 0.4, 3.6, more);

describe("covered", () => {
  it("without a cover the plate is seen in every frame that holds it", async () => {
    const seen = (await brightest([whole({})])).filter((one) => one > 200).length;
    expect(seen).toBe(LAST - FIRST + 1);
  }, 60_000);

  it.each<[string, Partial<Shot>, (readonly [number, number])?]>([
    ["solid, as filmed", { covers: [cover("solid")] }],
    ["solid, slowed to a quarter", { covers: [cover("solid")], speed: 0.25 }],
    ["solid, 8 times as fast", { covers: [cover("solid")], speed: 8 }],
    ["solid, frozen", { covers: [cover("solid")], freezes: [{ atMediaS: 2, durationS: 0.5 }] }],
    ["solid, cut to an upright picture", { covers: [cover("solid")] }, [180, 320]],
    [
      "one key alone, for the whole shot",
      { covers: [{ kind: "solid", keys: [{ atMediaS: 1, x: 0.04, y: 0.18, width: 0.8, height: 0.56 }] }] },
    ],
    ["solid, close up", { covers: [cover("solid")], closeUp: [{ atMediaS: 0, x: 0.4, y: 0.4, share: 0.6 }] }],
  ])(
    "%s: no frame shows it",
    async (_, more, size) => {
      const most = await brightest([whole(more)], size);
      expect(most.length).toBeGreaterThan(10);
      for (const one of most) expect(one).toBeLessThan(SEEN);
    },
    120_000,
  );

  it("what one shot covers is covered in another shot of the same seconds, and no longer than its own shot", async () => {
    const covering = whole({ covers: [cover("solid")], mediaEndS: 2.2 });
    const other = { ...whole({}), id: "other" };
    const most = await brightest([covering, other]);
    const shown = most.slice(-96).filter((one) => one > 200).length;
    // Past 2.2 s nobody has said that the box is to be hidden.
    const last = Math.floor(2.2 * RATE);
    expect(Math.abs(shown - (LAST - last))).toBeLessThanOrEqual(2);
    expect(most.slice(0, -96).every((one) => one < SEEN)).toBe(true);
    expect((await brightest([other])).filter((one) => one > 200)).toHaveLength(LAST - FIRST + 1);
  }, 120_000);

  it("what a shot covers is covered in the half of a pair", async () => {
    const footage = { clipId: clip.id, clock: { offsetS: 100, rate: 1 } };
    const values = Array.from({ length: 20 }, () => null);
    const series = { startS: 95, lateS: null, variable: false, pressure: values.map(() => 5), altitudeM: values };
    const numbers = { ...series, powerW: values, heartRateBpm: values, speedMps: values };
    const side = { name: "you", footage, series: numbers };
    const ends = { firstS: [100.4, 103.6], secondS: [100.4, 103.6] };
    const pair: CardItem = {
      type: "card",
      id: "pair",
      durationS: 3.2,
      card: {
        kind: "pair",
        title: "",
        follow: "place",
        units: "metric",
        sides: [side, { ...side, name: "coach" }],
        pace: { filmS: [0, 3.2], ...ends },
        spots: ends,
      },
      moment: null,
      why: "",
      commentPath: null,
      crossfadeS: 0,
    };
    const size = [640, 180] as const;
    // Names and numbers of the halves are brighter than anything: only the rows between them are looked at.
    const seen = async (items: FilmOf): Promise<number> =>
      (await brightest(items, size, 90)).slice(-95).filter((one) => one > 200).length;
    const bare = await seen([pair]);
    expect(bare).toBeGreaterThan(20);
    expect(await seen([whole({ covers: [cover("solid")] }), pair])).toBe(0);
  }, 120_000);

  it("a blur leaves no edge of a letter in any frame, and without it each frame has them", async () => {
    const sharpest = async (more: Partial<Shot>): Promise<number[]> => {
      const outPath = join(scratch.path, "letters-out.mp4");
      const shown = { ...job([shotOf(lettered, 0.4, 3.6, more)]), clips: [lettered] };
      const cacheDir = join(scratch.path, "cache");
      const result = await renderFilm({ ...shown, outPath, cacheDir, fit: "crop" }, testTools(), quietContext());
      expect(result.kind).toBe("done");
      const lumas = await lumaFrames(outPath, WIDTH, HEIGHT, testTools());
      return lumas.map((luma) =>
        luma.reduce((most, one, k) => (k % WIDTH === 0 ? most : Math.max(most, Math.abs(one - luma[k - 1]!))), 0),
      );
    };
    expect((await sharpest({})).filter((one) => one > 120)).toHaveLength(LAST - FIRST + 1);
    for (const one of await sharpest({ covers: [cover("blur")] })) expect(one).toBeLessThan(50);
  }, 60_000);

  it("a still is covered as the film is", async () => {
    const outPath = join(scratch.path, "solid.png");
    const shown = job([whole({ covers: [cover("solid")] })]);
    for (const frame of [FIRST, 60, LAST]) {
      const atS = frame / RATE - 0.4;
      expect((await renderStill({ ...shown, outPath, atS, fit: "crop" }, testTools(), quietContext())).kind).toBe(
        "done",
      );
      const { context } = testCanvas(WIDTH, HEIGHT);
      context.drawImage(await loadImage(outPath), 0, 0);
      const { data } = context.getImageData(0, 0, WIDTH, HEIGHT);
      expect(data.reduce((most, one, k) => (k % 4 === 3 ? most : Math.max(most, one)), 0)).toBeLessThan(150);
    }
  }, 120_000);
});

describe("a close-up", () => {
  it("moves softly to the part that its keys say", async () => {
    const size = [WIDTH, HEIGHT] as const;
    const { x, y, width, height } = plateAt(60);
    const on = { x: (x + width / 2) / WIDTH, y: (y + height / 2) / HEIGHT, share: 0.25 };
    const closeUp = [
      { atMediaS: 1, x: 0.5, y: 0.5, share: 1 },
      { atMediaS: 2, ...on },
    ];
    const outPath = join(scratch.path, "close.mp4");
    const result = await renderFilm(
      { ...job([whole({ closeUp })]), outPath, cacheDir: join(scratch.path, "cache"), fit: "crop" },
      testTools(),
      quietContext(),
    );
    expect(result.kind).toBe("done");
    const lumas = await lumaFrames(outPath, ...size, testTools());
    const white = lumas.map((luma) => luma.reduce((count, one) => count + (one > 180 ? 1 : 0), 0));
    const at = (mediaS: number): number => Math.round((mediaS - 0.4) * RATE);
    // Four times as wide and high.
    expect(white[at(2)]! / (width * height)).toBeGreaterThan(14);
    expect(white[at(2)]! / (width * height)).toBeLessThan(18);
    // At its beginning it goes slower than in its middle.
    expect(white[at(1.1)]! - white[at(1.05)]!).toBeLessThan(white[at(1.55)]! - white[at(1.5)]!);
    // The window's preview reckons the same part: the plate's middle where it says.
    for (const itemS of [0.9, 1.2, 1.4, 1.6]) {
      const frame = Math.round(itemS * RATE);
      const part = filledBy(closeUpAt(whole({}), closeUp, frame / RATE), WIDTH / HEIGHT, WIDTH / HEIGHT);
      const plate = plateAt(Math.round((0.4 + frame / RATE) * RATE));
      const luma = lumas[frame]!;
      let [sumX, sumY, count] = [0, 0, 0];
      for (let y = 0; y < HEIGHT; y++)
        for (let px = 0; px < WIDTH; px++)
          if (luma[y * WIDTH + px]! > 180) {
            sumX += px + 0.5;
            sumY += y + 0.5;
            count += 1;
          }
      const [plateX, plateY] = [plate.x + plate.width / 2, plate.y + plate.height / 2];
      expect(Math.abs(sumX / count - ((plateX / WIDTH - part.x) / part.width) * WIDTH)).toBeLessThan(6);
      expect(Math.abs(sumY / count - ((plateY / HEIGHT - part.y) / part.height) * HEIGHT)).toBeLessThan(6);
    }
    const middle = lumas[at(2)]![(HEIGHT / 2) * WIDTH + WIDTH / 2]!;
    expect(middle).toBeGreaterThan(200);
  }, 60_000);
});

describe("debrief.json", () => {
  const film = (more: object) => filmSchema.safeParse(filmOf({ ...clip }, [{ ...whole({}), ...more }]));
  it("holds both; keys out of order or outside the picture are refused", () => {
    expect(film({ covers: [cover("blur")], closeUp: [{ atMediaS: 1, x: 0.5, y: 0.5, share: 0.5 }] }).success).toBe(
      true,
    );
    expect(film({ covers: [{ kind: "solid", keys: [...keys].reverse() }] }).success).toBe(false);
    expect(film({ covers: [{ kind: "solid", keys: [] }] }).success).toBe(false);
    expect(film({ covers: [{ kind: "solid", keys: [{ ...keys[0]!, x: 1.2 }] }] }).success).toBe(false);
    expect(film({ closeUp: [{ atMediaS: 1, x: 0.5, y: 0.5, share: 0 }] }).success).toBe(false);
  });

  it("takes another ride beside on every panel there is, from a time of the ride on where asked, and refuses others", () => {
    const none = [null];
    const values = { powerW: none, heartRateBpm: none, speedMps: none, altitudeM: none, pressure: [0] };
    const series = { startS: 0, lateS: null, variable: false, ...values };
    const beside = (panel: string, more: object = {}) => ({
      beside: { name: "", panels: [panel], spots: { firstS: [0], secondS: [0] }, series, ...more },
    });
    expect(PANEL_NAMES.filter((panel) => !film(beside(panel)).success)).toEqual([]);
    expect(film(beside("weather")).error!.issues[0]).toMatchObject({ code: "invalid_value" });
    expect(film(beside("power", { byTimeFromS: 12.5 })).success).toBe(true);
    expect(film(beside("power", { byTimeFromS: "now" })).success).toBe(false);
  });
});
