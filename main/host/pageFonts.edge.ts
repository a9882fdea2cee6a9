import { readFile } from "node:fs/promises";
import type { PageFont } from "../contract/pageFont.ts";
import { projectFile } from "./projectFile.edge.ts";

const WEIGHTS = [500, 600] as const;

/** The panels' own face, for pages that must work offline. */
export function pageFonts(): Promise<PageFont[]> {
  return Promise.all(
    WEIGHTS.map(async (weight) => ({
      weight,
      woff2Base64: await readFile(
        projectFile("assets", "fonts", `barlow-semi-condensed-latin-${weight}-normal.woff2`),
        "base64",
      ),
    })),
  );
}
