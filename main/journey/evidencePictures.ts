import { basename, join } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { JobContext } from "../contract/job.ts";
import { evidencePicture } from "../lineup/evidencePicture.edge.ts";
import { sensedSignals } from "../lineup/recordingSeries.ts";
import { clipSignals } from "./heardClips.ts";
import { type Debrief, shownRideOf } from "./debrief.ts";
import type { Host } from "./host.ts";
import type { LineupOutcome } from "./linedUpClips.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";

/** Writes `CLIP-lineup.png` for each clip that has a place; gives the paths. Failure `output-not-writable`, Cancelled, and as `readSignals`. */
export async function writeEvidence(
  { clips, lineup, debrief }: LineupOutcome & { readonly debrief: Debrief },
  folder: string,
  host: Host,
  context: JobContext,
): Promise<string[]> {
  const { ride } = shownRideOf(debrief)!;
  await makeFolder(folder);
  const placed = clips.filter((clip) =>
    lineup.clips.some(({ clipId, found, verdict }) => clipId === clip.id && found !== null && verdict !== "no match"),
  );
  const { media } = debrief;
  const seen = await clipSignals(placed, media, host, context);
  const signals = sensedSignals(seen.signals, [...media.telemetry.values()]);
  const written: string[] = [];
  for (const clip of placed) {
    const { found } = lineup.clips.find(({ clipId }) => clipId === clip.id)!;
    const path = join(folder, `${basename(clip.fileName).replace(/\.[^.]*$/, "")}-lineup.png`);
    try {
      await writeAtomic(
        path,
        evidencePicture(
          clip.fileName,
          signals.find(({ clipId }) => clipId === clip.id)!,
          found!,
          ride,
        ),
      );
    } catch (cause) {
      throw new Failure("evidence-not-written", { path }, cause);
    }
    written.push(path);
  }
  return written;
}
