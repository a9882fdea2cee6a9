import { mkdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Clip } from "../../contract/footage.ts";
import type { ClipSignals } from "../../contract/signals.ts";
import type { Tools } from "../../contract/tools.ts";
import { readSignals, type SignalOptions } from "./readSignals.edge.ts";
import { parseSignals, SIGNALS_VERSION, signalsText } from "./signalsText.ts";

/** A clip's signals and whether they were kept from an earlier reading. */
export interface FoundSignals {
  readonly signals: ClipSignals;
  readonly kept: boolean;
}

/**
 * `readSignals`, kept under `cacheDir` by the clip's fingerprint, so that a clip is looked at once wherever it lies. A
 * cache that cannot be written is done without. What was broken off by the signal is not kept.
 */
export async function cachedSignals(clip: Clip, tools: Tools, cacheDir: string, options: SignalOptions): Promise<FoundSignals> {
  const folder = join(cacheDir, "signals");
  const path = join(folder, `${clip.fingerprint}-${SIGNALS_VERSION}.json`);
  const before = await readFile(path, "utf8").then((text) => parseSignals(text, clip.id), () => null);
  if (before) return { signals: { ...before, warnings: before.warnings.map((words) => words.replaceAll("{clip}", clip.fileName)) }, kept: true };
  const signals = await readSignals(clip, tools, options);
  if (options.signal?.aborted) return { signals, kept: false };
  const part = `${path}.${process.pid}.part`;
  try {
    await mkdir(folder, { recursive: true });
    await writeFile(part, signalsText({ ...signals, warnings: signals.warnings.map((words) => words.replaceAll(clip.fileName, "{clip}")) }));
    await rename(part, path);
  } catch {
    await rm(part, { force: true }).catch(() => undefined);
  }
  return { signals, kept: false };
}
