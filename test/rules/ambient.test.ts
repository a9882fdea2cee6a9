// A pure file takes no time, chance, process or clock from its surroundings: each way to do so is planted and found.
import { ESLint } from "eslint";
import tseslint from "typescript-eslint";
import { describe, expect, it } from "vitest";

/** These rules ask for no types, whose loading takes most of a minute. */
const eslint = new ESLint({ overrideConfig: [tseslint.configs.disableTypeChecked] as never });
const PURE_FILES = ["main/reading/band.ts", "overlay/theme.ts", "main/contract/presets.ts", "main/page/parts.tsx"];

async function findings(code: string, filePath: string): Promise<readonly (string | null)[]> {
  const [result] = await eslint.lintText(code, { filePath });
  return result!.messages.map(({ ruleId }) => ruleId).filter((rule) => rule?.startsWith("no-restricted-") ?? true);
}

const PLANTED: Readonly<Record<string, string>> = {
  process: "export const a = process.env;",
  "process by globalThis": "export const a = globalThis.process;",
  "process by global": "export const a = global.process;",
  "process taken apart": "export const { process: a } = globalThis;",
  "the time": "export const a = Date.now();",
  "the time by brackets": 'export const a = Date["now"]();',
  "the time as a new date": "export const a = new Date();",
  "the time as a text": "export const a = Date();",
  "the time taken apart": "export const { now } = Date;",
  "the time by another name": "const D = Date; export const a = new D();",
  "the time by globalThis": "export const a = globalThis.Date.now();",
  "a running clock": "export const a = performance.now();",
  chance: "export const a = Math.random();",
  "chance by brackets": 'export const a = Math["random"]();',
  "chance taken apart": "export const { random } = Math;",
  "chance by another name": "const M = Math; export const a = M.random();",
  "chance by globalThis": "export const a = globalThis.Math.random();",
  crypto: "export const a = crypto.randomUUID();",
  "crypto by globalThis": "export const a = globalThis.crypto;",
  "crypto taken apart": "export const { crypto: a } = globalThis;",
  "a timer": "export const a = setTimeout(() => 1, 5);",
  "code from text": 'export const a = new Function("return 1");',
};

describe("what surrounds a pure file", () => {
  it.each(Object.entries(PLANTED))("%s is found", async (_name, code) => {
    for (const file of PURE_FILES) expect(await findings(code, file), file).not.toEqual([]);
  });

  it("leaves alone what computes on values handed in", async () => {
    const code = `export const year = (ms: number): number => new Date(ms).getUTCFullYear();
export const first = Date.UTC(2020, 0, 1) + Date.parse("2020-01-01");
export const isDate = (value: unknown): value is Date => value instanceof Date;
export const root = Math.sqrt(2);
`;
    for (const file of PURE_FILES) expect(await findings(code, file), file).toEqual([]);
  });

  it("lets an edge touch the machine", async () => {
    expect(await findings("export const a = process.env;", "main/ride/readRide.edge.ts")).toEqual([]);
  });
});
