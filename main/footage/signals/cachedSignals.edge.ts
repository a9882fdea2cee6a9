import { mkdir, readFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { Clip } from "../../contract/footage.ts";
import type { ClipSignals } from "../../contract/signals.ts";
import type { Tools } from "../../contract/tools.ts";
import { writeAtomic } from "../../host/writeAtomic.edge.ts";
import { companionClip } from "../companionClip.edge.ts";
import { readSignals, type SignalOptions } from "./readSignals.edge.ts";
import { parseSignals, SIGNALS_VERSION, signalsText } from "./signalsText.ts";

/** A clip's signals and whether they were kept from an earlier reading. */
export interface FoundSignals {
  readonly signals: ClipSignals;
  readonly kept: boolean;
}

function keptPath(clip: Clip, cacheDir: string, turningFelt: boolean): string {
  return join(cacheDir, "signals", `${clip.fingerprint}-${SIGNALS_VERSION}${turningFelt ? "-felt" : ""}.json`);
}

/** What `cachedSignals` kept of a clip; null where it was never looked at so. @param turningFelt as of `SignalOptions` */
export async function keptSignals(clip: Clip, cacheDir: string, turningFelt: boolean): Promise<ClipSignals | null> {
  return readFile(keptPath(clip, cacheDir, turningFelt), "utf8").then(
    (text) => parseSignals(text, clip.id),
    () => null,
  );
}

/**
 * `readSignals` of the clip, or of the camera's small one beside it, kept under `cacheDir` by the clip's fingerprint,
 * so that a clip is looked at once wherever it lies. A cache that cannot be written is done without. What was broken
 * off by the signal is not kept.
 */
export async function cachedSignals(
  clip: Clip,
  tools: Tools,
  cacheDir: string,
  options: SignalOptions,
): Promise<FoundSignals> {
  const path = keptPath(clip, cacheDir, options.turningFelt);
  const before = await keptSignals(clip, cacheDir, options.turningFelt);
  if (before) return { signals: before, kept: true };
  const read = await readSignals((await companionClip(clip)) ?? clip, tools, options);
  const text = signalsText(read);
  // As it is kept, so that the first look at a clip gives the same place as every later one.
  const signals = parseSignals(text, clip.id) ?? read;
  if (options.signal?.aborted) return { signals, kept: false };
  try {
    await mkdir(dirname(path), { recursive: true, mode: 0o700 });
    await writeAtomic(path, text);
  } catch {
    // A cache that cannot be written is done without.
  }
  return { signals, kept: false };
}
