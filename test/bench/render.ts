/**
 * What panels cost beside encoding the same frames alone, and a film beside encoding its frames in one piece: processor
 * time of ffmpeg and Node together, jobs side by side (`sideBySide.ts`). A plain-against-plain control tells how much of
 * it is noise.
 */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { build } from "esbuild";
import { writeCameraLike } from "./cameraLike.ts";
import { benchFilm, benchForms } from "./film.ts";
import { pairs } from "./sideBySide.ts";

const SIZES = [
  { name: "1080p30", widthPx: 1920, heightPx: 1080, frames: 300, mbitPerSecond: 40 },
  { name: "2160p30", widthPx: 3840, heightPx: 2160, frames: 150, mbitPerSecond: 70 },
];
/** Frames of a job that is all start-up. */
const FEW = 2;
/** The control needs fewer pairs: it only tells how wide the noise is. */
const CONTROL_PAIRS = 3;

/** Prints the table; `count` of 7 or more pairs for figures to speak of; of the films, which are long, three for each seven. */
export async function benchRender(
  count = 7,
  sizes: readonly string[] = SIZES.map(({ name }) => name),
  withFilm = true,
): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "followcar-bench-"));
  try {
    const program = await bundled("renderOne");
    process.stdout.write(
      `six panels, scrim and thread (5 steps a second) burnt in, against the same frames alone; libx264 veryfast crf 20; median of ${count} swapped pairs\n`,
    );
    for (const { name, frames, ...size } of SIZES.filter((one) => sizes.includes(one.name))) {
      const source = join(folder, `${name}.mp4`);
      await writeCameraLike(source, { ...size, frames: frames + 15 }, folder);
      const job = (kind: string, encoder: string, length = frames): string[] => [
        program,
        source,
        String(length),
        kind,
        encoder,
      ];
      const started = await pairs(count, job("panels", "none", FEW), job("plain", "none", FEW));
      process.stdout.write(`${name} start of the painter      ${(started.extraS * 1000).toFixed(0)} ms once a film\n`);
      // Without an encoder the panels' own cost shows, and nothing of what they change in the encoder's work.
      for (const [label, kind, encoder] of [
        ["control, encoded", "plain", "x264"],
        ["panels, encoded", "panels", "x264"],
        ["control, decoded only", "plain", "none"],
        ["panels, decoded only", "panels", "none"],
      ] as const) {
        const { ratio, ratios, extraS } = await pairs(
          kind === "plain" ? Math.min(count, CONTROL_PAIRS) : count,
          job(kind, encoder),
          job("plain", encoder),
        );
        const startS = kind === "panels" ? started.extraS : 0;
        process.stdout.write(
          `${name} ${label.padEnd(21)} ratio ${ratio.toFixed(3)} [${(ratios[0] ?? 0).toFixed(3)}..` +
            `${(ratios.at(-1) ?? 0).toFixed(3)}], start-up in it; extra ` +
            `${(((extraS - startS) * 1000) / frames).toFixed(1)} ms a frame beside start-up  (${frames} frames)\n`,
        );
      }
      await rm(source);
    }
    if (withFilm) await benchFilm(await bundled("filmOne"), folder, Math.max(1, Math.round((3 * count) / 7)));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Prints what other forms of a film cost beside as filmed; three pairs for each seven, since films are long. */
export async function benchUpright(count: number): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "followcar-bench-"));
  try {
    await benchForms(await bundled("filmOne"), folder, Math.max(1, Math.round((3 * count) / 7)));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Prints what a shot of two clips side by side costs beside two bare decodes, one scale each and one encode, 1080p. */
export async function benchPair(count: number): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "followcar-bench-"));
  try {
    const program = await bundled("pairOne");
    const [size] = SIZES;
    const { frames } = size!;
    const clips = [join(folder, "a.mp4"), join(folder, "b.mp4")];
    for (const clip of clips) await writeCameraLike(clip, { ...size!, frames: frames + 15 }, folder);
    const job = (kind: string, length = frames): string[] => [program, ...clips, String(length), kind];
    const say = (label: string, { ratio, ratios, extraS }: Awaited<ReturnType<typeof pairs>>): void =>
      void process.stdout.write(
        `${label.padEnd(28)} ratio ${ratio.toFixed(3)} [${ratios[0]!.toFixed(3)}..${ratios.at(-1)!.toFixed(3)}], ` +
          `${extraS.toFixed(2)} s more\n`,
      );
    say("control, bare against bare", await pairs(Math.min(count, CONTROL_PAIRS), job("bare"), job("bare")));
    say(`start-up (${FEW} frames)`, await pairs(Math.min(count, CONTROL_PAIRS), job("pair", FEW), job("bare", FEW)));
    say(`side by side (${frames} frames)`, await pairs(count, job("pair"), job("bare")));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function bundled(name: string): Promise<string> {
  const program = resolve("dist", "test", `bench-${name}.mjs`);
  await build({
    entryPoints: [`test/bench/${name}.ts`],
    outfile: program,
    bundle: true,
    platform: "node",
    format: "esm",
    packages: "external",
    logLevel: "error",
  });
  return program;
}
