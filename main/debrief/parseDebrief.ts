import { z } from "zod";
import { Failure } from "../contract/failure.ts";
import type { DebriefDocument } from "../contract/debrief.ts";
import { DEBRIEF_SCHEMA, debriefSchema } from "./debriefDocument.ts";
import { filmMark } from "./filmMark.ts";
import { columnsAsLists } from "./filmSchema.ts";
import { fromSchema1 } from "./fromSchema1.ts";

/** Turns the document of one schema version into that of the next; pure. */
export type Migration = (old: Record<string, unknown>) => Record<string, unknown>;

/** `MIGRATIONS[n]` takes version n to n + 1. */
export const MIGRATIONS: Readonly<Record<number, Migration>> = { 1: fromSchema1 };

export interface OpenedDebrief {
  readonly document: DebriefDocument;
  /** Version of the form that the text has. */
  readonly schema: number;
  /** Why it may only be looked at, in words; null when it may be changed. */
  readonly readOnly: string | null;
}

/** The document brought up from its own version to the newest by the migrations given. */
export function migrate(
  old: Record<string, unknown>,
  from: number,
  to: number,
  migrations: Readonly<Record<number, Migration>>,
): Record<string, unknown> {
  let document = old;
  for (let version = from; version < to; version++) {
    const step = migrations[version];
    if (step === undefined) throw new Error(`no migration from schema ${version}`);
    document = { ...step(document), schema: version + 1 };
  }
  return document;
}

/**
 * A debrief from the text of `debrief.json`. A newer schema opens read-only where what this program knows of it is
 * there. Failure `debrief-not-usable` names the file and the first thing wrong.
 */
export function parseDebrief(text: string, fileName: string): OpenedDebrief {
  const refuse = (what: string): Failure =>
    new Failure(
      "debrief-not-usable",
      `${fileName} is not a usable debrief: ${what}.`,
      "Use the copy beside it that ends in .bak, or make the debrief again.",
    );
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    throw refuse("it is not JSON, or it was cut off");
  }
  const head = z.object({ schema: z.number().int().positive() }).loose().safeParse(json);
  if (!head.success) throw refuse("it does not say which schema it has");
  const { schema } = head.data;
  const newer = schema > DEBRIEF_SCHEMA;
  const current: unknown = newer
    ? { ...head.data, schema: DEBRIEF_SCHEMA }
    : migrate(head.data, schema, DEBRIEF_SCHEMA, MIGRATIONS);
  const parsed = debriefSchema.safeParse(current);
  if (parsed.success)
    return {
      document: noticingEdits(parsed.data),
      schema,
      readOnly: newer ? `${fileName} was made by a newer version of this program` : null,
    };
  if (newer)
    throw new Failure(
      "debrief-not-usable",
      `${fileName} was made by a newer version of this program (schema ${schema}).`,
      "Update this program to open it.",
    );
  const issue = parsed.error.issues[0];
  throw refuse(`${issue?.path.join(".") || "the file"}: ${issue?.message ?? "not as it should be"}`);
}

/** A film that was changed in the file itself is the coach's from then on. */
function noticingEdits(document: DebriefDocument): DebriefDocument {
  const { film, filmMark: written } = document;
  if (film === null || written === null || document.filmSetBy === "coach" || filmMark(film) === written)
    return document;
  return { ...document, filmSetBy: "coach", filmMark: null };
}

/** The text of `debrief.json`, a line per value so that two versions can be compared; ends in a line break. */
export function debriefText(document: DebriefDocument): string {
  return `${JSON.stringify(document, columnsAsLists, 1)}\n`;
}
