import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { demoClips } from "../../main/demo/demoClips.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { filmClips } from "../../main/demo/filmClips.edge.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { readSignals } from "../../main/footage/signals/readSignals.edge.ts";
import { placeClips } from "../../main/lineup/placeClips.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { testTools } from "../support/tools.ts";

/**
 * Line-up by signals through real decoding: the demo's three clips of each seed, filmed without telemetry at 320 x 180
 * and solved together with no hint. Prints the error of each and the shares. `simulated`: the scene is our own.
 */
export async function benchLineupFilmed(seeds: readonly number[]): Promise<void> {
  const errors: { readonly errorS: number; readonly listedS: number; readonly sure: boolean }[] = [];
  for (const seed of seeds) {
    const folder = mkdtempSync(join(tmpdir(), "followcar-filmed-"));
    try {
      const truth = demoRide(seed);
      const filmed = demoClips(truth, false, false);
      const orders = filmed.map((clip) => ({
        seed,
        clip,
        outDir: folder,
        picture: { widthPx: 320, heightPx: 180 },
        tools: testTools(),
      }));
      const paths = await filmClips(orders, new AbortController().signal, () => undefined);
      const clips = await Promise.all(paths.map((path, k) => probeClip(path, String(k), testTools())));
      const signals = [];
      for (const clip of clips) signals.push(await readSignals(clip, testTools(), { turningFelt: false }));
      const { clips: placed } = placeClips({
        ride: parseRide(demoRideFile(truth), "ride.fit"),
        clips,
        anchors: [],
        deviceDelayS: 0,
        signals,
      });
      placed.forEach(({ found, sure, candidates, method }, k) => {
        const errorS = found ? found.offsetS - filmed[k]!.startS : NaN;
        const listedS = Math.min(
          ...candidates.map(({ rideStartS }) => Math.abs(rideStartS - filmed[k]!.startS)),
          Math.abs(errorS),
        );
        errors.push({ errorS, listedS, sure });
        console.log(
          `seed ${seed} ${clips[k]!.fileName}: by ${method}, ${sure ? "sure" : "not sure"}, error ` +
            `${errorS.toFixed(2)} s, nearest candidate ${listedS.toFixed(2)} s off`,
        );
      });
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }
  const found = errors.map(({ errorS }) => Math.abs(errorS)).sort((a, b) => a - b);
  const sure = errors.filter((e) => e.sure);
  console.log(
    `simulated, ${errors.length} filmed clips: median error ${found[found.length >> 1]!.toFixed(2)} s, worst ` +
      `${found[found.length - 1]!.toFixed(2)} s; truth among the candidates (2 s) ` +
      `${errors.filter((e) => e.listedS < 2).length}; sure ${sure.length}, sure but more than 2 s off ` +
      `${sure.filter((e) => Math.abs(e.errorS) > 2).length}`,
  );
}
