import { build } from "esbuild";
import { resolve } from "node:path";

/**
 * Bundles a program of this folder that is started and killed.
 * @param packed packages are packed in: it starts sooner (not where one of them is machine code)
 * @returns where it is
 */
export async function buildChild(name: string, packed = true): Promise<string> {
  const outfile = resolve("dist", "test", `${name}.mjs`);
  await build({
    entryPoints: [`test/torture/${name}.ts`],
    outfile,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "esm",
    ...(packed ? {} : { packages: "external" as const }),
    logLevel: "error",
  });
  return outfile;
}
