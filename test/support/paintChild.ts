import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";

let built: Promise<unknown> | null = null;

/** Bundles the painting child from the sources as they are, to the place where the program looks for it. */
export async function buildPaintChild(): Promise<void> {
  const root = process.cwd();
  mkdirSync(join(root, "dist"), { recursive: true });
  built ??= build({
    entryPoints: { paintChild: join(root, "main", "render", "paintChild.edge.ts") },
    outdir: join(root, "dist"),
    outExtension: { ".js": ".mjs" },
    bundle: true,
    platform: "node",
    target: "node20",
    format: "esm",
    packages: "external",
    logLevel: "error",
  });
  await built;
}
