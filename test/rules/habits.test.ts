// Habits that the linter keeps: files are made whole in one place, and no function of the window is longer than a look.
import { ESLint } from "eslint";
import { expect, test } from "vitest";

const eslint = new ESLint();

async function found(rule: string, code: string, filePath: string): Promise<boolean> {
  const [result] = await eslint.lintText(code, { filePath });
  return result!.messages.some(({ ruleId }) => ruleId === rule);
}

test.each(["rename", "renameSync"])("%s stands in the one file that writes whole", async (name) => {
  const from = name === "rename" ? "node:fs/promises" : "fs";
  const code = `import { ${name} } from "${from}"; export const make = ${name};`;
  for (const path of ["main/debrief/debriefStore.edge.ts", "main/app/desk/saver.ts", "main/host/log.edge.ts"])
    expect(await found("no-restricted-imports", code, path), path).toBe(true);
  expect(await found("no-restricted-imports", code, "main/host/writeAtomic.edge.ts")).toBe(false);
});

test("a function of the window has 80 lines at most, comments and blank lines left out", async () => {
  const ofLines = (lines: number) =>
    `export function long(x: number) {\n  // What it does.\n\n${"  x += 1;\n".repeat(lines - 3)}  return x;\n}\n`;
  expect(await found("max-lines-per-function", ofLines(80), "renderer/skim/Skim.tsx")).toBe(false);
  expect(await found("max-lines-per-function", ofLines(81), "renderer/skim/Skim.tsx")).toBe(true);
});
