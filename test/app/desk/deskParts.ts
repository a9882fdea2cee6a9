import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { expect } from "vitest";
import type { DebriefDocument, Edit } from "../../../main/contract/debrief.ts";
import type { HandOverChoices } from "../../../main/contract/debriefApi.ts";
import { debriefSchema } from "../../../main/debrief/debriefDocument.ts";
import type { OpenDesk } from "./openDesk.ts";

/** A draft for the athlete, as the tests of the desk hand over. */
export const CHOICES: HandOverChoices = {
  forWhom: "athlete",
  preset: "draft",
  language: "en",
  asPercent: false,
  playingPage: false,
  slowSound: "stretched",
  agreed: [],
};

/** The debrief as it lies in its folder. */
export async function documentIn(folder: string): Promise<DebriefDocument> {
  return debriefSchema.parse(JSON.parse(await readFile(join(folder, "debrief.json"), "utf8")));
}

/** Makes an edit on the desk as it stands. */
export function made(edit: Edit, open: OpenDesk): Promise<void> {
  return open.api.edit(edit, open.view().edit);
}

/** Values and columns of the window's binary form, decoded by its documentation alone. */
export function unpacked(bytes: Uint8Array<ArrayBuffer>) {
  const view = new DataView(bytes.buffer);
  const length = view.getUint32(0, true);
  const header = JSON.parse(new TextDecoder().decode(bytes.subarray(4, 4 + length))) as {
    values: Record<string, unknown>;
    columns: { name: string; type: "float64" | "uint8"; offset: number; count: number }[];
  };
  expect((4 + length) % 8).toBe(0);
  const columns = new Map(
    header.columns.map(({ name, type, offset, count }) => [
      name,
      type === "uint8" ? new Uint8Array(bytes.buffer, offset, count) : new Float64Array(bytes.buffer, offset, count),
    ]),
  );
  return { values: header.values, columns };
}

/** What the desk lends the window at an address. */
export async function lent(open: OpenDesk, address: string): Promise<Uint8Array<ArrayBuffer>> {
  const found = open.shelf.find(address);
  if (found?.kind !== "bytes") throw new Error(`nothing lent at ${address}`);
  return (await found.make())!;
}
