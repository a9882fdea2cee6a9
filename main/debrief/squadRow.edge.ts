import { join } from "node:path";
import type { SquadKept } from "../contract/squad.ts";
import { refuseLinks } from "../host/refuseLinks.edge.ts";
import { PRIVATE, writeAtomic } from "../host/writeAtomic.edge.ts";
import { parseSquadRow } from "./squadRow.ts";
import { readText } from "../host/readText.edge.ts";

/** What a batch keeps in a debrief's folder for the squad's page; it goes with the folder. */
export const SQUAD_ROW_FILE = "squad-row.json";

/** What was kept of a ride; null: nothing, or nothing that can be read. */
export async function loadSquadRow(folder: string): Promise<SquadKept | null> {
  await refuseLinks(folder, [SQUAD_ROW_FILE]);
  const json = await readText(join(folder, SQUAD_ROW_FILE)).catch(() => null);
  return json === null ? null : parseSquadRow(json);
}

/** Keeps what is told of a ride, or why there is nothing. Failures: `output-not-writable`, `folder-with-links`. */
export async function saveSquadRow(folder: string, kept: SquadKept): Promise<void> {
  await refuseLinks(folder, [SQUAD_ROW_FILE]);
  await writeAtomic(join(folder, SQUAD_ROW_FILE), `${JSON.stringify(kept)}\n`, PRIVATE);
}
