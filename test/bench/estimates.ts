/**
 * What a render says of the time left, against what it then took: each preset in each shape, a film of 75 s of shots and
 * cards out of 1080p.
 */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { filmSizeFor, fitFor, PRESETS, type PresetName, type ShapeName } from "../../main/contract/presets.ts";
import type { FilmItem } from "../../main/contract/film.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext, shotOf } from "../render/filmFixtures.ts";
import { testTools } from "../support/tools.ts";
import { writeCameraLike } from "./cameraLike.ts";

const KINDS: readonly (readonly [PresetName, ShapeName | null, sizeMb?: number])[] = [
  ["draft", null],
  ["share", null],
  ["share", "9:16"],
  ["share", "1:1"],
  ["phone", null],
  ["phone", null, 9],
  ["archive", null],
];
/** From then on what is said is to be within 1.5 times, s. */
const AFTER_S = 10;
const SHOTS = 5;
const SHOT_S = 12;
const CARD_S = 3;

/** Prints a row for each kind of film. */
export async function benchEstimates(): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "followcar-bench-"));
  try {
    const path = join(folder, "clip.mp4");
    await writeCameraLike(path, { widthPx: 1920, heightPx: 1080, frames: 1950, mbitPerSecond: 25 }, folder);
    const clip = await probeClip(path, "c1", testTools());
    const items = Array.from({ length: SHOTS }, (_, k): FilmItem[] => [
      {
        type: "card",
        id: `k${k}`,
        durationS: CARD_S,
        card: { kind: "note", title: `Part ${k + 1}`, lines: ["Held through the climb."] },
        moment: null,
        why: "",
        commentPath: null,
        crossfadeS: 0,
      },
      shotOf(clip, k * SHOT_S, (k + 1) * SHOT_S),
    ]).flat();
    console.log(
      `film of ${SHOTS * (SHOT_S + CARD_S)} s; whole time as said from ${AFTER_S} s on, against what it took`,
    );
    for (const [name, shape, sizeMb] of KINDS) {
      const preset = sizeMb === undefined ? PRESETS[name] : { ...PRESETS[name], sizeMb };
      const size = filmSizeFor(preset, clip, shape);
      const film = filmOf(clip, items, size);
      const startedMs = performance.now();
      const said: { readonly atS: number; readonly wholeS: number }[] = [];
      const result = await renderFilm(
        {
          film,
          clips: [clip],
          columns: countingRide(400),
          outPath: join(folder, "film.mp4"),
          preset,
          layoutOptions: layoutOptionsFor(size.widthPx, size.heightPx),
          cacheDir: join(folder, "cache"),
          fit: fitFor(preset, shape, null),
          anew: true,
        },
        testTools(),
        {
          ...quietContext(),
          report({ leftS }) {
            const atS = (performance.now() - startedMs) / 1000;
            if (leftS !== null && atS >= AFTER_S) said.push({ atS, wholeS: atS + leftS });
          },
        },
      );
      if (result.kind !== "done") throw new Error(JSON.stringify(result));
      const tookS = (performance.now() - startedMs) / 1000;
      const ratios = said.filter(({ atS }) => atS < tookS - 1).map(({ wholeS }) => wholeS / tookS);
      const range = ratios.length === 0 ? "done before" : `${two(Math.min(...ratios))} to ${two(Math.max(...ratios))}`;
      console.log(
        `${[name, shape ?? "", sizeMb === undefined ? "" : `${sizeMb} MB`].join(" ").padEnd(16)} took ${tookS.toFixed(1).padStart(6)} s, said ${range}`,
      );
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function two(value: number): string {
  return value.toFixed(2);
}
