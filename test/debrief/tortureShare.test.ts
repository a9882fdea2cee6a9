// A share of `npm run torture`; the whole of it runs by hand.
import { expect, test } from "vitest";
import { DOCUMENT_KINDS, documentRun } from "../torture/documents.ts";
import { killedSaves } from "../torture/saves.ts";

test.each(DOCUMENT_KINDS.map((kind) => [kind.name, kind] as const))(
  "damaged copies of a %s are read, or refused by name",
  (_name, kind) => {
    for (const bytes of kind.seeds) expect(() => kind.read(bytes)).not.toThrow();
    expect(documentRun(kind, 200, 20261128)).toEqual([]);
  },
  60_000,
);

test("killed while saving 8 times: what was said to be saved is there", async () => {
  const { tried, faults } = await killedSaves(8, 32, Date.now() + 60_000);
  expect(faults).toEqual([]);
  expect(tried).toBeGreaterThan(0);
}, 120_000);
