// The lint rule against looking into sentences is seen to fail on a planted one of each kind, and lets plain code be.
import { ESLint } from "eslint";
import { describe, expect, it } from "vitest";

const eslint = new ESLint();

async function found(code: string, filePath: string): Promise<boolean> {
  const [result] = await eslint.lintText(code, { filePath });
  return result!.messages.some(
    ({ ruleId, message }) => ruleId === "no-restricted-syntax" && message.includes("its code and facts"),
  );
}

const PLANTED = {
  "a message searched": 'export const a = (e: Error) => e.message.includes("ambiguous");',
  "a message that may be missing": 'export const a = (e?: Error) => e?.message.startsWith("No");',
  "a message matched": "export const a = (e: Error) => e.message.match(/full/);",
  "a message tested": "export const a = (e: Error) => /full/.test(e.message);",
  "a sentence compared": 'export const a = (f: { sentence: string }) => f.sentence === "x";',
  "what a program said": 'export const a = (stderr: string) => stderr.includes("denied");',
  "a sentence of ours, by any name": 'export const a = (s: string) => s === "The disk is full.";',
  "words of one, by any name": 'export const a = (s: string) => s.includes("not sure");',
  "words of one, by a pattern": "export const a = (s: string) => /could not be/.test(s);",
} as const;

describe("no sentence is parsed or compared", () => {
  it.each(Object.entries(PLANTED))("%s", async (_name, code) => {
    expect(await found(code, "main/cli/options.ts")).toBe(true);
  });

  it.each([
    "main/journey/judge.ts",
    "main/app/desk/jobQueue.ts",
    "main/film/chooseFilm.ts",
    "main/host/program.edge.ts",
    "main/handover/pageHtml.tsx",
    "overlay/words/askedWords.ts",
    "renderer/skim/Skim.tsx",
  ])("in %s", async (file) => {
    expect(await found(PLANTED["words of one, by any name"], file)).toBe(true);
  });

  it("tags, paths and codes are compared as ever", async () => {
    const plain = [
      'export const a = (v: string) => v === "rose from the start" || v.includes("\\0") || v.startsWith("--");',
      'export const b = (e: NodeJS.ErrnoException) => e.code === "ENOENT";',
    ].join("\n");
    expect(await found(plain, "main/cli/options.ts")).toBe(false);
  });
});
