/** A film of three shots, slow to encode; rendered in a process of its own so that it can be killed. Arguments: clip, folder, `panels` or `plain`. */
import { join } from "node:path";
import { PRESETS } from "../../main/contract/presets.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { testTools } from "../support/tools.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext, shotOf } from "./filmFixtures.ts";

const [path = "", folder = "", kind = "plain"] = process.argv.slice(2);
const clip = await probeClip(path, "c1", testTools());
const options = layoutOptionsFor(clip.widthPx, clip.heightPx);
await renderFilm(
  {
    film: filmOf(clip, [shotOf(clip, 0, 0.5), shotOf(clip, 1, 19), shotOf(clip, 0.5, 18)]),
    clips: [clip],
    columns: countingRide(400),
    outPath: join(folder, "film.mp4"),
    preset: PRESETS.archive,
    layoutOptions: kind === "panels" ? options : { ...options, panels: [], showThread: false, headLine: false },
    cacheDir: join(folder, "cache"),
  },
  testTools(),
  quietContext(),
);
