// The lint rules that hold Electron's security checklist are seen to fail on a planted fault each.
import { ESLint } from "eslint";
import { describe, expect, it } from "vitest";

const eslint = new ESLint();

async function findings(code: string, filePath: string): Promise<readonly (string | null)[]> {
  const [result] = await eslint.lintText(code, { filePath });
  return result!.messages
    .filter(({ ruleId }) => ruleId === "no-restricted-syntax" || ruleId === "no-restricted-imports")
    .map(({ ruleId }) => ruleId);
}

const MAIN: Readonly<Record<string, string>> = {
  "a window with options of its own":
    'import { BrowserWindow } from "electron"; export const w = new BrowserWindow({ width: 3 });',
  "a window without options": 'import { BrowserWindow } from "electron"; export const w = new BrowserWindow();',
  "a window by the package's object":
    'import * as electron from "electron"; export const w = new electron.BrowserWindow({});',
  openExternal: 'import { shell } from "electron"; export const o = () => shell.openExternal("https://rides.example");',
  "Node in the page": "export const o = { nodeIntegration: true };",
  "no isolation": "export const o = { contextIsolation: false };",
  "no sandbox": "export const o = { sandbox: false };",
  "a scheme that goes round the policy": "export const o = { bypassCSP: true };",
  "features of the engine": 'export const o = { enableBlinkFeatures: "X" };',
  "net.fetch": 'import { net } from "electron"; export const f = () => net.fetch("x");',
  "a file address": 'export const a = "file:///etc/passwd";',
};

const PAGE: Readonly<Record<string, string>> = {
  "markup from text in an element": 'export const a = <div dangerouslySetInnerHTML={{ __html: "x" }} />;',
  innerHTML: 'export const a = (e: HTMLElement) => { e.innerHTML = "x"; };',
  "a page from text": 'export const a = <iframe srcDoc="x" />;',
  eval: 'export const a = () => eval("1") as unknown;',
};

describe("planted faults are found", () => {
  it.each(Object.entries(MAIN))("main: %s", async (_name, code) => {
    expect(await findings(code, "main/app/electron/main.ts")).toContain("no-restricted-syntax");
  });
  it.each(Object.entries(PAGE))("page: %s", async (_name, code) => {
    expect(await findings(code, "renderer/main.tsx")).toContain("no-restricted-syntax");
  });
  it("Electron outside its room", async () => {
    expect(await findings('import { app } from "electron"; export const a = app;', "main/app/program.ts")).toEqual([
      "no-restricted-imports",
    ]);
  });
  it("a window made as it should be is let be", async () => {
    expect(
      await findings(
        'import { BrowserWindow } from "electron"; import { windowOptions } from "./windowOptions.ts"; export const w = new BrowserWindow(windowOptions("x"));',
        "main/app/electron/main.ts",
      ),
    ).toEqual([]);
  });
});
