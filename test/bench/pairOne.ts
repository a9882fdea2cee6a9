/**
 * One job of the pair bench, in a process of its own so that all its processor time can be counted. Arguments: two clips,
 * frames, `bare` (two decodes, one scale each, one encode) or `pair` (both side by side by place, with threads and
 * numbers). Prints the most memory that this process held, MB.
 */
import type { PairSeries } from "../../main/contract/pair.ts";
import type { CardItem } from "../../main/contract/film.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { encodingFor } from "../../main/render/encoding.ts";
import { startPaintClient } from "../../main/render/paintClient.edge.ts";
import { planPart } from "../../main/render/planFilm.ts";
import { paintSetup, panelJob } from "../../main/render/renderFilm.edge.ts";
import { preparedGraph, runGraph, scratchFiles } from "../../main/render/renderPart.edge.ts";
import { layoutFor } from "../../overlay/layout/layout.ts";
import { pairSeries } from "../../main/film/pairItems.ts";
import { countingRide, filmOf, layoutOptionsFor } from "../render/filmFixtures.ts";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";

const [pathA = "", pathB = "", frameCount = "0", kind = "bare"] = process.argv.slice(2);
const frames = Number(frameCount);
const tools = testTools();
const encoding = encodingFor(PRESETS.share, "libx264", 1).options;

if (kind === "bare") {
  const half = "scale=960:1080,setsar=1";
  await runProgram(tools.ffmpeg, [
    ...["-v", "error", "-i", pathA, "-i", pathB],
    ...["-filter_complex", `[0:v]${half}[a];[1:v]${half}[b];[a][b]hstack,format=yuv420p[v]`, "-map", "[v]"],
    ...["-frames:v", String(frames), ...encoding, "-f", "null", "-"],
  ]);
} else {
  const clips = [await probeClip(pathA, "a", tools), await probeClip(pathB, "b", tools)];
  const [clip] = clips;
  const lengthS = (frames * clip!.frameRate.den) / clip!.frameRate.num;
  const columns = countingRide(400);
  const series: PairSeries = pairSeries(columns, 100, 100 + lengthS);
  const footage = (clipId: string) => ({ clipId, clock: { offsetS: 100, rate: 1 } });
  const spots = Array.from({ length: Math.ceil(lengthS) + 1 }, (_, k) => Math.min(100 + k, 100 + lengthS));
  const ends = [100, 100 + lengthS];
  const card: CardItem = {
    ...{ type: "card", id: "pair", durationS: lengthS, moment: null, why: "", commentPath: null, crossfadeS: 0 },
    card: {
      ...{ kind: "pair", title: "", follow: "place", units: "metric" },
      sides: [
        { name: "you", footage: footage("a"), series },
        { name: "coach", footage: footage("b"), series },
      ],
      pace: { filmS: [0, lengthS], firstS: ends, secondS: ends },
      spots: { firstS: spots, secondS: spots },
    },
  };
  const film = filmOf(clip!, [card]);
  const layoutOptions = layoutOptionsFor(film.widthPx, film.heightPx);
  const job = { film, clips, columns, preset: PRESETS.share, layoutOptions };
  const setup = paintSetup(job);
  const layout = layoutFor(setup.layoutOptions);
  const { signal } = new AbortController();
  const part = { startFrame: 0, frames, pieces: [{ item: 0, firstFrame: 0, frames, crossfadeFrames: 0 }] };
  const plan = planPart(panelJob(job, layout), part);
  const paint = startPaintClient(setup, {}, signal);
  const scratch = scratchFiles(`${pathA}.pair`);
  const graph = await preparedGraph({ film, plan, layout, fit: "pad", paint }, scratch, null, tools);
  await runGraph({
    job: { film, plan, paint, signal },
    pixels: "yuva420p",
    graph,
    outputOptions: ["-map", `[${graph.videoLabel}]`, ...encoding, "-f", "null"],
    output: "-",
    frames,
    onFrames: () => undefined,
    tools,
  });
  paint.close();
  await scratch.remove();
}
process.stderr.write(`${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MB\n`);
