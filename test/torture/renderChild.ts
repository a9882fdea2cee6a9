// Renders a small film of a card, four shots and panels; for the tests that kill it, and that run two at once.
// Arguments: clip, cache folder, film.
import { resolve } from "node:path";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { toolsInUse } from "../../main/host/toolsInUse.edge.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext, shotOf } from "../render/filmFixtures.ts";

const [path = "", cacheDir = "", outPath = ""] = process.argv.slice(2);
const tools = toolsInUse();
const clip = await probeClip(path, "c1", tools);
const card = {
  type: "card",
  id: "title",
  durationS: 1,
  card: { kind: "title", title: "One long climb", lines: ["Ana, 3 May"] },
  moment: null,
  why: "a test",
  commentPath: null,
  crossfadeS: 0,
} as const;
const shots = [0, 1, 2, 3].map((startS) => shotOf(clip, startS, startS + 1));
const result = await renderFilm(
  {
    film: filmOf(clip, [card, ...shots]),
    clips: [clip],
    columns: countingRide(400),
    outPath: resolve(outPath),
    preset: PRESETS.draft,
    layoutOptions: layoutOptionsFor(clip.widthPx, clip.heightPx),
    cacheDir,
  },
  tools,
  quietContext(),
);
if (result.kind !== "done") throw new Error(JSON.stringify(result));
