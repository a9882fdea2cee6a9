// A pair shows of both clips, at every output frame, the frame that the place function asks for: read off the pixels of
// clips whose frames carry their number, and by the plan alone.
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { CardItem, Film } from "../../main/contract/film.ts";
import type { Clip } from "../../main/contract/footage.ts";
import type { PairCard, PairPace, PairSide } from "../../main/contract/pair.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { pairItems, pairSeries } from "../../main/film/pairItems.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { pacedFrames } from "../../main/render/pacedFrames.ts";
import { planPair } from "../../main/render/pairPart.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { paceAt } from "../../overlay/pair/pairAt.ts";
import { pairLayout } from "../../overlay/pair/pairLayout.ts";
import { testTools } from "../support/tools.ts";
import { frameNumber, lumaFrames, probeFile, scratchFolder, writeNumberedClip } from "../support/video.ts";
import { countingRide, layoutOptionsFor, quietContext } from "./filmFixtures.ts";

const [WIDTH, HEIGHT] = [640, 360];
const FIRST = { offsetS: 100, rate: 1 };
const SECOND = { offsetS: 300, rate: 1 };

/** The second at its own speed, at half, at twice, held, and past a halt that is stepped over. */
const PACE: PairPace = {
  filmS: [0, 1, 2, 3, 3.4, 3.4, 5],
  firstS: [100.3, 101.3, 102.3, 103.3, 103.7, 103.7, 105.3],
  secondS: [300.2, 301.2, 301.7, 303.7, 303.7, 305.1, 306.8],
};

function pairFilm(clips: readonly (Clip | null)[], frameRate = { num: 30, den: 1 }): { film: Film; card: PairCard } {
  const columns = countingRide(400);
  const clipOf = (clip: Clip | null | undefined, clock: typeof FIRST) =>
    clip ? [{ clipId: clip.id, clock, span: { startS: clock.offsetS, endS: clock.offsetS + 60 } }] : [];
  const [item] = pairItems({
    title: "a test",
    follow: "place",
    units: "metric",
    rides: [
      { name: "you", series: (from, to) => pairSeries(columns, from, to), clips: clipOf(clips[0], FIRST) },
      { name: "coach", series: (from, to) => pairSeries(columns, from, to), clips: clipOf(clips[1], SECOND) },
    ],
    pace: PACE,
    spots: { firstS: PACE.firstS, secondS: PACE.secondS },
    frameRate,
    why: "a test",
  }) as [CardItem];
  const film: Film = { widthPx: WIDTH, heightPx: HEIGHT, frameRate, items: [item], leftOut: [] };
  return { film, card: item.card as PairCard };
}

/** Frames nearest to the time asked for; two where it lies in the middle. */
function nearest(pts: readonly number[], atS: number): number[] {
  const best = Math.min(...pts.map((one) => Math.abs(one - atS)));
  return pts.flatMap((one, k) => (Math.abs(one - atS) < best + 1e-3 ? [k] : []));
}

describe("frame numbers in both sources", () => {
  it.each([
    ["29.97 and 25", "30000/1001", "25", undefined],
    ["60 and a variable rate", "60", "30000/1001", "N*3003+mod(N*7\\,5)*180+3003*floor(N/17)"],
    ["23.976 and 50", "24000/1001", "50", undefined],
  ])(
    "%s: 0 wrong of all",
    async (_, firstRate, secondRate, times) => {
      const tools = testTools();
      const scratch = await scratchFolder();
      try {
        const clips: Clip[] = [];
        const pts: number[][] = [];
        for (const [k, rate] of [firstRate, secondRate].entries()) {
          const path = join(scratch.path, `${k}.mp4`);
          const half = { widthPx: 288, heightPx: HEIGHT, frames: 480, rate };
          await writeNumberedClip(path, k === 1 && times ? { ...half, times } : half, tools);
          clips.push(await probeClip(path, `clip${k}`, tools));
          const { packets } = await probeFile(path, tools, true);
          pts.push(packets.map((packet) => Number(packet.pts_time)).sort((a, b) => a - b));
        }
        const { film, card } = pairFilm(clips);
        const outPath = join(scratch.path, "out.mp4");
        const rendered = await renderFilm(
          {
            film,
            clips,
            columns: countingRide(400),
            outPath,
            preset: { ...PRESETS.share, crf: 14 },
            layoutOptions: layoutOptionsFor(WIDTH, HEIGHT),
            cacheDir: join(scratch.path, "cache"),
          },
          tools,
          quietContext(),
        );
        expect(rendered.kind).toBe("done");
        const lumas = await lumaFrames(outPath, WIDTH, HEIGHT, tools);
        expect(lumas).toHaveLength(150);
        const { sides } = pairLayout(card, { width: WIDTH, height: HEIGHT }, "light", "en");
        let wrong = 0;
        lumas.forEach((luma, frame) => {
          const { firstS, secondS } = paceAt(PACE, frame / 30);
          [firstS - FIRST.offsetS, secondS - SECOND.offsetS].forEach((mediaS, which) => {
            const { rect } = sides[which]!;
            expect(rect).toMatchObject({ width: 288, height: HEIGHT });
            const half = Buffer.concat(
              Array.from({ length: 16 }, (__, y) => luma.subarray(y * WIDTH + rect.x, y * WIDTH + rect.x + rect.width)),
            );
            if (!nearest(pts[which]!, mediaS).includes(frameNumber(half, rect.width))) wrong += 1;
          });
        });
        expect(wrong).toBe(0);
      } finally {
        await scratch.remove();
      }
    },
    300_000,
  );
});

/** A clip of a rate, as far as its frames' times go. */
function clipAt(rate: number, seconds: number, id: string): Clip {
  const ticks = Float64Array.from({ length: rate * seconds }, (_, k) => k * (1200 / rate));
  return { id, frames: { timescale: 1200, ticks, keyframes: new Uint32Array(1), endTicks: seconds * 1200 } } as Clip;
}

describe("the plan of a pair", () => {
  const atThirty = { frameRate: { num: 30, den: 1 }, items: [] };
  const clips = [clipAt(25, 12, "clip0"), clipAt(60, 12, "clip1")];
  const clipOf = ({ footage }: PairSide): Clip | null => clips.find(({ id }) => id === footage?.clipId) ?? null;

  it("asks the place function at every output frame, in one part as in two", () => {
    const { card } = pairFilm(clips);
    const whole = planPair(atThirty, card, clipOf, 5, 0, 150);
    for (let frame = 0; frame < 150; frame++) {
      const { firstS, secondS } = paceAt(card.pace, frame / 30);
      [firstS - FIRST.offsetS, secondS - SECOND.offsetS].forEach((mediaS, which) => {
        const { source, clip } = whole.footage[which]!;
        const shownS = clip.frames.ticks[source[frame]!]! / 1200;
        expect(Math.abs(shownS - mediaS)).toBeLessThanOrEqual(0.5 / (which === 0 ? 25 : 60) + 1e-9);
      });
    }
    const later = planPair(atThirty, card, clipOf, 5, 60, 90);
    for (const which of [0, 1] as const)
      expect([...later.footage[which]!.source]).toEqual([...whole.footage[which]!.source.subarray(60)]);
  });

  it("figures are those of the frames on the picture, not of the instant asked for", () => {
    const { card } = pairFilm(clips);
    const { pictures, footage } = planPair(atThirty, card, clipOf, 5, 0, 150);
    for (const { frame, times } of pictures) {
      expect(times.firstS).toBeCloseTo(FIRST.offsetS + footage[0]!.source[frame]! / 25, 9);
      expect(times.secondS).toBeCloseTo(SECOND.offsetS + footage[1]!.source[frame]! / 60, 9);
    }
  });

  it("what ffmpeg is told gives those frames: delivered ones come on where they are first asked for", () => {
    const frames = Float64Array.from({ length: 150 }, (_, k) => paceAt(PACE, k / 30).secondS - SECOND.offsetS);
    const { timing, source } = pacedFrames(clips[1]!, frames, 1 / 30);
    const comesOn = (n: number): number => timing.shifts.reduce((sum, { from, by }) => sum + (n >= from ? by : 0), n);
    for (let frame = 0, shown = 0; frame < source.length; frame++) {
      while (shown + 1 <= source.at(-1)! - source[0]! && comesOn(shown + 1) <= frame) shown++;
      expect(shown).toBe(source[frame]! - source[0]!);
    }
  });

  it("a side without footage leaves the other's frames alone", () => {
    const { card } = pairFilm([clips[0]!, null]);
    const plan = planPair(atThirty, card, clipOf, 5, 0, 150);
    expect(plan.footage[1]).toBeNull();
    const both = planPair(atThirty, pairFilm(clips).card, clipOf, 5, 0, 150);
    expect(plan.footage[0]!.source).toEqual(both.footage[0]!.source);
  });
});
