import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Clip } from "../../main/contract/footage.ts";
import type { Shot } from "../../main/contract/film.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { holdForComments } from "../../main/film/holdForComments.ts";
import { measureLoudness } from "../../main/render/measureLoudness.edge.ts";
import { renderFilm, type FilmJob } from "../../main/render/renderFilm.edge.ts";
import { bestLag, longestSilence, SOUND_RATE_HZ, soundOf } from "../support/sound.ts";
import { testTools } from "../support/tools.ts";
import { runProgram, scratchFolder, writeNumberedClip } from "../support/video.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext, shotOf } from "./filmFixtures.ts";

const tools = testTools();
let scratch: Awaited<ReturnType<typeof scratchFolder>>;
let clip: Clip;
let source: Float32Array;

beforeAll(async () => {
  scratch = await scratchFolder();
  const path = join(scratch.path, "noise.mp4");
  // Noise that repeats nowhere: a shift of one sample shows.
  const noise = "anoisesrc=r=48000:d=12:c=pink:seed=7:a=0.6";
  await writeNumberedClip(path, { widthPx: 320, heightPx: 180, frames: 360, rate: "30000/1001", sound: noise }, tools);
  clip = await probeClip(path, "c1", tools);
  source = await soundOf(path);
});

afterAll(() => scratch.remove());

async function filmSound(name: string, items: readonly Shot[], more: Partial<FilmJob> = {}): Promise<Float32Array> {
  const outPath = join(scratch.path, `${name}.mp4`);
  const film = filmOf(clip, items);
  const job = {
    film,
    clips: [clip],
    columns: countingRide(400),
    outPath,
    preset: PRESETS.draft,
    layoutOptions: layoutOptionsFor(320, 180),
    cacheDir: join(scratch.path, "cache"),
    ...more,
  };
  const result = await renderFilm(job, tools, quietContext());
  if (result.kind !== "done") throw new Error(JSON.stringify(result));
  return soundOf(outPath);
}

test(
  "after twelve cuts the sound is the picture's own to 4 ms, with no gap at any join",
  { timeout: 180_000 },
  async () => {
    const starts = [0, 3.3, 1.1, 6.7, 0.4, 9.2, 5.5, 2.2, 8.1, 4.4, 7.3, 10.1];
    const shots = starts.map((startS, k) => shotOf(clip, startS, startS + 0.7 + (k % 4) * 0.2));
    const film = await filmSound("cuts", shots);
    const frameS = 1001 / 30000;
    let frames = 0;
    const joins: number[] = [];
    for (const shot of shots) {
      const length = Math.round((shot.mediaEndS - shot.mediaStartS) / frameS);
      // The first picture is the frame nearest to the start.
      const firstS = Math.round(shot.mediaStartS / frameS) * frameS;
      const filmAt = Math.round(frames * frameS * SOUND_RATE_HZ);
      const { lag, likeness } = bestLag(
        film,
        filmAt + 4800,
        source,
        Math.round(firstS * SOUND_RATE_HZ) + 4800,
        9600,
        1600,
      );
      expect(likeness).toBeGreaterThan(0.9);
      // Half a frame of 33 ms would be 800 samples; 4 ms are 192.
      expect(Math.abs(lag)).toBeLessThanOrEqual(192);
      frames += length;
      joins.push(Math.round(frames * frameS * SOUND_RATE_HZ));
    }
    for (const join of joins.slice(0, -1)) expect(longestSilence(film, join - 2400, join + 2400)).toBeLessThan(24);
    expect(Math.abs(film.length / SOUND_RATE_HZ - frames * frameS)).toBeLessThan(0.03);
  },
);

function loudness(film: Float32Array, fromS: number, toS: number): number {
  const piece = film.subarray(Math.round(fromS * SOUND_RATE_HZ), Math.round(toS * SOUND_RATE_HZ));
  return Math.sqrt(piece.reduce((sum, value) => sum + value * value, 0) / piece.length);
}

test(
  "a freeze is silent for as long as it lasts, and the sound goes on where it stopped",
  { timeout: 120_000 },
  async () => {
    const frameS = 1001 / 30000;
    const film = await filmSound("freeze", [
      shotOf(clip, 30 * frameS, 90 * frameS, { freezes: [{ atMediaS: 60 * frameS, durationS: 30 * frameS }] }),
    ]);
    expect(loudness(film, 0.1, 0.95)).toBeGreaterThan(0.02);
    expect(loudness(film, 1.06, 1.94)).toBeLessThan(0.002);
    const { lag, likeness } = bestLag(
      film,
      Math.round(62 * frameS * SOUND_RATE_HZ),
      source,
      Math.round(62 * frameS * SOUND_RATE_HZ),
      9600,
      800,
    );
    expect(likeness).toBeGreaterThan(0.9);
    expect(Math.abs(lag)).toBeLessThanOrEqual(192);
  },
);

test(
  "fast shots carry their sound softly as filmed, slowed ones last to the end, and none makes the film longer",
  { timeout: 180_000 },
  async () => {
    const frameS = 1001 / 30000;
    const fast = await filmSound("fast", [shotOf(clip, 0, 240 * frameS, { speed: 8 }), shotOf(clip, 0, 60 * frameS)]);
    const { likeness } = bestLag(fast, 4800, source, 4800, 9600, 200);
    expect(likeness).toBeGreaterThan(0.9);
    expect(loudness(fast, 0.1, 0.9)).toBeLessThan(0.5 * loudness(fast, 1.2, 2.8));
    const slow = await filmSound("slow", [shotOf(clip, 0, 30 * frameS, { speed: 0.25 })]);
    expect(Math.abs(slow.length / SOUND_RATE_HZ - 120 * frameS)).toBeLessThan(0.03);
    expect(loudness(slow, 3.5, 3.9)).toBeGreaterThan(0.02);
  },
);

test("slowed shots are silent where that is wished, the others are not", { timeout: 180_000 }, async () => {
  const frameS = 1001 / 30000;
  const shots = [shotOf(clip, 0, 15 * frameS, { speed: 0.125 }), shotOf(clip, 3, 3 + 60 * frameS)];
  const joinS = 120 * frameS;
  // The part is the same but for its sound: what an earlier film kept of it must not come back.
  const stretched = await filmSound("stretched", shots);
  expect(loudness(stretched, 0.2, joinS - 0.2)).toBeGreaterThan(0.02);
  const none = await filmSound("none", shots, { slowSound: "none" });
  expect(none.length).toBe(stretched.length);
  expect(loudness(none, 0.1, joinS - 0.1)).toBeLessThan(0.001);
  const { lag, likeness } = bestLag(
    none,
    Math.round((joinS + 0.5) * SOUND_RATE_HZ),
    stretched,
    Math.round((joinS + 0.5) * SOUND_RATE_HZ),
    9600,
    800,
  );
  expect(lag).toBe(0);
  expect(likeness).toBeGreaterThan(0.9);
});

/** Strength of a tone of 1 kHz. */
function tone(film: Float32Array, fromS: number): number {
  let re = 0;
  let im = 0;
  const from = Math.round(fromS * SOUND_RATE_HZ);
  for (let k = 0; k < 9600; k += 1) {
    re += (film[from + k] ?? 0) * Math.cos((2 * Math.PI * 1000 * k) / SOUND_RATE_HZ);
    im += (film[from + k] ?? 0) * Math.sin((2 * Math.PI * 1000 * k) / SOUND_RATE_HZ);
  }
  return Math.hypot(re, im) / 9600;
}

test("at 2x a voice keeps its pitch", { timeout: 60_000 }, async () => {
  const path = join(scratch.path, "voice.mp4");
  await writeNumberedClip(
    path,
    { widthPx: 320, heightPx: 180, frames: 150, rate: "30000/1001", sound: "sine=1000:r=48000:d=5" },
    tools,
  );
  const voice = await probeClip(path, "c1", tools);
  const outPath = join(scratch.path, "voice-film.mp4");
  const film = filmOf(voice, [shotOf(voice, 0, 4, { speed: 2 })]);
  const result = await renderFilm(
    {
      film,
      clips: [voice],
      columns: countingRide(400),
      outPath,
      preset: PRESETS.draft,
      layoutOptions: layoutOptionsFor(320, 180),
      cacheDir: join(scratch.path, "cache"),
    },
    tools,
    quietContext(),
  );
  if (result.kind !== "done") throw new Error(JSON.stringify(result));
  const heard = await soundOf(outPath);
  expect(heard.length / SOUND_RATE_HZ).toBeCloseTo(2, 1);
  expect(tone(heard, 0.8)).toBeGreaterThan(0.3 * loudness(heard, 0.8, 1));
});

/** Sound without the comment's tone: a notch of one period. */
function rideOnly(film: Float32Array): Float32Array {
  return film.map((value, at) => (at < 24 ? value : (value + film[at - 24]!) / 2));
}

async function spoken(seconds: number, more = ""): Promise<string> {
  const path = join(scratch.path, `comment-${seconds}${more === "" ? "" : "-quiet"}.wav`);
  await runProgram(tools.ffmpeg, [
    "-v",
    "error",
    "-f",
    "lavfi",
    "-i",
    `sine=1000:r=44100:d=${seconds}${more}`,
    "-y",
    path,
  ]);
  return path;
}

test(
  "a comment is heard over its shot, which goes down beneath it and comes up again",
  { timeout: 120_000 },
  async () => {
    const commentPath = await spoken(1.2);
    const film = await filmSound("comment", [shotOf(clip, 1, 5, { commentPath, commentS: 1.2 })]);
    expect(tone(film, 0.3)).toBeGreaterThan(20 * tone(film, 2));
    const ride = rideOnly(film);
    const beneath = loudness(ride, 0.4, 1.1) / loudness(ride, 2, 3.5);
    console.info(`ride beneath speech: ${(20 * Math.log10(beneath)).toFixed(1)} dB`);
    expect(beneath).toBeLessThan(0.3);
    // The same shot whose own sound carries speech stays up.
    const kept = rideOnly(
      await filmSound("kept", [shotOf(clip, 1, 5, { commentPath, commentS: 1.2, keepRideSound: true })]),
    );
    expect(loudness(kept, 0.4, 1.1) / loudness(kept, 2, 3.5)).toBeGreaterThan(0.7);
  },
);

test(
  "the picture waits for the last word: shot and card hold, with silence from the ride and the comment whole",
  { timeout: 120_000 },
  async () => {
    const commentPath = await spoken(3);
    const items = [shotOf(clip, 1, 2.5, { commentPath, commentS: 3 }), shotOf(clip, 6, 7)];
    const held = holdForComments(filmOf(clip, items));
    const film = await filmSound("held", held.items as Shot[]);
    const lengthS = film.length / SOUND_RATE_HZ;
    expect(lengthS).toBeGreaterThanOrEqual(3.4 + 1 - 0.05);
    expect(lengthS).toBeLessThan(3.4 + 1 + 0.15);
    for (const atS of [0.2, 1.5, 2.7]) expect(tone(film, atS)).toBeGreaterThan(0.05);
    expect(tone(film, 3.1)).toBeLessThan(0.01);
    expect(loudness(rideOnly(film), 1.8, 2.8)).toBeLessThan(0.01);
    const card = holdForComments({
      ...held,
      items: [
        {
          type: "card",
          id: "k",
          durationS: 2,
          card: { kind: "note", title: "t", lines: [] },
          moment: null,
          why: "",
          commentPath,
          commentS: 3,
          crossfadeS: 0,
        },
      ],
    }).items[0]!;
    expect(card.type === "card" && card.durationS).toBeGreaterThanOrEqual(3.4);
    // Reckoned twice it is the same; a comment taken away lets the shot go.
    expect(holdForComments(held)).toEqual(held);
    expect(holdForComments({ ...held, items: [{ ...held.items[0]!, commentPath: null }] }).items[0]).toMatchObject({
      freezes: [],
    });
  },
);

// EBU R 128 (2020), measured by ffmpeg's ebur128: programme loudness within 0.5 LU of the target, true peak under -1 dBTP.
test.each([
  ["quiet speech over wind", { volume: ",volume=0.05", comment: true }],
  ["wind alone", { volume: "", comment: false }],
])(
  "the film of %s is at -16 LUFS with true peaks under -1 dBTP",
  { timeout: 120_000 },
  async (name, { volume, comment }) => {
    const commentPath = comment ? await spoken(2.5, volume) : null;
    await filmSound(name, [
      shotOf(clip, 1, 5, { commentPath, ...(comment ? { commentS: 2.5 } : {}) }),
      shotOf(clip, 6, 11),
    ]);
    const { integratedLufs, truePeakDbtp } = await measureLoudness(join(scratch.path, `${name}.mp4`), [], null, tools);
    console.info(`${name}: ${integratedLufs} LUFS, ${truePeakDbtp} dBTP`);
    expect(Math.abs(integratedLufs! + 16)).toBeLessThanOrEqual(0.5);
    expect(truePeakDbtp!).toBeLessThan(-1);
  },
);

test("one comment taken anew renders one part anew", { timeout: 120_000 }, async () => {
  const commentPath = join(scratch.path, "retake.wav");
  const take = async (hz: number): Promise<void> =>
    void (await runProgram(tools.ffmpeg, [
      "-v",
      "error",
      "-f",
      "lavfi",
      "-i",
      `sine=${hz}:r=44100:d=0.8`,
      "-y",
      commentPath,
    ]));
  const render = async () => {
    const film = filmOf(clip, [
      shotOf(clip, 1, 2),
      shotOf(clip, 3, 4.2, { commentPath, commentS: 0.8 }),
      shotOf(clip, 6, 7),
    ]);
    const job = {
      film,
      clips: [clip],
      columns: countingRide(400),
      outPath: join(scratch.path, "retake.mp4"),
      preset: PRESETS.draft,
      layoutOptions: layoutOptionsFor(320, 180),
      cacheDir: join(scratch.path, "retake-cache"),
    };
    const result = await renderFilm(job, tools, quietContext());
    if (result.kind !== "done") throw new Error(JSON.stringify(result));
    return result.value.partsKept;
  };
  await take(500);
  expect(await render()).toBe(0);
  expect(await render()).toBe(3);
  await take(700);
  expect(await render()).toBe(2);
});

/** A file's first channel as it is: a sum of two would hide how loud each is. */
async function leftOf(path: string): Promise<Float32Array> {
  const raw = ["-map", "0:a", "-af", "pan=mono|c0=c0", "-ar", String(SOUND_RATE_HZ), "-f", "f32le", "pipe:1"];
  const bytes = await runProgram(tools.ffmpeg, ["-v", "error", "-i", path, ...raw]);
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length));
}

/** A film of a clip of its own, its sound left as loud as it was recorded. */
async function recordedSound(name: string, sound: string, items: (clip: Clip) => readonly Shot[]) {
  const path = join(scratch.path, `${name}-clip.mp4`);
  await writeNumberedClip(path, { widthPx: 320, heightPx: 180, frames: 180, rate: "30", sound }, tools);
  const own = await probeClip(path, name, tools);
  const outPath = join(scratch.path, `${name}.mp4`);
  const job = {
    film: filmOf(own, items(own)),
    clips: [own],
    columns: countingRide(400),
    outPath,
    preset: PRESETS.draft,
    layoutOptions: layoutOptionsFor(320, 180),
    cacheDir: join(scratch.path, "cache"),
    paging: "turning" as const,
  };
  expect(await renderFilm(job, tools, quietContext())).toMatchObject({ kind: "done" });
  return { clip: own, source: await leftOf(path), made: await leftOf(outPath) };
}

test("one channel comes out as loud as it was", { timeout: 120_000 }, async () => {
  const sound = "anoisesrc=r=48000:d=6:c=pink:seed=3:a=0.4";
  const { clip: mono, source: before, made } = await recordedSound("mono", sound, (own) => [shotOf(own, 0, 4)]);
  expect(mono.audio?.channels).toBe(1);
  expect(20 * Math.log10(loudness(made, 0.5, 3.5) / loudness(before, 0.5, 3.5))).toBeCloseTo(0, 0);
});

test("six loud channels are mixed to two without clipping", { timeout: 120_000 }, async () => {
  const sine = "0.9*sin(2*PI*440*t)";
  const sound = `aevalsrc=${Array.from({ length: 6 }, () => sine).join("|")}:c=5.1:s=48000:d=6`;
  const { clip: six, made } = await recordedSound("six", sound, (own) => [shotOf(own, 0, 4)]);
  expect(six.audio?.channels).toBe(6);
  const piece = made.subarray(SOUND_RATE_HZ, 3 * SOUND_RATE_HZ);
  const peak = piece.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  // A sine's peak stands 3.01 dB over its mean square; a clipped one's does not.
  expect(20 * Math.log10(peak / loudness(made, 1, 3))).toBeGreaterThan(2.8);
  expect(peak).toBeGreaterThan(0.7);
});

/** When each burst of a made sound has its middle, s: one of 80 ms every 0.7 s. */
const BURST_S = 0.08;
const burstMiddleS = (k: number): number => 0.3 + 0.7 * k + BURST_S / 2;

test.each([0.125, 0.25, 0.5, 0.75, 1.5, 2])(
  "at a speed of %s a sound comes with its picture to 10 ms",
  { timeout: 120_000 },
  async (speed) => {
    const sound = `aevalsrc='if(lt(mod(t+0.4\\,0.7)\\,${BURST_S})\\,0.5*sin(2*PI*700*t)+0.3*sin(2*PI*1130*t)\\,0)':s=48000:d=6`;
    const { made } = await recordedSound(`at-${speed}`, sound, (own) => [shotOf(own, 0, 3.2, { speed })]);
    const off: number[] = [];
    for (let k = 0; burstMiddleS(k) < 3; k += 1) {
      const middleS = burstMiddleS(k) / speed;
      const from = Math.round((middleS - 0.28 / speed) * SOUND_RATE_HZ);
      let [sum, moment] = [0, 0];
      made.subarray(from, Math.round((middleS + 0.28 / speed) * SOUND_RATE_HZ)).forEach((value, n) => {
        sum += value * value;
        moment += n * value * value;
      });
      off.push((from + moment / sum) / SOUND_RATE_HZ - middleS);
    }
    const worstMs = Math.max(...off.map((s) => Math.abs(s) * 1000));
    expect(worstMs).toBeLessThanOrEqual(10);
  },
);
