import { createHash } from "node:crypto";
import { existsSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { mkdir, mkdtemp, rename, writeFile } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import { makeDemo } from "../../main/demo/makeDemo.edge.ts";
import { testTools } from "../support/tools.ts";

/** The demo's files at small size, as the window's tests use them. */
export interface DemoFiles {
  readonly folder: string;
  readonly rideName: string;
  readonly clipNames: readonly string[];
  /** `CLIP@T=RIDE_T`, CLIP as a bare name. */
  readonly anchor: string;
}

/** Makes the small demo once for each state of its sources and keeps it in dist/, since filming it takes a while. */
export async function demoFiles(): Promise<DemoFiles> {
  const hash = createHash("sha256");
  for (const file of readdirSync("main/demo", { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .sort())
    hash.update(readFileSync(join("main/demo", file)));
  const folder = resolve("dist", "test-demo", hash.digest("hex").slice(0, 16));
  const facts = join(folder, "facts.json");
  if (!existsSync(facts)) {
    await mkdir(resolve("dist", "test-demo"), { recursive: true });
    const draft = await mkdtemp(resolve("dist", "test-demo", "draft-"));
    const demo = await makeDemo(
      draft,
      testTools(),
      { signal: new AbortController().signal, report: () => undefined },
      { small: true },
    );
    const clipNames = demo.clipPaths.map((path) => basename(path));
    const anchor = demo.anchor.slice(demo.anchor.lastIndexOf("/") + 1);
    await writeFile(
      join(draft, "facts.json"),
      JSON.stringify({ rideName: basename(demo.ridePath), clipNames, anchor }),
    );
    // Another test file may have been first.
    await rename(draft, folder).catch(() => rmSync(draft, { recursive: true, force: true }));
  }
  return { folder, ...(JSON.parse(readFileSync(facts, "utf8")) as Omit<DemoFiles, "folder">) };
}
