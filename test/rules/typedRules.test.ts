// What takes types to tell is told by oxlint: its rules are those that typescript-eslint recommends, and each is seen to
// fail in a tree with one violation of each.
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import tseslint from "typescript-eslint";
import { afterAll, expect, test } from "vitest";

/** A line of each rule that it finds fault with; `any` comes from JSON.parse, as it does in life. */
const PLANTED: Readonly<Record<string, string>> = {
  "await-thenable": "export async function a() { await 1; }",
  "no-array-delete": "export function b(values: number[]) { delete values[0]; }",
  "no-base-to-string": "export const c = (one: { x: number }) => `${String(one)}`;",
  "no-duplicate-type-constituents": 'export type D = "x" | "x";',
  "no-floating-promises": "export function e() { Promise.resolve(1); }",
  "no-for-in-array":
    "export function f(values: number[]) { for (const at in values) g(at); } declare function g(x: string): void;",
  "no-implied-eval": 'export const h = () => new Function("return 1") as unknown;',
  "no-misused-promises":
    "export const i = (values: number[]) => { values.forEach(async () => { await Promise.resolve(); }); };",
  "no-redundant-type-constituents": "export type J = unknown | string;",
  "no-unnecessary-type-assertion": "export const k = (x: number) => x as number;",
  "no-unsafe-argument": "export const l = () => m(JSON.parse('1')); const m = (x: number) => x;",
  "no-unsafe-assignment": "export function n() { const x = JSON.parse('1'); return [x] as unknown[]; }",
  "no-unsafe-call": "export const o = () => { JSON.parse('1')(); };",
  "no-unsafe-enum-comparison": "enum P { one } export const p = (x: P) => x === 0;",
  "no-unsafe-member-access":
    "export const q = () => { r(JSON.parse('1').x as number); }; declare function r(x: number): void;",
  "no-unsafe-return": "export const s = (): number => JSON.parse('1');",
  "no-unsafe-unary-minus": "export const t = (x: string) => -x;",
  "only-throw-error": 'export function u() { throw "x"; }',
  "prefer-promise-reject-errors": 'export const v = () => Promise.reject("x");',
  "require-await": "export async function w() { return 1; }",
  "restrict-plus-operands": "export const x = (one: { y: number }) => one + 'a';",
  "restrict-template-expressions": "export const y = (one: { z: number }) => `${one}`;",
  "unbound-method": "class Z { at = 1; get() { return this.at; } } export const z = new Z().get;",
};
/** In tests `any` goes where it likes: what they check is what a program or file gave. */
const FREE_IN_TESTS = Object.keys(PLANTED).filter((rule) =>
  /^no-unsafe-(argument|assignment|call|member-access|return)$/.test(rule),
);

const tree = mkdtempSync(join(tmpdir(), "followcar-typed-"));
afterAll(() => rmSync(tree, { recursive: true, force: true }));

/** Rules found broken at each line of each file. */
function foundIn(): Map<string, Set<string>> {
  const program = resolve("node_modules/oxlint/bin/oxlint");
  const args = [program, "--type-aware", "--format", "json", "--threads", "1", "main", "test"];
  const { stdout, stderr } = spawnSync(process.execPath, args, { cwd: tree, encoding: "utf8" });
  const found = new Map<string, Set<string>>();
  interface Said {
    readonly diagnostics: readonly { code: string; filename: string; labels: readonly { span: { line: number } }[] }[];
  }
  expect(stdout, stderr).toContain("diagnostics");
  for (const { code, filename, labels } of (JSON.parse(stdout) as Said).diagnostics) {
    const at = `${filename.replaceAll("\\", "/")}:${labels[0]!.span.line}`;
    found.set(at, (found.get(at) ?? new Set()).add(/\((.*)\)/.exec(code)![1]!));
  }
  return found;
}

test("its rules are those that typescript-eslint recommends where types are known", () => {
  const rulesOf = (configs: readonly { readonly rules?: object | undefined }[]) =>
    configs.flatMap(({ rules }) => Object.entries(rules ?? {})).filter(([, level]) => level !== "off");
  const without = new Set(rulesOf(tseslint.configs.recommended).map(([name]) => name));
  const typed = rulesOf(tseslint.configs.recommendedTypeChecked).filter(([name]) => !without.has(name));
  const { rules } = JSON.parse(readFileSync(".oxlintrc.json", "utf8")) as { rules: Record<string, string> };
  expect(Object.keys(rules).sort()).toEqual(
    typed.map(([name]) => name.replace("@typescript-eslint", "typescript")).sort(),
  );
  expect(new Set(Object.values(rules))).toEqual(new Set(["error"]));
  expect(
    Object.keys(PLANTED)
      .map((name) => `typescript/${name}`)
      .sort(),
  ).toEqual(Object.keys(rules).sort());
});

test("each is seen to fail, in a pure file and in a test", { timeout: 120_000 }, () => {
  mkdirSync(join(tree, "node_modules/@types/node"), { recursive: true });
  writeFileSync(join(tree, "node_modules/@types/node/index.d.ts"), "export {};");
  for (const name of [".oxlintrc.json", "tsconfig.json", "main/tsconfig.json", "test/tsconfig.json"]) {
    mkdirSync(dirname(join(tree, name)), { recursive: true });
    cpSync(name, join(tree, name));
  }
  const text = Object.values(PLANTED).join("\n");
  for (const name of ["main/planted.ts", "test/planted.ts"]) writeFileSync(join(tree, name), text);
  const found = foundIn();
  Object.keys(PLANTED).forEach((rule, k) => {
    expect([...(found.get(`main/planted.ts:${k + 1}`) ?? [])], `main: ${rule}`).toContain(rule);
    const inTest = found.get(`test/planted.ts:${k + 1}`) ?? new Set();
    expect(inTest.has(rule), `test: ${rule}`).toBe(!FREE_IN_TESTS.includes(rule));
  });
});
