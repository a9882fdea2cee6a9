/**
 * One job of the film bench, in a process of its own: a film of shots and cards out of one long clip, as filmed or in
 * another form, or as many frames of the clip and as many of a card's picture encoded in one piece. Arguments: clip,
 * shots, one of `FORMS` or `plain`, output and, for `plain`, the picture of a card.
 */
import { rm } from "node:fs/promises";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { filmSizeFor, fitFor, PRESETS, type Preset, type ShapeName } from "../../main/contract/presets.ts";
import { encodingFor } from "../../main/render/encoding.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext } from "../render/filmFixtures.ts";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";
import { filmItems, filmLengths } from "./filmItems.ts";

const FORMS: Readonly<Record<string, { readonly preset: Preset; readonly shape: ShapeName | null }>> = {
  film: { preset: PRESETS.share, shape: null },
  "9:16": { preset: PRESETS.share, shape: "9:16" },
  "1:1": { preset: PRESETS.share, shape: "1:1" },
  phone: { preset: PRESETS.phone, shape: null },
};
const [path = "", shots = "6", kind = "plain", outPath = "", card = ""] = process.argv.slice(2);
const tools = testTools();
const clip = await probeClip(path, "c1", tools);
const form = FORMS[kind];
if (form !== undefined) {
  const { preset, shape } = form;
  const film = filmOf(clip, filmItems(clip, Number(shots)), filmSizeFor(preset, clip, shape));
  const cacheDir = `${outPath}.cache`;
  const columns = countingRide(Math.ceil(clip.durationS) + 200);
  const result = await renderFilm(
    {
      film,
      clips: [clip],
      columns,
      outPath,
      preset,
      layoutOptions: layoutOptionsFor(film.widthPx, film.heightPx),
      cacheDir,
      fit: fitFor(preset, shape, null),
    },
    tools,
    quietContext(),
  );
  await rm(cacheDir, { recursive: true, force: true });
  if (result.kind !== "done") throw new Error(JSON.stringify(result));
} else {
  const { shotFrames, cardFrames } = filmLengths(Number(shots));
  await runProgram(tools.ffmpeg, [
    ...["-v", "error", "-y", "-ss", "60", "-i", path, "-framerate", "30000/1001", "-i", card],
    ...[
      "-filter_complex",
      `[0:v]trim=end_frame=${shotFrames}[a];[1:v]format=yuv420p,loop=loop=${cardFrames - 1}` +
        ":size=1:start=0,setpts=N/FRAME_RATE/TB[b];[a][b]concat=n=2:v=1:a=0[v]",
      "-map",
      "[v]",
      "-map",
      "0:a",
    ],
    ...[
      "-t",
      String(((shotFrames + cardFrames) * 1001) / 30000),
      ...encodingFor(PRESETS.share, "libx264", 1).options,
      "-c:a",
      "aac",
      "-b:a",
      `${PRESETS.share.audioKbps}k`,
      outPath,
    ],
  ]);
}
