import { readFileSync } from "node:fs";
import { projectFile } from "./projectFile.edge.ts";

/** This program's version, as its package says. */
export function programVersion(): string {
  return (JSON.parse(readFileSync(projectFile("package.json"), "utf8")) as { readonly version: string }).version;
}
