import type { Fit, SlowSound } from "../contract/presets.ts";
import { createHash } from "node:crypto";
import { stat } from "node:fs/promises";
import { availableParallelism } from "node:os";
import { serialize } from "node:v8";
import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { AlphaCodec } from "./alphaTrack.ts";
import type { Encoding } from "./encoding.ts";
import type { PaintSetup } from "./paintMessages.ts";
import type { PartPlan } from "./planFilm.ts";

/** Put in by the bundler: changes whenever the same plan could come out as another picture or sound. Missing in a test. */
declare const FOLLOWCAR_FILM_RECIPE: string | undefined;
const RECIPE = typeof FOLLOWCAR_FILM_RECIPE === "string" ? FOLLOWCAR_FILM_RECIPE : "sources";

export interface PartSettings {
  readonly film: Film;
  readonly paint: Pick<PaintSetup, "layoutOptions" | "route" | "bandW">;
  readonly encoding: Encoding | AlphaCodec;
  readonly fit: Fit;
  readonly slowSound: SlowSound;
  readonly ffmpegVersion: string;
}

/** A name that is the same exactly when the finished part would be: sources, frames, pictures, settings, programs. */
export async function partName(plan: PartPlan, settings: PartSettings): Promise<string> {
  const pieces = [];
  for (const { piece, source, comment } of plan.pieces) {
    pieces.push([
      piece.firstFrame,
      piece.frames,
      piece.crossfadeFrames,
      source.kind === "card"
        ? source.card
        : source.kind === "pair"
          ? [
              source.pair.card,
              await Promise.all(
                source.pair.footage.map(async (side) => side && [await contentOf(side.clip), side.timing, side.covers]),
              ),
            ]
          : [
              await contentOf(source.clip),
              source.timing,
              source.shot.speed,
              source.shot.drawings,
              source.covers,
              source.shot.closeUp === undefined
                ? []
                : [source.shot.closeUp, source.shot.mediaStartS, source.shot.freezes],
              source.shot.keepRideSound === true,
              source.shot.speed < 1 && settings.slowSound,
            ],
      comment === null ? null : [comment.startFrame, comment.lengthS, await fileFacts(comment.path)],
    ]);
  }
  const { film, paint, encoding, fit, ffmpegVersion } = settings;
  const all = [
    [RECIPE, ffmpegVersion, availableParallelism(), encoding, fit],
    [film.widthPx, film.heightPx, film.frameRate.num, film.frameRate.den],
    [paint.layoutOptions, paint.route, paint.bandW],
    [plan.part.frames, pieces, plan.panels],
  ];
  return createHash("sha256").update(serialize(all)).digest("hex").slice(0, 32);
}

/** What a clip holds: the time of its last change too, since a fingerprint looks at places of a large file only. */
async function contentOf({ path, fingerprint, colour }: Clip): Promise<readonly unknown[]> {
  return [fingerprint, (await stat(path)).mtimeMs, colour];
}

async function fileFacts(path: string): Promise<readonly [string, number, number]> {
  const { size, mtimeMs } = await stat(path);
  return [path, size, mtimeMs];
}
